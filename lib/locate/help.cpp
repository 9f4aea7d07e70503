#include "locate/help.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

/// log of the probability that belongs to these log odds.
double log_logistic(double x) { return x - log1p_exp(x); }

}  // namespace

Help::Help(std::vector<Helped> minors)
    : minors_(std::move(minors)), surely_(minors_.size(), 0), unknown_(minors_.size(), 0) {
  bound_presence();
  sum_up();
}

double Help::present(std::size_t k) const { return std::exp(present_[k]); }

/// Given all others it is present with what it is spared at most; that bounds what others are spared by it, and so on:
/// each turn is a bound if the one before was.
void Help::bound_presence() {
  for (const Helped& minor : minors_) at_most_.push_back(log_logistic(minor.log_odds + minor.spared_at_most));
  present_ = at_most_;
  for (int turn = 0; turn < 3; ++turn) {
    for (std::size_t k = 0; k < minors_.size(); ++k) {
      present_[k] = std::min(present_[k], log_logistic(minors_[k].log_odds + helped_by_any(k, minors_.size())));
    }
  }
}

/// Log of a bound of the mean of what those before `before` spare it, as a factor: nothing, or what one of them spares,
/// or, where two or more are there, all that it can be spared.
double Help::helped_by_any(std::size_t k, std::size_t before) const {
  const Helped& minor = minors_[k];
  double one = 0, present = 0, at_most = 0;
  for (const Sparing& by : minor.by_other) {
    if (by.other >= before) continue;
    const double saved = std::min(by.most, minor.spared_at_most);
    one -= std::exp(saved + present_[by.other]) * std::expm1(-saved);
    present += std::exp(present_[by.other]);
    at_most += std::exp(at_most_[by.other]);
  }
  if (present == 0) return 0;
  const double two = minor.spared_at_most + std::log(present) + std::log(at_most / 2);
  return std::min(minor.spared_at_most, log_sum(std::log1p(one), two));
}

/// Log of a bound from below of the same, over those that are not listed: what one of them spares where no second is.
double Help::surely_helped(std::size_t k) const {
  double at_most = 0, one = 0;
  const auto counts = [&](const Sparing& by) { return by.surely > 0 && by.other < k && !minors_[by.other].listed; };
  for (const Sparing& by : minors_[k].by_other) {
    if (counts(by)) at_most += std::exp(at_most_[by.other]);
  }
  for (const Sparing& by : minors_[k].by_other) {
    if (!counts(by)) continue;
    const double second = at_most - std::exp(at_most_[by.other]);
    const double alone = log_logistic(minors_[by.other].log_odds);
    const double sure = 1 - std::exp(present_[by.other] - alone) * second;
    if (sure > 0) one -= sure * std::exp(by.surely + alone) * std::expm1(-by.surely);
  }
  return std::min(minors_[k].spared_at_most, std::log1p(one));
}

void Help::sum_up() {
  for (std::size_t k = 0; k < minors_.size(); ++k) {
    const double log_odds = minors_[k].log_odds;
    const double most = helped_by_any(k, k);
    surely_[k] = surely_helped(k);
    most_ += log1p_exp(log_odds + most) - log1p_exp(log_odds);
    const double unknown = log1p_exp(log_odds + most) - log1p_exp(log_odds + surely_[k]);
    unknown_[k] += unknown;
    // Each helper has a part in it, no more than what it brings by itself and in twos.
    for (const Sparing& by : minors_[k].by_other) {
      if (by.other >= k) continue;
      const double brings = std::exp(log_odds + std::min(by.most, minors_[k].spared_at_most) + present_[by.other]);
      unknown_[by.other] += std::min(unknown, brings);
    }
  }
}

}  // namespace whichwire::search
