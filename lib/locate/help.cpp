#include "locate/help.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

/// The probability that belongs to these log odds.
double logistic(double x) { return 1 / (1 + std::exp(-x)); }

}  // namespace

void Help::Sum::add(const Member& member, double sign) {
  present += sign * member.present;
  at_most += sign * member.at_most;
  at_best += sign * member.at_best;
  alone += sign * member.alone;
  second += sign * member.present * member.at_most;
}

Help::Help(std::vector<HelpedCrowd> crowds, double least)
    : crowds_(std::move(crowds)), members_(crowds_.size()), looser_(least > 0 ? -std::log(least) : INFINITY) {
  bound_presence();
  sum_up();
}

Help::Sum Help::whole(std::size_t crowd) const {
  Sum sum;
  for (const Member& member : members_[crowd]) sum.add(member);
  return sum;
}

/// Given all others it is present with what it is spared at most; that bounds what others are spared by it, and so on:
/// each turn is a bound if the one before was.
void Help::bound_presence() {
  for (const HelpedCrowd& crowd : crowds_) {
    for (const double odds : crowd.log_odds) looser_ += log1p_exp(odds + crowd.lost) - log1p_exp(odds);
  }
  for (std::size_t c = 0; c < crowds_.size(); ++c) {
    HelpedCrowd& crowd = crowds_[c];
    for (Sparing& by : crowd.by) by.factor = std::expm1(std::min(by.most, crowd.spared_at_most));
    for (const double odds : crowd.log_odds) {
      const double at_most = logistic(odds + crowd.spared_at_most), at_best = odds + crowd.lost;
      members_[c].push_back(
          {odds, std::min(at_most, std::exp(at_best + looser_)), at_most, std::exp(at_best), logistic(odds)});
    }
    sums_.push_back(whole(c));
  }
  for (int turn = 0; turn < 3; ++turn) {
    for (std::size_t c = 0; c < crowds_.size(); ++c) {
      const std::vector<Member> before = members_[c];
      for (std::size_t i = 0; i < before.size(); ++i) {
        Member& member = members_[c][i];
        if (i > 0 && before[i].odds == before[i - 1].odds) {  // alike to the last
          member.present = members_[c][i - 1].present;
          continue;
        }
        Sum mates = sums_[c];
        mates.add(before[i], -1);
        const double helped = helped_by_any(c, [&](std::size_t by) { return by == c ? mates : sums_[by]; });
        member.present = std::min(member.present, logistic(member.odds + helped));
      }
      sums_[c] = whole(c);
    }
  }
}

/// What it is likelier, as a share of its odds, where `by` is there: by what that spares it; nor do the two weigh more
/// than both at their best.
double Help::brought_by_one(const Sparing& by, const Sum& sum, double at_best) {
  return std::min(sum.present * by.factor, sum.at_best * at_best);
}

/// Log of a bound of the mean of what `others` (by crowd) spare it, as a factor: nothing, or what one of them spares,
/// or, where two or more are there, all that it can be spared; nor do those with it weigh more than all at their best.
template <class Others>
double Help::helped_by_any(std::size_t crowd, Others others) const {
  const HelpedCrowd& own = crowds_[crowd];
  const double own_at_best = std::exp(own.lost + looser_);
  double one = 0, present = 0, at_most = 0, at_best = 0;
  for (const Sparing& by : own.by) {
    const Sum sum = others(by.helper);
    if (sum.present <= 0) continue;
    one += brought_by_one(by, sum, own_at_best);
    present += sum.present;
    at_most += sum.at_most;
    at_best += sum.at_best;
  }
  if (present <= 0 || at_most <= 0) return 0;
  const double two = std::min(own.spared_at_most + std::log(present) + std::log(at_most / 2),
                              own.lost + 2 * std::log(at_best) - std::log(2) + looser_);
  return std::min(own.spared_at_most, log_sum(std::log1p(one), two));
}

/// Log of a bound from below of the same, over those that are not listed: what one of them spares where no second is.
double Help::surely_helped(std::size_t crowd, const Sum& before) const {
  const auto visit = [&](auto&& add) {
    for (const Sparing& by : crowds_[crowd].by) {
      if (by.surely > 0 && by.helper <= crowd && !crowds_[by.helper].listed)
        add(by.surely, by.helper == crowd ? before : sums_[by.helper]);
    }
  };
  double at_most = 0, one = 0;
  visit([&](double, const Sum& sum) { at_most += sum.at_most; });
  visit([&](double surely, const Sum& sum) {
    // One is present as the product says, and no second is.
    one += std::max(0.0, sum.alone - sum.present * at_most + sum.second) * std::expm1(surely);
  });
  return std::min(crowds_[crowd].spared_at_most, std::log1p(one));
}

void Help::sum_up() {
  for (const auto& members : members_) {
    most_present_.push_back(0);
    for (const Member& member : members) most_present_.back() = std::max(most_present_.back(), member.present);
  }
  brings_unknown_.assign(crowds_.size(), 0);
  for (std::size_t c = 0; c < crowds_.size(); ++c) {
    Sum before;
    for (std::size_t i = 0; i < members_[c].size(); ++i) {
      sum_up(c, i, before);
      before.add(members_[c][i]);
    }
  }
  for (std::size_t c = 0; c < crowds_.size(); ++c) {
    for (Member& member : members_[c]) member.unknown += brings_unknown_[c] * member.present;
  }
}

void Help::sum_up(std::size_t crowd, std::size_t place, const Sum& before) {
  Member& member = members_[crowd][place];
  const double odds = member.odds, own_at_best = std::exp(crowds_[crowd].lost + looser_);
  const double most = helped_by_any(crowd, [&](std::size_t by) {
    return by < crowd ? sums_[by] : by == crowd ? before : Sum{};
  });
  member.surely = surely_helped(crowd, before);
  most_ += log1p_exp(odds + most) - log1p_exp(odds);
  member.unknown = log1p_exp(odds + most) - log1p_exp(odds + member.surely);
  // Each helper has a part in it, no more than what it brings by itself and in twos.
  for (const Sparing& by : crowds_[crowd].by) {
    if (by.helper > crowd || (by.helper == crowd && before.present <= 0)) continue;
    const Sum& sum = by.helper == crowd ? before : sums_[by.helper];
    const double brings = std::exp(odds) * brought_by_one(by, sum, own_at_best) / sum.present;
    brings_unknown_[by.helper] += std::min(brings, member.unknown / most_present_[by.helper]);
  }
}

}  // namespace whichwire::search
