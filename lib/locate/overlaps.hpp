// Minors that improve one observation: two of them improve it once. Counted crowd by crowd.
#pragma once

#include "locate/crowds.hpp"

namespace whichwire::search {

class Overlaps {
 public:
  Overlaps(const Context& context, const Crowds& crowds);

  /// What two lose that gain the same, as a share of the product of their odds: 0 none of it, 1 all.
  double between(std::uint32_t a, std::uint32_t b) const {
    return between_[crowds_.crowd_of[a] * sums_.size() + crowds_.crowd_of[b]];
  }

  /// Sums over all pairs of the product of their odds: of those that lose anything; of what is lost; of what is lost
  /// by pairs of which both are listed.
  double losing() const { return losing_; }
  double lost() const { return lost_; }
  double lost_listed() const { return lost_listed_; }

  /// Sums over the others of their odds: of those with which it loses anything; of what is lost.
  double partners(std::uint32_t k) const;
  double lost_beside(std::uint32_t k) const;

 private:
  struct Sum {
    double odds = 0, squares = 0;   ///< over the members
    double partners = 0, lost = 0;  ///< over all crowds, a member's own odds among them
  };

  void sum_up();

  const Crowds& crowds_;
  std::vector<Sum> sums_;        ///< by crowd
  std::vector<double> between_;  ///< by pair of crowds
  double losing_ = 0, lost_ = 0, lost_listed_ = 0;
};

}  // namespace whichwire::search
