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

Found search_with(const Problem& problem, Together& together, Spares& spares, double threshold, std::size_t most_work,
                  double& left_out) {
  Expander expander(problem, together, spares, most_work);
  std::vector<Candidate> chosen;
  Found found;
  found.root = expander.expand(chosen, all_candidates(problem), threshold, left_out);
  found.work = expander.work();
  return found;
}

double greedy(const Problem& problem, Together& together, Spares& spares) {
  std::vector<Candidate> chosen, free = all_candidates(problem);
  double weight = 0;
  Context context(problem, together, spares);
  for (int step = 0; step < 64; ++step) {
    context.look(chosen, free);
    const auto& prospects = context.prospects();
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

/// By how much the threshold falls from round to round. From coarse to fine: an early round costs little and stands if
/// a later one cannot be finished. A step is as large as about doubles the work, and near the end no larger than
/// needed.
class Steps {
 public:
  double after(std::size_t work, const Found& best, const Effort& effort) {
    constexpr double least = 0.7, most = 10, careful = 0.6, margin = 0.4, few = 2e4;
    const double doubled = std::log(static_cast<double>(work) + few);
    const double growth = (doubled - before_) / step_;
    before_ = doubled;
    step_ = std::clamp(std::log(2.0) / std::max(growth, 1e-3), usual, std::min(most, 2 * step_));
    if (best.root == nullptr) return step_;
    const double missing = std::log(best.root->slack / wanted_slack(best, effort));
    if (std::isfinite(missing)) step_ = std::min(step_, std::max(least, careful * missing + margin));
    return step_;
  }

 private:
  static constexpr double usual = 2.5;
  double before_ = 0, step_ = usual;
};

}  // namespace

double greedy_log_weight(const Problem& problem) {
  Together together(problem);
  Spares spares(problem, together);
  return greedy(problem, together, spares);
}

Found search_above(const Problem& problem, double threshold, std::size_t most_work) {
  Together together(problem);
  Spares spares(problem, together);
  double left_out = 0;
  return search_with(problem, together, spares, threshold, most_work, left_out);
}

Found search(const Problem& problem, const Effort& effort) {
  Together together(problem);
  Spares spares(problem, together);
  // Nothing lies above the bound of all sets, from which the first round starts.
  double threshold = Expander(problem, together, spares, effort.most_work).bound(all_candidates(problem)), left_out = 0;
  Found best;
  Steps steps;
  std::size_t spent = 0, round = 0;
  for (;; threshold -= steps.after(round, best, effort)) {
    auto found = search_with(problem, together, spares, threshold, effort.most_work - spent, left_out);
    round = found.work;
    spent += round;
    const bool better = found.root != nullptr && (best.root == nullptr || found.root->slack < best.root->slack);
    if (better) best = std::move(found);
    best.work = spent;
    if (best.root == nullptr) {
      if (spent < effort.most_work) continue;
      best.root = std::make_unique<Both>();  // not even one round: nothing is known but that no fault is possible
      best.root->slack = INFINITY;
      return best;
    }
    best.done = best.root->slack <= wanted_slack(best, effort);
    // The next round takes more than this one: one that cannot be finished would tell nothing new.
    if (best.done || spent + round >= effort.most_work) return best;
  }
}

}  // namespace whichwire::search
