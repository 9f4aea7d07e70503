#include "locate/tree.hpp"

#include <algorithm>
#include <cmath>

namespace whichwire::search {

double log1p_exp(double x) {
  if (x > 30) return x;
  const double odds = std::exp(x);
  // Most are small, and of these five terms are as exact as the function, which takes most of the time.
  constexpr double small = 1e-3;
  if (odds > small) return std::log1p(odds);
  return odds * (1 - odds * (1.0 / 2 - odds * (1.0 / 3 - odds * (1.0 / 4 - odds * (1.0 / 5)))));
}

double log_sum(double a, double b) {
  if (a < b) std::swap(a, b);
  if (std::isinf(b)) return a;
  return a + log1p_exp(b - a);
}

double log_minus_one(double a) { return a > 30 ? a : std::log(std::expm1(a)); }

void settle(Both& both, double missing) {
  both.low = both.best = both.apart;
  both.missing = missing;
  double spread = both.spread;  // log of how much more may be there than was found
  for (std::size_t i = 0; i < both.listed_minors; ++i) {
    both.low += log1p_exp(both.minors[i].log_odds);
    both.best += std::max(0.0, both.minors[i].log_odds);
  }
  for (const auto& choice : both.choices) {
    both.low += choice->low;
    both.best += choice->best;
    spread += log1p_exp(choice->lost - choice->low);
  }
  // Sums and products of positive terms only: taking a running total from another loses the certificate to rounding.
  both.lost = log_sum(both.low + log_minus_one(spread), missing);
}

void settle(Choice& choice, double missing) {
  choice.low = choice.best = -INFINITY;
  choice.missing = missing;
  for (const Option& option : choice.options) {
    choice.low = log_sum(choice.low, option.ratio + option.rest->low);
    choice.best = std::max(choice.best, option.ratio + option.rest->best);
  }
  choice.lost = missing;
  for (const Option& option : choice.options) choice.lost = log_sum(choice.lost, option.ratio + option.rest->lost);
}

}  // namespace whichwire::search
