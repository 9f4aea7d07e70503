// See tree.hpp. Tests: tests/planner/test_choice.cpp.
#include "planner/tree.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <unordered_map>

namespace whichwire {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

struct Step {
  std::size_t test = nowhere;
  std::vector<Branch> branches;
  double worth = 0;  ///< bits a minute
};

}  // namespace

class TreeSearch::Search {
 public:
  Search(const CompactProblem& compact, const TestLimits& limits) : compact_(compact), limits_(limits) {
    for (const TestOption& test : compact.problem.tests) {
      const double bits = std::log2(static_cast<double>(std::max<std::size_t>(test.chances.front().size(), 2)));
      minutes_a_bit_ = std::min(minutes_a_bit_, test.minutes / bits);
    }
    bounded_by_bits_ = compact.crisp && all_told_apart();
    const double rest = 1 - limits.proven;
    if (rest > 0 && rest < 1) {  // entropy that may be left when enough is proven
      const double others = static_cast<double>(std::max<std::size_t>(compact.repair_count, 2) - 1);
      bits_left_ = rest < 0.5 ? -rest * std::log2(rest / others) - (1 - rest) * std::log2(1 - rest) : never;
    }
  }

  /// The best tree of fewer minutes than `limit`; `never` where there is none.
  BestTree solve(const Belief& belief, double limit) {
    if (compact_.lead(belief) >= limits_.proven - rounding) return {};
    const std::string key = key_of(belief);
    const auto known = solved_.find(key);
    if (known != solved_.end()) {
      if (known->second.exact) return known->second.tree;
      if (known->second.tree.minutes >= limit) return {nowhere, never};
    }
    if (++opened_ > limits_.most_nodes) given_up = true;
    if (given_up) return {};
    const std::vector<Step> steps = steps_from(belief);
    if (steps.empty()) return {};
    BestTree best{nowhere, limit};
    for (const Step& step : steps) {
      const double minutes = cost_of(step, best.minutes);
      if (minutes < best.minutes * (1 - rounding)) best = {step.test, minutes};
    }
    const bool found = best.test != nowhere;
    if (!given_up) solved_[key] = {best, found};
    return found ? best : BestTree{nowhere, never};
  }

  bool given_up = false;

 private:
  struct Solved {
    BestTree tree;
    bool exact = false;  ///< else at least these minutes
  };

  /// Whether the tests together leave nothing open between repairs, so that the end has no entropy.
  bool all_told_apart() const {
    const auto& problem = compact_.problem;
    for (std::size_t a = 0; a < problem.weights.size(); ++a) {
      for (std::size_t b = a + 1; b < problem.weights.size(); ++b) {
        if (problem.repairs[a] == problem.repairs[b]) continue;
        const bool apart = std::any_of(problem.tests.begin(), problem.tests.end(),
                                       [&](const TestOption& test) { return test.chances[a] != test.chances[b]; });
        if (!apart) return false;
      }
    }
    return true;
  }

  /// Expected minutes when it begins with this test; `never` where that is no less than `limit`.
  double cost_of(const Step& step, double limit) {
    double minutes = compact_.problem.tests[step.test].minutes;
    for (const Branch& branch : step.branches) minutes += branch.probability * least(branch.belief);
    for (const Branch& branch : step.branches) {
      if (minutes >= limit || given_up) return never;
      const double bound = branch.probability * least(branch.belief);
      const double room = (limit - (minutes - bound)) / branch.probability;
      minutes += branch.probability * solve(branch.belief, room).minutes - bound;
    }
    return minutes;
  }

  double minutes_of(const Step& step) const { return compact_.problem.tests[step.test].minutes; }

  /// What tells most a minute first; of what is equal but for rounding the quicker, then the one listed first.
  std::vector<Step> steps_from(const Belief& belief) const {
    std::vector<Step> steps;
    for (std::size_t t = 0; t < compact_.problem.tests.size(); ++t) {
      if (!compact_.useful(belief, t)) continue;
      Step step{t, compact_.branches(belief, t), 0};
      step.worth = compact_.gain(belief, step.branches) / compact_.problem.tests[t].minutes;
      steps.push_back(std::move(step));
    }
    std::stable_sort(steps.begin(), steps.end(), [&](const Step& a, const Step& b) {
      const double one = without_rounding(a.worth), other = without_rounding(b.worth);
      return one != other ? one > other : minutes_of(a) < minutes_of(b);
    });
    return steps;
  }

  /// Minutes that are left at the least.
  double least(const Belief& belief) const {
    if (!bounded_by_bits_ || compact_.lead(belief) >= limits_.proven - rounding) return 0;
    return std::max(compact_.entropy(belief) - bits_left_, 0.0) * minutes_a_bit_;
  }

  /// Equal for beliefs that differ by rounding only. What tests tell nothing any more makes no difference.
  std::string key_of(const Belief& belief) const {
    std::string key;
    const auto put = [&](double value) {
      const auto rounded = static_cast<std::int64_t>(std::llround(value * 1e9));
      key.append(reinterpret_cast<const char*>(&rounded), sizeof rounded);
    };
    for (const double weight : belief.weights) put(weight);
    put(std::min(belief.outside, 1e6));
    for (std::size_t t = 0; t < belief.done.size(); ++t) key += compact_.useful(belief, t) ? '1' : '0';
    return key;
  }

  const CompactProblem& compact_;
  const TestLimits& limits_;
  double minutes_a_bit_ = never, bits_left_ = 0;
  bool bounded_by_bits_ = false;
  std::size_t opened_ = 0;
  std::unordered_map<std::string, Solved> solved_;
};

TreeSearch::TreeSearch(const CompactProblem& compact, const TestLimits& limits)
    : search_(std::make_unique<Search>(compact, limits)) {}
TreeSearch::~TreeSearch() = default;

std::optional<BestTree> TreeSearch::from(const Belief& belief) {
  const BestTree best = search_->solve(belief, never);
  if (search_->given_up) return std::nullopt;
  return best;
}

}  // namespace whichwire
