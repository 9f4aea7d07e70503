// The main job: evidence, problem, search, and the ranking read from its tree.
// Tested by tests/locate, tests/differential and the samples.
#include <algorithm>
#include <cmath>
#include <map>

#include "locate/coarse.hpp"
#include "locate/list.hpp"
#include "locate/network_problem.hpp"
#include "locate/search.hpp"
#include "locate/together.hpp"
#include "locate/verdict_class.hpp"

namespace whichwire {
namespace {

using search::Candidate;

/// Alternatives of one line are cut off here; a line of thousands helps nobody.
constexpr std::size_t most_alike = 200;
/// An observation counts as contradicted when the explanation makes it this many times less likely than no fault does.
constexpr double contradiction = 3.0;

/// Bounds of the mass of all sets, as shares of the mass found.
struct Total {
  double low = 1, high = 1;
};

struct Line {
  double mass = 0;
  std::map<std::vector<Candidate>, double> sets;  ///< log odds by members: what they predict weighs the same
};

class RankingMaker {
 public:
  RankingMaker(const NetworkProblem& made, const std::vector<Fault>& faults, const Network& network)
      : made_(made), faults_(faults), network_(network), together_(made.problem) {}

  void make(const search::Found& found, const LocateOptions& options, Ranking& ranking) {
    // The search weighs the empty set in full. Its weight is exactly 1, so what is too much of it is taken off exactly.
    const double too_much = (1 - options.no_fault) * std::exp(-found.root->low);
    const double share = 1 - options.outside / 4 * (1 - too_much);
    // Of a short list the first are to be whole, though many sets stand behind them; of a long one the last hardly
    // count.
    const auto most = std::min(64 * options.most_explanations, 8'000 + 8 * options.most_explanations);
    const auto sets = list_sets(made_.problem, *found.root, share, most);
    std::map<std::vector<Level>, Line> lines;
    for (const auto& set : sets) enter(set, found.root->low, lines);
    if (const auto none = lines.find(levels_of({})); none != lines.end())
      none->second.mass = std::max(0.0, none->second.mass - too_much);
    const Total total{1 - too_much, 1 + found.root->slack() - too_much};
    for (auto& [levels, line] : lines) ranking.explanations.push_back(explain(levels, line, ranking.evidence, total));
    std::stable_sort(ranking.explanations.begin(), ranking.explanations.end(), [](const auto& a, const auto& b) {
      return coarse(a.probability.low) > coarse(b.probability.low);
    });
    if (ranking.explanations.size() > options.most_explanations) ranking.explanations.resize(options.most_explanations);
    double listed = 0;
    for (const auto& explanation : ranking.explanations) listed += explanation.probability.low;
    // Rounding of a sum of a thousand doubles stays far below this margin.
    ranking.outside = std::clamp(1 - listed + 1e-12, 0.0, 1.0);
    ranking.unsettled = found.root->slack() > 1;
    for (auto& explanation : ranking.explanations) {
      explanation.probability.high = std::min(1.0, explanation.probability.low + ranking.outside);
    }
    const auto by_candidate = shares(made_.problem, *found.root);
    add_marginals(by_candidate, found, total, ranking);
    if (ranking.outside > options.outside) add_needed(by_candidate, found, too_much, ranking);
  }

 private:
  /// Of all evidence.
  std::vector<Level> levels_of(const std::vector<Candidate>& set) {
    std::vector<Level> levels;
    together_.levels(set, levels);
    return levels;
  }

  void enter(const search::ListedSet& set, double total, std::map<std::vector<Level>, Line>& lines) {
    std::vector<Candidate> first;
    for (const auto& members : set.classes) first.push_back(members.front());
    Line& line = lines[levels_of(first)];
    line.mass += std::exp(set.log_weight - total);
    spread(set, 0, {}, line);
  }

  /// The sets that a listed set stands for, one member of each class.
  void spread(const search::ListedSet& set, std::size_t at, std::vector<Candidate> members, Line& line) const {
    if (line.sets.size() >= most_alike) return;
    if (at == set.classes.size()) {
      double odds = 0;
      for (const auto member : members) odds += made_.problem.log_odds[member];
      std::sort(members.begin(), members.end());
      line.sets.try_emplace(std::move(members), odds);
      return;
    }
    for (const auto member : set.classes[at]) {
      auto more = members;
      more.push_back(member);
      spread(set, at + 1, std::move(more), line);
    }
  }

  std::vector<Fault> faults_of(const std::vector<Candidate>& members) const {
    std::vector<Fault> faults;
    faults.reserve(members.size());
    for (const auto member : members) faults.push_back(faults_[made_.faults[member]]);
    std::stable_sort(faults.begin(), faults.end(), [](const Fault& a, const Fault& b) { return a.odds > b.odds; });
    return faults;
  }

  Explanation explain(const std::vector<Level>& levels, const Line& line, const std::vector<Observation>& evidence,
                      const Total& total) const {
    // Fewer faults before more: a set that only adds what changes nothing is no rival of its own.
    std::vector<std::pair<std::vector<Candidate>, double>> sets(line.sets.begin(), line.sets.end());
    std::stable_sort(sets.begin(), sets.end(), [](const auto& a, const auto& b) {
      if (a.first.size() != b.first.size()) return a.first.size() < b.first.size();
      return coarse_log(a.second) > coarse_log(b.second);
    });
    Explanation explanation;
    explanation.probability.low = std::min(1.0, line.mass / total.high);
    explanation.faults = faults_of(sets.front().first);
    for (std::size_t i = 1; i < sets.size(); ++i) {
      if (sets[i].first.size() > sets.front().first.size()) break;
      explanation.alike.push_back(faults_of(sets[i].first));
    }
    explanation.verdict_class = class_of(network_, explanation.faults);
    for (std::size_t o = 0; o < evidence.size(); ++o) {
      const auto& likelihood = evidence[o].log_likelihood;
      const double change = likelihood[static_cast<std::size_t>(levels[o])] - likelihood.front();
      if (change < -std::log(contradiction)) explanation.contradicts.push_back(o);
      if (!evidence[o].abnormal) continue;
      (change > 0 ? explanation.explains : explanation.leaves).push_back(o);
    }
    return explanation;
  }

  void add_marginals(const std::vector<search::Share>& share, const search::Found& found, const Total& total,
                     Ranking& ranking) const {
    for (Candidate c = 0; c < share.size(); ++c) {
      const double most = total.low > 0 ? (share[c].high + found.root->slack()) / total.low : 1.0;
      if (share[c].high < 1e-4 * total.low) continue;
      ranking.marginals.push_back({faults_[made_.faults[c]], {share[c].low / total.high, std::min(1.0, most)}});
    }
    std::stable_sort(ranking.marginals.begin(), ranking.marginals.end(), [](const Marginal& a, const Marginal& b) {
      return coarse(a.probability.low) > coarse(b.probability.low);
    });
  }

  /// Of repairs that are not improbable as far as was found.
  void add_needed(const std::vector<search::Share>& share, const search::Found& found, double too_much,
                  Ranking& ranking) const {
    constexpr double improbable = 0.1;
    std::map<std::string, std::vector<Candidate>> groups;
    for (Candidate c = 0; c < share.size(); ++c) {
      const Fault& fault = faults_[made_.faults[c]];
      if (fault.kind != FaultKind::not_fitted) groups[repair_of(network_, fault)].push_back(c);
    }
    std::vector<std::uint8_t> in_group(share.size());
    for (const auto& [repair, group] : groups) {
      double sum = 0;
      for (const Candidate c : group) sum += share[c].low;
      if (sum < improbable) continue;
      for (const Candidate c : group) in_group[c] = 1;
      const search::Without without = search::without(made_.problem, *found.root, in_group);
      for (const Candidate c : group) in_group[c] = 0;
      const double with = -std::expm1(without.found - found.root->low);
      const double others = std::exp(without.most - found.root->low) - too_much;
      ranking.needed.push_back({repair, with / (with + std::max(others, 0.0))});
    }
  }

  const NetworkProblem& made_;
  const std::vector<Fault>& faults_;
  const Network& network_;
  search::Together together_;
};

}  // namespace

Ranking locate(const Effects& effects, const std::vector<Fault>& faults, const Scan& scan,
               const LocateOptions& options) {
  return locate_measured(effects, faults, scan, options, {});
}

Ranking locate_measured(const Effects& effects, const std::vector<Fault>& faults, const Scan& scan,
                        const LocateOptions& options, std::span<const Measured> readings) {
  auto evidence = evidence_of(effects, scan);
  Ranking ranking;
  ranking.evidence = std::move(evidence.observations);
  ranking.doubts = std::move(evidence.doubts);
  ranking.other_trim = evidence.other_trim;
  const auto made = problem_of(effects, faults, ranking.evidence, {scan.key, scan.tool_has_own_battery}, readings);
  search::Effort effort{.not_counted = 1 - options.no_fault};
  effort.most_work = static_cast<std::size_t>(static_cast<double>(effort.most_work) * options.effort);
  // The list loses a little on the search's own bound; where that is too much the search goes finer.
  for (double wanted = options.outside / 2; wanted > options.outside / 1e4; wanted /= 10) {
    effort.outside = wanted;
    const auto found = search::search(made.problem, effort);
    ranking.explanations.clear();
    ranking.marginals.clear();
    ranking.needed.clear();
    RankingMaker(made, faults, effects.network()).make(found, options, ranking);
    if (ranking.outside <= options.outside || !found.done) break;
    if (ranking.explanations.size() >= options.most_explanations) break;
  }
  return ranking;
}

}  // namespace whichwire
