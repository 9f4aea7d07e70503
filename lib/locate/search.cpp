#include "locate/search.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "locate/expand.hpp"

namespace whichwire::search {
namespace {

std::vector<Candidate> all_candidates(const Problem& problem) {
  std::vector<Candidate> all(problem.candidates());
  std::iota(all.begin(), all.end(), Candidate{0});
  return all;
}

Found search_with(const Problem& problem, Memory& memory, const std::vector<Candidate>& free, double threshold,
                  Patience patience) {
  Expander expander(problem, memory, patience);
  std::vector<Candidate> chosen;
  Found found;
  double left_out = 0;  // of the root: nothing is known of it but this
  found.root = expander.expand(chosen, free, threshold, left_out);
  found.work = expander.work();
  return found;
}

/// Chooses the best candidate again and again, as long as that makes the set weigh more; returns its log weight. `see`
/// is shown what each step could choose from.
template <class See>
double greedy(const Problem& problem, Memory& memory, See see) {
  std::vector<Candidate> chosen, free = all_candidates(problem);
  double weight = 0;
  Context context(problem, memory.together, memory.spares);
  for (int step = 0; step < 64; ++step) {
    context.look(chosen, free);
    const auto& prospects = context.prospects();
    see(prospects);
    const auto best = std::max_element(prospects.begin(), prospects.end(),
                                       [](const Prospect& a, const Prospect& b) { return a.ratio < b.ratio; });
    if (best == prospects.end() || best->ratio <= 0) break;
    const auto candidate = best->candidate;
    chosen.push_back(candidate);
    const double with = memory.together.log_weight(chosen);
    if (with <= weight) break;
    weight = with;
    std::erase(free, candidate);
  }
  return weight;
}

double wanted_slack(const Found& found, const Effort& effort) {
  return effort.outside * (1 - effort.not_counted * std::exp(-found.root->low));
}

/// How far down the next round goes, after one that kept all above `threshold`: as deep as should be enough. What a
/// round leaves out lies just below its threshold at many places, at more of them the deeper it goes. `share`: log of
/// what it may have left out, as a share of what it found.
double next_threshold(double threshold, double share, double low, double wanted) {
  constexpr double places = 4.5, shallow = 8, fall = 0.6, least = 0.5, coarse = 5;
  if (share >= 0) return threshold - coarse;
  if (threshold > low - shallow) return std::min(threshold - least, low + std::log(wanted) - places);
  return threshold - std::max(least, (share - std::log(wanted)) / fall);
}

/// How the work of a round grows with its depth, as far as is known.
class Pace {
 public:
  bool known() const { return growth_ > 0; }
  std::size_t most() const { return most_; }  ///< work of a round that had patience enough

  /// After a round that kept all from `above` down to `threshold`.
  void kept(double above, double threshold, std::size_t work) {
    if (most_ > 0) growth_ = growth(above - threshold, work);
    most_ = std::max(most_, work);  // what is known already takes no work
    constexpr double apart = 1;
    if (ran_out_.work > 0 && ran_out_.threshold < threshold - apart)
      growth_ = std::max(growth_, growth(threshold - ran_out_.threshold, ran_out_.work));
  }

  /// After one whose patience ran out.
  void ran_out(double threshold, std::size_t work) { ran_out_ = {threshold, work}; }

  /// How much deeper a round may go with so much work.
  double reach(std::size_t work) const {
    constexpr double faster = 1.4;  // the work grows the faster the deeper it goes
    return std::log(static_cast<double>(work) / static_cast<double>(most_)) / growth_ / faster;
  }

 private:
  /// Of the log of the work, by a fall of the threshold.
  double growth(double fall, std::size_t work) const {
    return std::max(0.1, std::log(static_cast<double>(work) / static_cast<double>(most_))) / fall;
  }

  struct Round {
    double threshold = 0;
    std::size_t work = 0;
  } ran_out_;
  double growth_ = 0;
  std::size_t most_ = 0;
};

/// All sets of these, round by round; nothing lies above `above`, and a set near `known`. A round that runs out of
/// patience is as coarse as the last in what it comes to late; then one half as deep tells how the work grows, and by
/// that the others are made no deeper than can be finished.
Found rounds(const Problem& problem, Memory& memory, const std::vector<Candidate>& free, double above, double known,
             const Effort& effort) {
  constexpr std::size_t few = 100'000;
  constexpr double beyond = 2.5, nearly = 10, worth = 0.5;
  Found best;
  Pace pace;
  double threshold = std::min(above, known) - beyond;
  for (std::size_t spent = 0;;) {
    const auto left = effort.most_work - spent;
    const auto patience = pace.known() ? left : std::min(left, std::max({8 * pace.most(), effort.most_work / 40, few}));
    auto found = search_with(problem, memory, free, threshold, {patience, above - threshold});
    const auto round = found.work;
    const double share = found.root != nullptr ? found.root->lost - found.root->low : INFINITY;  // log
    spent += round;
    if (found.root != nullptr && (best.root == nullptr || share < best.root->lost - best.root->low))
      best = std::move(found);
    best.work = spent;
    if (best.root == nullptr) break;
    const double wanted = wanted_slack(best, effort);
    best.done = best.root->slack() <= wanted;
    // The next round takes more than this one: one that cannot be finished would tell nothing new.
    const auto most = best.root->slack() <= nearly * wanted ? effort.most_work / 4 : effort.most_work;
    if (best.done || spent + round >= most) break;
    if (2 * round > patience) {
      if (pace.known()) break;
      pace.ran_out(threshold, round);
      threshold = (above + threshold) / 2;
      continue;
    }
    pace.kept(above, threshold, round);
    above = threshold;
    threshold = next_threshold(threshold, share, best.root->low, std::max(wanted, effort.outside / 1e3));
    if (!pace.known()) continue;
    const double reach = pace.reach((most - spent) / 2);
    if (reach < std::min(worth, above - threshold)) break;
    threshold = std::max(threshold, above - reach);
  }
  if (best.root == nullptr) {  // not even one round: nothing is known but that no fault is possible
    best.root = std::make_unique<Both>();
    settle(*best.root, above);
  }
  return best;
}

struct Promising {
  std::vector<Candidate> few;
  double greedy = 0;  ///< log weight of the best chosen again and again, which are among them
};

/// Those that promise most at each step while the best is chosen again and again.
Promising promising(const Problem& problem, Memory& memory, std::size_t at_each_step) {
  constexpr std::size_t most = 64;
  Promising found;
  auto& few = found.few;
  found.greedy = greedy(problem, memory, [&](std::vector<Prospect> prospects) {
    const auto wanted = few.size() < most ? at_each_step : 1;
    const auto end = prospects.begin() + static_cast<std::ptrdiff_t>(std::min(wanted, prospects.size()));
    std::partial_sort(prospects.begin(), end, prospects.end(),
                      [](const Prospect& a, const Prospect& b) { return a.ratio > b.ratio; });
    for (auto one = prospects.begin(); one != end; ++one) few.push_back(one->candidate);
    std::sort(few.begin(), few.end());
    few.erase(std::unique(few.begin(), few.end()), few.end());
  });
  return found;
}

/// Where most was left out, what was found may be far from the likeliest. Then the sets of the promising few are
/// searched by themselves, fewer where even they are too many; what all others weigh at most is known from the rounds.
void search_few(const Problem& problem, Memory& memory, const Effort& effort, Found& best) {
  constexpr double rounding = 1e-9;
  const double all = log_sum(best.root->low, best.root->lost);
  Effort less = effort;
  less.most_work /= 8;
  for (const std::size_t at_each_step : {12U, 4U, 1U}) {
    const auto [few, greedy] = promising(problem, memory, at_each_step);
    const double bound = Expander(problem, memory, {less.most_work}).bound(few);
    Found found = rounds(problem, memory, few, bound, greedy, less);
    best.work += found.work;
    const bool likelier = found.root->best > best.root->best + rounding;
    if (likelier || (found.root->low > best.root->low && found.root->best > best.root->best - rounding)) {
      best.root = std::move(found.root);
      best.root->lost = best.root->missing = best.root->low + log_minus_one(std::max(0.0, all - best.root->low));
    }
    if (found.done) return;
  }
}

}  // namespace

double greedy_log_weight(const Problem& problem) {
  Memory memory(problem, Effort().most_spared);
  return greedy(problem, memory, [](const std::vector<Prospect>&) {});
}

Found search_above(const Problem& problem, double threshold, std::size_t most_work) {
  Memory memory(problem, Effort().most_spared);
  return search_with(problem, memory, all_candidates(problem), threshold, {most_work});
}

Found search(const Problem& problem, const Effort& effort) {
  Memory memory(problem, effort.most_spared);
  const auto all = all_candidates(problem);
  const double bound = Expander(problem, memory, {effort.most_work}).bound(all);
  const double known = greedy(problem, memory, [](const std::vector<Prospect>&) {});
  Found best = rounds(problem, memory, all, bound, known, effort);
  if (best.root->slack() > 1) search_few(problem, memory, effort, best);
  return best;
}

}  // namespace whichwire::search
