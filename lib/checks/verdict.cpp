// The verdict: the probabilities of a class summed, the largest class named, worded no stronger than it is likely.
// Probabilities count by the lower ends of their intervals: these sum to one less what may lie outside the list. Alike
// sets in one line may be of different classes, so each set counts by its own share and class.
// It says where the fault is, never what to buy: see what must be ruled out first. Tests: tests/checks/verdict.cpp.
#include <algorithm>
#include <array>
#include <whichwire/check.hpp>

#include "checks/hypotheses.hpp"
#include "locate/verdict_class.hpp"

namespace whichwire {
namespace {

constexpr std::size_t class_count = 10;
constexpr double least_share = 0.02;   // of its class: a part below that is not named
constexpr std::size_t most_named = 4;  // parts in a headline

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
  std::stable_sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.weight > b.weight; });
  std::vector<std::string> ids;
  for (const Part& part : parts) {
    if (ids.empty() || part.weight >= least_share * mass) ids.push_back(part.id);
  }
  return ids;
}

std::string_view how_sure(double probability) {
  if (probability >= 0.99) return "Almost certainly ";
  if (probability >= 0.9) return "Very likely ";
  if (probability >= 0.7) return "Probably ";
  if (probability >= 0.5) return "More likely than not ";
  return "Most likely of several: ";
}

std::string either(const std::vector<std::string>& parts, std::string_view joint) {
  const std::size_t named = std::min(parts.size(), most_named);
  std::string text;
  for (std::size_t i = 0; i < named; ++i) {
    if (i > 0) text += i + 1 == named && named == parts.size() ? " " + std::string(joint) + " " : ", ";
    text += parts[i];
  }
  return parts.size() > named ? text + " or another" : text;
}

bool silent(const Network& network, const Ranking& ranking, const std::vector<std::string>& parts) {
  return std::any_of(ranking.evidence.begin(), ranking.evidence.end(), [&](const Observation& seen) {
    return seen.abnormal && seen.question.about == Question::About::answers && !parts.empty() &&
           network.modules.at(seen.question.a).id == parts.front();
  });
}

bool rings(const Network& network, const std::vector<std::string>& parts) {
  return !parts.empty() && std::all_of(parts.begin(), parts.end(), [&](const std::string& id) {
    const std::size_t bus = index_of(network.buses, id);
    return bus != nowhere && network.buses[bus].protocol == Protocol::ring;
  });
}

std::string what(const Network& network, const Ranking& ranking, const Verdict& verdict) {
  const std::string parts = either(verdict.parts, "or");
  switch (verdict.verdict_class) {
    case VerdictClass::module:
      return std::string(silent(network, ranking, verdict.parts) ? "one silent module: " : "one module: ") + parts +
             " - its feeds, grounds, plug, own wires, or the module itself";
    case VerdictClass::gateway:
      return "the gateway " + parts + " - its feeds, grounds, plug, own wires, or the gateway itself";
    case VerdictClass::segment:
      return "a break in the bus wiring: " + parts;
    case VerdictClass::bus:
      if (rings(network, verdict.parts))
        return "ring " + parts + " as a whole - a break in it or a member without supply";
      return "bus " + parts + " as a whole - a short, a module that loads it, something added, or a terminator";
    case VerdictClass::supply:
      return "a feed or ground that several modules share: " + parts;
    case VerdictClass::connector:
      return "the diagnostic connector - its pins, feed, ground or wires";
    case VerdictClass::intermittent:
      return "a fault that comes and goes: " + parts;
    case VerdictClass::several:
      return "more than one fault at once, among " + either(verdict.parts, "and");
    case VerdictClass::none:
      return "no fault of the network: nothing in this scan needs one";
    case VerdictClass::contradictory:
      return "this scan contradicts itself: no set of faults fits it";
  }
  return {};
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
  verdict.headline = std::string(how_sure(verdict.probability)) + what(network, ranking, verdict);
  return verdict;
}

}  // namespace whichwire
