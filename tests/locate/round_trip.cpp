// Every single fault of every network that comes with the program, there and back: the scan that it gives without any
// noise is located again. First must stand
//   - the line of alike explanations that holds the fault, or
//   - a strictly simpler explanation, one with fewer faults, that gives the very same scan, or
//   - one as simple that gives the very same scan and weighs more: no evidence tells the two apart, so the likelier
//   must
//     be first (one line of a stub open where a module that need not be fitted falls silent).
// Apart from these stands what the tables of rates and likelihoods decide: the little that a rare fault shows may come
// about by chance more likely than by the fault. Weights are taken here from the evidence and the predictions, not from
// the search. A few faults of each network by default; WHICHWIRE_ROUND_TRIP=all takes all of them, which takes long,
// and WHICHWIRE_ROUND_TRIP=van-base all of that network.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <whichwire/expected_scan.hpp>
#include <whichwire/findings.hpp>

#include "effort.hpp"
#include "shipped.hpp"

using namespace whichwire;

namespace {

/// How many faults lie between those that are taken.
std::size_t stride(const std::string& network, std::size_t faults) {
  const char* wanted = std::getenv("WHICHWIRE_ROUND_TRIP");
  if (wanted != nullptr && (std::string(wanted) == "all" || wanted == network)) return 1;
  return std::max<std::size_t>(1, faults / test::share_of(4));
}

double log_weight(const Effects& effects, const std::vector<Fault>& faults, const Ranking& ranking) {
  std::vector<Question> questions;
  for (const auto& observation : ranking.evidence) questions.push_back(observation.question);
  const auto levels = effects.predict(faults, questions, {});
  double weight = faults.empty() ? std::log(LocateOptions{}.no_fault) : 0;
  for (const auto& fault : faults) weight += std::log(fault.odds);
  for (std::size_t o = 0; o < levels.size(); ++o) {
    weight += ranking.evidence[o].log_likelihood[static_cast<std::size_t>(levels[o])];
  }
  return weight;
}

/// Log weight of all alike explanations of a line that are shown; at least one of its own.
double log_weight(const Effects& effects, const Explanation& line, const Ranking& ranking) {
  double sum = std::exp(log_weight(effects, line.faults, ranking));
  for (const auto& faults : line.alike) sum += std::exp(log_weight(effects, faults, ranking));
  return std::log(sum);
}

bool holds(const Explanation& line, const Fault& fault) {
  const std::vector<Fault> alone = {fault};
  return line.faults == alone || std::count(line.alike.begin(), line.alike.end(), alone) != 0;
}

struct Outcome {
  std::string network, fault;
  enum class Kind : std::uint8_t { as_it_must_be, chance, wrong } kind = Kind::as_it_must_be;
  std::string first;
};

std::string words_of(const Network& network, const Explanation& line) {
  std::string words = line.faults.empty() ? "no fault" : "";
  for (const auto& fault : line.faults) words += (words.empty() ? "" : " + ") + text_of(network, fault);
  return words + ", at least " + std::to_string(line.probability.low);
}

Outcome::Kind kind_of(const Effects& effects, const Fault& fault, const Scan& scan, const Ranking& ranking) {
  using Kind = Outcome::Kind;
  if (ranking.explanations.empty()) return Kind::wrong;
  const Explanation& first = ranking.explanations.front();
  if (holds(first, fault)) return Kind::as_it_must_be;
  if (first.faults.size() > 1) return Kind::wrong;
  const bool same_scan = expected_scan(effects, first.faults).scan == scan;
  if (same_scan && first.faults.empty()) return Kind::as_it_must_be;
  const double weight = log_weight(effects, first, ranking);
  if (weight < log_weight(effects, {fault}, ranking)) return Kind::wrong;
  for (const auto& line : ranking.explanations) {
    if (holds(line, fault) && weight < log_weight(effects, line, ranking)) return Kind::wrong;
  }
  return same_scan ? Kind::as_it_must_be : Kind::chance;
}

std::vector<Outcome> there_and_back() {
  std::vector<Outcome> outcomes;
  for (const std::string& name : test::some_of(test::shipped_names())) {
    const Network network = test::shipped(name);
    const Effects effects(network);
    const auto faults = faults_of(network);
    for (std::size_t i = 0; i < faults.size(); i += stride(name, faults.size())) {
      const Scan scan = expected_scan(effects, {&faults[i], 1}).scan;
      const Ranking ranking = locate(effects, faults, scan);
      outcomes.push_back({name, text_of(network, faults[i]), kind_of(effects, faults[i], scan, ranking),
                          ranking.explanations.empty() ? "" : words_of(network, ranking.explanations.front())});
    }
  }
  return outcomes;
}

const std::vector<Outcome>& outcomes() {
  static const auto all = there_and_back();
  return all;
}

void check_none(Outcome::Kind kind) {
  for (const auto& outcome : outcomes()) {
    CAPTURE(outcome.network);
    CAPTURE(outcome.fault);
    CAPTURE(outcome.first);
    CHECK(outcome.kind != kind);
  }
}

}  // namespace

TEST_CASE("for the scan of a single fault its own line is first, or what gives the same scan, or what weighs more") {
  CHECK(outcomes().size() >= test::some_of(test::shipped_names()).size());
  check_none(Outcome::Kind::wrong);
}

TEST_CASE("for the scan of a single fault no other is first that gives another scan") {
  check_none(Outcome::Kind::chance);
}
