// The verdict: the probabilities of a class summed, the largest class named, worded no stronger than it is likely.
// Probabilities count by the lower ends of their intervals: these sum to one less what may lie outside the list. Alike
// sets in one line may be of different classes, so each set counts by its own share and class.
// It says where the fault is, never what to buy: see what must be ruled out first. Tests: tests/checks/verdict.cpp.
#include <algorithm>
#include <array>
#include <whichwire/check.hpp>

#include "checks/headline.hpp"
#include "checks/hypotheses.hpp"
#include "locate/coarse.hpp"
#include "locate/verdict_class.hpp"

namespace whichwire {
namespace {

constexpr std::size_t class_count = 10;
constexpr double least_share = 0.02;  // of its class: a part below that is not named
constexpr double sure_enough = 0.7;   // a class below that is named together with the next, where both are sure enough

struct Part {
  std::string id;
  double weight = 0;
};

void add_parts(std::vector<Part>& parts, const std::vector<std::string>& ids, double weight) {
  for (const std::string& id : ids) {
    const auto known = std::find_if(parts.begin(), parts.end(), [&](const Part& part) { return part.id == id; });
    if (known == parts.end()) {
      parts.push_back({id, weight});
    } else {
      known->weight += weight;
    }
  }
}

/// Calls `take(faults, weight)` for every set of faults of the ranking, alike ones too.
void each_set(const Ranking& ranking, const auto& take) {
  for (const Explanation& explanation : ranking.explanations) {
    const std::vector<double> shares = shares_of(explanation);
    const double weight = explanation.probability.low;
    take(explanation.faults, weight * shares[0]);
    for (std::size_t i = 0; i < explanation.alike.size(); ++i) take(explanation.alike[i], weight * shares[i + 1]);
  }
}

/// The parts that the sets of the class name, most probable first.
std::vector<std::string> parts_of(Classes& classes, const Ranking& ranking, VerdictClass wanted, double mass) {
  std::vector<Part> parts;
  each_set(ranking, [&](const std::vector<Fault>& faults, double weight) {
    if (classes.of(faults) == wanted) add_parts(parts, classes.parts_of(faults), weight);
  });
  std::stable_sort(parts.begin(), parts.end(),
                   [](const Part& a, const Part& b) { return coarse(a.weight) > coarse(b.weight); });
  std::vector<std::string> ids;
  for (const Part& part : parts) {
    if (ids.empty() || part.weight >= least_share * mass) ids.push_back(part.id);
  }
  return ids;
}

bool silent(const Network& network, const Ranking& ranking, const std::vector<std::string>& parts) {
  return std::any_of(ranking.evidence.begin(), ranking.evidence.end(), [&](const Observation& seen) {
    return seen.abnormal && seen.question.about == Question::About::answers && !parts.empty() &&
           network.modules.at(seen.question.a).id == parts.front();
  });
}

/// The only bus that the sets of the class gateway have to do with, where each is the gateway's own wires or port
/// there.
std::string only_port(const Network& network, const Ranking& ranking, Classes& classes, VerdictClass wanted) {
  if (wanted != VerdictClass::gateway) return "";
  std::size_t bus = nowhere;
  bool only = true;
  each_set(ranking, [&](const std::vector<Fault>& faults, double) {
    if (!only || classes.of(faults) != wanted) return;
    for (const Fault& fault : faults) {
      if (fault.kind == FaultKind::not_fitted) continue;
      const bool port = fault.part == PartKind::segment || fault.kind == FaultKind::port_dead;
      only = only && port && (bus == nowhere || bus == fault.bus);
      bus = fault.bus;
    }
  });
  return only && bus != nowhere ? network.buses.at(bus).id : "";
}

}  // namespace

Verdict verdict_of(const Network& network, const Ranking& ranking) {
  Verdict verdict;
  if (ranking.explanations.empty()) {
    verdict.verdict_class = VerdictClass::contradictory;
    verdict.headline = "This scan contradicts itself: no set of faults fits it";
    return verdict;
  }
  Classes classes(network);
  std::array<double, class_count> mass{};
  each_set(ranking, [&](const std::vector<Fault>& faults, double weight) {
    mass.at(static_cast<std::size_t>(classes.of(faults))) += weight;
  });
  const auto largest = std::max_element(mass.begin(), mass.end());
  verdict.verdict_class = static_cast<VerdictClass>(largest - mass.begin());
  verdict.probability = std::clamp(*largest, 0.0, 1.0);
  verdict.parts = parts_of(classes, ranking, verdict.verdict_class, *largest);
  *largest = 0;
  const auto second = std::max_element(mass.begin(), mass.end());
  const auto named = [&](VerdictClass one, const std::vector<std::string>& parts) {
    return Named{one, parts, silent(network, ranking, parts), only_port(network, ranking, classes, one)};
  };
  std::vector<Named> said = {named(verdict.verdict_class, verdict.parts)};
  verdict.headline_probability = verdict.probability;
  const double both = std::min(1.0, verdict.probability + *second);
  if (verdict.probability < sure_enough && *second >= verdict.probability / 2 && both >= sure_enough) {
    const auto also = static_cast<VerdictClass>(second - mass.begin());
    said.push_back(named(also, parts_of(classes, ranking, also, *second)));
    verdict.headline_probability = both;
  }
  verdict.headline = headline_of(network, ranking, said, verdict.headline_probability);
  return verdict;
}

}  // namespace whichwire
