#include "locate/minor_error.hpp"

#include <algorithm>
#include <cmath>

#include "locate/overlaps.hpp"
#include "locate/tree.hpp"

namespace whichwire::search {
MinorError::MinorError(const Problem& problem, Context& context, const std::vector<const Prospect*>& minors,
                       double threshold)
    : problem_(problem),
      context_(context),
      minors_(minors),
      crowds_(problem, context, minors),
      by_(minors.size(), 0),
      met_by_(minors.size(), 0) {
  for (std::uint32_t k = 0; k < minors.size(); ++k) place_[minors[k]] = k;
  for (const double odds : crowds_.log_odds) mass_ += log1p_exp(odds);
  allowed_ = std::exp(threshold - mass_);
  bound_roughly();
  constexpr double fine = 0.1;
  if (least() > 0.5 && std::expm1(whole()) < fine * allowed_) return;
  lost_ = unsure_ = counted_twice_ = undone_ = 0;
  std::fill(met_by_.begin(), met_by_.end(), 0.0);
  bound_undone();
  const auto met = pairs_that_meet();
  bound_met(met);
  help_.emplace(help_among(context, crowds_, met, least()));
  work_ += crowds_.all.size() * minors.size() / 2;
  for (std::size_t k = 0; k < by_.size(); ++k) {
    by_[k] += help_of(k).unknown;
    sure_help_ += log1p_exp(exact(k) + help_of(k).surely) - log1p_exp(exact(k));
  }
}

double MinorError::whole() const {
  const double most = std::exp(help_ ? help_->most() : looser_) * (1 + undone_);
  return std::log((most - lost_ + counted_twice_) / least()) - sure_help_;
}

std::vector<std::uint8_t> MinorError::to_be_searched() const {
  constexpr double worth = 0.1;
  std::vector<std::uint32_t> order(minors_.size());
  double rest = 0;
  for (std::uint32_t k = 0; k < order.size(); ++k) {
    order[k] = k;
    rest += by_[k] / 2;  // every error has two that have a part in it
  }
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return by_[a] > by_[b]; });
  std::vector<std::uint8_t> searched;
  for (const auto k : order) {
    if (by_[k] <= worth * allowed_ && (least() >= 0.5 || rest < 0.25)) break;
    searched.resize(minors_.size(), 0);
    searched[k] = 1;
    rest -= by_[k] / 2;
  }
  return searched;
}

/// Bounds that need no pairs: everybody is helped in all it loses, everybody undoes every disturber, and those that
/// may meet at all meet everybody.
void MinorError::bound_roughly() {
  double all = 0, meeting = 0, all_at_best = 0, disturbing = 0;
  const auto may_meet = [](const Prospect& minor) {
    return minor.raises_jointly() || !minor.lowers.empty() || minor.gain > 0;
  };
  for (std::size_t k = 0; k < minors_.size(); ++k) {
    const double odds = std::exp(exact(k)), best = std::exp(at_best(k));
    looser_ += log1p_exp(at_best(k)) - log1p_exp(exact(k));
    all += odds;
    all_at_best += best;
    if (may_meet(*minors_[k])) meeting += odds;
    if (minors_[k]->disturbs && minors_[k]->company) disturbing += best;
  }
  undone_ = disturbing * all_at_best * std::exp(looser_);
  unsure_ = counted_twice_ = meeting * all;
  for (std::size_t k = 0; k < minors_.size(); ++k) met_by_[k] = may_meet(*minors_[k]) ? all : meeting;
}

/// Visits the pairs of which the first may undo something of the second.
template <class Visit>
void MinorError::visit_undoing(Visit visit) const {
  for (std::uint32_t d = 0; d < minors_.size(); ++d) {
    if (!minors_[d]->disturbs) continue;
    context_.visit_cuts(*minors_[d], [&](const Prospect& cut) {
      if (const auto at = place_.find(&cut); at != place_.end()) visit(at->second, d);
    });
  }
}

void MinorError::bound_undone() {
  visit_undoing([&](std::uint32_t c, std::uint32_t d) {
    const double part = std::exp(at_best(c) + at_best(d) - std::max(minors_[c]->firm, minors_[d]->firm) + looser_);
    by_[c] += part;
    by_[d] += part;
    undone_ += part;
  });
}

/// Two that raise or lower more together, or of which one may undo what the other gains.
std::vector<MinorPair> MinorError::pairs_that_meet() const {
  std::vector<MinorPair> pairs;
  for (std::uint32_t a = 0; a < minors_.size(); ++a) {
    const Prospect& one = *minors_[a];
    const bool raises = one.raises_jointly();
    if (!raises && one.lowers.empty()) continue;
    for (std::uint32_t b = 0; b < a; ++b) {
      const Prospect& other = *minors_[b];
      const bool both = (raises && other.raises_jointly()) || (!one.lowers.empty() && !other.lowers.empty());
      if (both && problem_.meets(one.candidate, other.candidate)) pairs.emplace_back(a, b);
    }
  }
  visit_undoing([&](std::uint32_t c, std::uint32_t d) {
    if (minors_[d]->gain > 0) pairs.emplace_back(std::max(c, d), std::min(c, d));
  });
  std::sort(pairs.begin(), pairs.end());
  pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
  return pairs;
}

/// Sets in which no two overlap or meet weigh as the product says. What two lose by overlapping is known. Of two that
/// meet the weight is looked up, the heaviest first, until the rest hardly matters. Of the rest, of sets with two pairs
/// that lose something, and of those with three that hang together, nothing is known; what pairs lose in these is
/// counted all the same.
void MinorError::bound_met(const std::vector<MinorPair>& pairs) {
  const Overlaps overlaps(context_, crowds_);
  struct Met {
    MinorPair pair;
    double product;
  };
  std::vector<Met> met;
  std::vector<double> partners(minors_.size(), 0), losers(minors_.size(), 0);  // sums of their odds
  double unknown = 0, losing = overlaps.losing();
  for (const auto& [a, b] : pairs) {
    partners[a] += std::exp(exact(b));
    partners[b] += std::exp(exact(a));
    if (!context_.meet_by_themselves(*minors_[a], *minors_[b])) continue;
    met.push_back({{a, b}, std::exp(exact(a) + exact(b))});
    unknown += met.back().product;
  }
  lost_ = overlaps.lost();
  lost_listed_ = overlaps.lost_listed();
  std::stable_sort(met.begin(), met.end(), [](const Met& x, const Met& y) { return x.product > y.product; });
  for (const auto& [pair, product] : met) {
    const auto& [a, b] = pair;
    const double overlapping = product * overlaps.between(a, b);  // counted already
    double lost = product / 2, at_most = product;
    if (unknown > allowed_ / 4) {
      lost = at_most = product - std::min(product, std::exp(context_.exact_pair(*minors_[a], *minors_[b])));
      unknown -= product;
    }
    constexpr double rounding = 1e-12;
    if (at_most > rounding * product && overlapping == 0) {
      losing += product;
      losers[a] += std::exp(exact(b));
      losers[b] += std::exp(exact(a));
    }
    lost_ += lost - overlapping;
    if (listed(a) && listed(b)) lost_listed_ += lost - overlapping;
    met_by_[a] += (at_most - overlapping) / std::exp(exact(a));
    met_by_[b] += (at_most - overlapping) / std::exp(exact(b));
  }
  unsure_ = std::max(0.0, unknown) / 2 + losing * losing / 2;
  counted_twice_ = std::max(0.0, unknown) / 2 + losing * losing;
  for (std::uint32_t k = 0; k < minors_.size(); ++k) {
    const double odds = std::exp(exact(k)), overlapping = overlaps.partners(k);
    const double all = partners[k] + overlapping, lose = losers[k] + overlapping;
    unsure_ += odds * all * all / 2;
    counted_twice_ += odds * lose * all;
    by_[k] += 1.5 * odds * all * all + 2 * odds * lose * (all + losing);
    met_by_[k] += overlaps.lost_beside(k) + all * (all + losing);
  }
}

}  // namespace whichwire::search
