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

Found search_with(const Problem& problem, Together& together, Spares& spares, const std::vector<Candidate>& free,
                  double threshold, std::size_t most_work) {
  Expander expander(problem, together, spares, most_work);
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
double greedy(const Problem& problem, Together& together, Spares& spares, See see) {
  std::vector<Candidate> chosen, free = all_candidates(problem);
  double weight = 0;
  Context context(problem, together, spares);
  for (int step = 0; step < 64; ++step) {
    context.look(chosen, free);
    const auto& prospects = context.prospects();
    see(prospects);
    const auto best = std::max_element(prospects.begin(), prospects.end(),
                                       [](const Prospect& a, const Prospect& b) { return a.ratio < b.ratio; });
    if (best == prospects.end() || best->ratio <= 0) break;
    const auto candidate = best->candidate;
    chosen.push_back(candidate);
    const double with = together.log_weight(chosen);
    if (with <= weight) break;
    weight = with;
    std::erase(free, candidate);
  }
  return weight;
}

double wanted_slack(const Found& found, const Effort& effort) {
  return effort.outside * (1 - effort.not_counted * std::exp(-found.root->low));
}

/// By how much the threshold falls from round to round, and how much work a round may take. From coarse to fine: an
/// early round costs little and stands if a later one cannot be finished. A step is as large as about doubles the work,
/// and near the end no larger than needed; one that turns out to take far more is taken again at half the length.
class Steps {
 public:
  double step() const { return step_; }

  /// `left`: all that may still be spent, which only the shortest step may take.
  std::size_t most_work(std::size_t left) const {
    constexpr double far_more = 8;
    return step_ > least ? std::min(left, static_cast<std::size_t>(far_more * std::exp(before_))) : left;
  }

  void shorten() { step_ = std::max(least, step_ / 2); }

  /// After a round that took `work` and left `slack`, with `left` still to be spent.
  void choose(std::size_t work, double slack, std::size_t left, const Found& best, const Effort& effort) {
    const double now = std::log(static_cast<double>(work) + few);
    const double growth = std::max((now - before_) / step_, 1e-3), fall = (slack_ - std::log(slack)) / step_;
    before_ = now;
    slack_ = std::log(slack);
    step_ = std::clamp(std::log(2.0) / growth, least, std::min(most, 2 * step_));
    // Into most of what is left, as far as can be told, goes a last step of this length.
    constexpr double most_of_it = 0.75;
    step_ = std::clamp((std::log1p(most_of_it * static_cast<double>(left)) - now) / growth, least / 2, step_);
    if (best.root == nullptr) return;
    const double missing = std::log(best.root->slack / wanted_slack(best, effort));
    if (std::isfinite(missing)) step_ = std::min(step_, std::max(least, to_the_end(missing, fall, growth)));
  }

 private:
  /// One that surely is enough; where that may take far more than one that perhaps is enough, that.
  static double to_the_end(double missing, double fall, double growth) {
    constexpr double margin = 0.4, careful = 0.6, generous = 1.2, slows_down = 0.75;
    const double surely = generous * missing / std::clamp(slows_down * fall, 0.5, slows_down) + margin;
    const double perhaps = careful * missing + margin;
    return growth * surely < std::log(3.0) ? surely : perhaps;
  }

  static constexpr double least = 0.7, most = 15, few = 2e4;
  double before_ = std::log(few);  ///< log of the last round's work
  double slack_ = INFINITY;        ///< log of what it left
  double step_ = 2.5;
};

/// All sets of these, round by round; nothing lies above `threshold`.
Found rounds(const Problem& problem, Together& together, Spares& spares, const std::vector<Candidate>& free,
             double threshold, const Effort& effort) {
  Found best;
  Steps steps;
  for (std::size_t spent = 0;;) {
    const auto left = effort.most_work - spent, most = steps.most_work(left);
    auto found = search_with(problem, together, spares, free, threshold - steps.step(), most);
    const auto round = found.work;
    const double slack = found.root != nullptr ? found.root->slack : INFINITY;
    spent += round;
    // One that was cut short has left out more, but may know more than a coarse one.
    if (found.root != nullptr && (best.root == nullptr || found.root->slack < best.root->slack))
      best = std::move(found);
    best.work = spent;
    best.done = best.root != nullptr && best.root->slack <= wanted_slack(best, effort);
    // The next round takes more than this one: one that cannot be finished would tell nothing new.
    if (best.done || spent + round >= effort.most_work) break;
    if (round > most) {
      steps.shorten();
    } else {
      threshold -= steps.step();
      steps.choose(round, slack, effort.most_work - spent, best, effort);
    }
  }
  if (best.root == nullptr) {  // not even one round: nothing is known but that no fault is possible
    best.root = std::make_unique<Both>();
    best.root->missing = threshold;
    best.root->slack = std::exp(threshold);
  }
  return best;
}

struct Promising {
  std::vector<Candidate> few;
  double greedy = 0;  ///< log weight of the best chosen again and again, which are among them
};

/// Those that promise most at each step while the best is chosen again and again.
Promising promising(const Problem& problem, Together& together, Spares& spares, std::size_t at_each_step) {
  constexpr std::size_t most = 64;
  Promising found;
  auto& few = found.few;
  found.greedy = greedy(problem, together, spares, [&](std::vector<Prospect> prospects) {
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
void search_few(const Problem& problem, Together& together, Spares& spares, const Effort& effort, Found& best) {
  const double all = best.root->low + std::log1p(best.root->slack);
  Effort less = effort;
  less.most_work /= 8;
  for (const std::size_t at_each_step : {12U, 4U, 1U}) {
    const auto [few, greedy] = promising(problem, together, spares, at_each_step);
    const double bound = Expander(problem, together, spares, less.most_work).bound(few);
    Found found = rounds(problem, together, spares, few, bound, less);
    best.work += found.work;
    if (found.root->low > best.root->low) {
      best.root = std::move(found.root);
      best.root->slack = std::max(0.0, std::expm1(all - best.root->low));
      best.root->missing = best.root->low + std::log(best.root->slack);
    }
    constexpr double rounding = 1e-9;
    if (best.root->best >= greedy - rounding) return;
  }
}

}  // namespace

double greedy_log_weight(const Problem& problem) {
  Together together(problem);
  Spares spares(problem, together, Effort().most_spared);
  return greedy(problem, together, spares, [](const std::vector<Prospect>&) {});
}

Found search_above(const Problem& problem, double threshold, std::size_t most_work) {
  Together together(problem);
  Spares spares(problem, together, Effort().most_spared);
  return search_with(problem, together, spares, all_candidates(problem), threshold, most_work);
}

Found search(const Problem& problem, const Effort& effort) {
  Together together(problem);
  Spares spares(problem, together, effort.most_spared);
  const auto all = all_candidates(problem);
  const double bound = Expander(problem, together, spares, effort.most_work).bound(all);
  Found best = rounds(problem, together, spares, all, bound, effort);
  if (best.root->slack > 1) search_few(problem, together, spares, effort, best);
  return best;
}

}  // namespace whichwire::search
