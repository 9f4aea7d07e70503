// By how much minors, taken as if independent, may err.
//
// The product of their odds is right but for four things. (1) Two that lose at the same observation share the loss.
// (2) One lowers an observation, cutting a chosen disturbance off, and loses by it; another that raises it again takes
// the loss back. Both make sets likelier than the product, by how much is bounded in help.hpp. (3) One cuts off what
// another disturbs: sets with such a pair weigh at most the odds of their members and the loss that either brings in
// every superset. (4) Two that gain at one observation (overlaps.hpp), that raise or lower more together than each
// alone, or of which one undoes what the other gains, make a set less likely: all but the first are weighed exactly.
// Proof: DEVELOPERS.md, "Minors".
#pragma once

#include <cmath>
#include <optional>
#include <unordered_map>

#include "locate/minor_help.hpp"

namespace whichwire::search {

class MinorError {
 public:
  /// `threshold`: log of the error that is allowed, against the chosen set.
  MinorError(const Problem& problem, Context& context, const std::vector<const Prospect*>& minors, double threshold);

  double allowed() const { return allowed_; }  ///< as a share of the product
  std::size_t work() const { return work_; }
  bool listed(std::size_t k) const { return crowds_.all[crowds_.crowd_of[k]].kind.listed; }
  double exact(std::size_t k) const { return crowds_.log_odds[k]; }
  double met_by(std::size_t k) const { return met_by_[k]; }
  /// Lower bound of all sets as a share of the product.
  double least() const { return 1 - lost_ - unsure_; }
  /// The same for the sets that are not listed one by one.
  double least_apart() const { return least() + lost_listed_; }
  /// Log of how much likelier all sets may be than the lower bound.
  double whole() const;
  double surely_helped(std::size_t k) const { return help_ ? help_of(k).surely : 0; }
  /// Probability that a minor is present, at most.
  double present(std::size_t k) const { return help_ ? help_of(k).present : 1 / (1 + std::exp(-at_best(k))); }

  /// Those to be searched one by one, as flags: all that have a part in it worth a branch, and the worst ones until the
  /// product is a lower bound at all. Empty: there are none, so that the error stands.
  std::vector<std::uint8_t> to_be_searched() const;

 private:
  double at_best(std::size_t k) const { return problem_.log_odds[minors_[k]->candidate] + minors_[k]->gain; }
  const Help::Member& help_of(std::size_t k) const { return help_->of(crowds_.crowd_of[k], crowds_.place[k]); }
  void bound_roughly();
  template <class Visit>
  void visit_undoing(Visit visit) const;
  void bound_undone();
  void bound_met(const std::vector<MinorPair>& pairs);
  std::vector<MinorPair> pairs_that_meet() const;

  const Problem& problem_;
  Context& context_;
  const std::vector<const Prospect*>& minors_;
  const Crowds crowds_;
  std::unordered_map<const Prospect*, std::uint32_t> place_;  ///< of a minor
  std::vector<double> by_;                                    ///< by minor: its part in the error
  std::vector<double> met_by_;  ///< by minor: odds of all others that may bring more loss together with it
  double mass_ = 0, allowed_ = 0;
  std::size_t work_ = 0;
  std::optional<Help> help_;
  double sure_help_ = 0;      ///< log of how much likelier all sets are than the product, at least
  double looser_ = 0;         ///< log of how much likelier all would be without any loss
  double undone_ = 0;         ///< by pairs that undo each other, as a share of the product
  double lost_listed_ = 0;    ///< by pairs of which both are listed: their sets are weighed one by one
  double lost_ = 0;           ///< by pairs that meet or overlap, as a share of the product
  double unsure_ = 0;         ///< what more may be lost
  double counted_twice_ = 0;  ///< what less may be
};

}  // namespace whichwire::search
