// How much minors help one another: two that lose at the same observation lose less together than each alone, so sets
// with both weigh more than the product of their odds. Bounds of the mass of all sets from above and from below that
// differ only by what three and more have to do with each other. Proof: DEVELOPERS.md, "Minors". Tested by
// tests/differential.
#pragma once

#include <cstdint>
#include <vector>

namespace whichwire::search {

/// What one minor spares another.
struct Sparing {
  std::uint32_t other;
  double most;    ///< log; at most, other minors apart
  double surely;  ///< log; at least, whatever other minors are there
};

/// A minor as far as help goes. All numbers are natural logs.
struct Helped {
  double log_odds;                ///< alone
  double spared_at_most = 0;      ///< by all others together
  bool listed = false;            ///< stands after all that are not
  std::vector<Sparing> by_other;  ///< each other once
};

class Help {
 public:
  explicit Help(std::vector<Helped> minors);

  /// Log of how much likelier all sets are than the product, at most.
  double most() const { return most_; }

  /// Log factor by which a minor is likelier than its odds, at least, beside those before it that are not listed.
  double surely(std::size_t k) const { return surely_[k]; }

  /// Probability that a minor is present, at most.
  double present(std::size_t k) const;

  /// Part that a minor has in what is not known, as a share of the product.
  double unknown(std::size_t k) const { return unknown_[k]; }

 private:
  void bound_presence();
  double helped_by_any(std::size_t k, std::size_t before) const;
  double surely_helped(std::size_t k) const;
  void sum_up();

  std::vector<Helped> minors_;
  std::vector<double> at_most_;  ///< by minor: log of its probability given any others, at most
  std::vector<double> present_;  ///< by minor: log of its probability, at most
  std::vector<double> surely_, unknown_;
  double most_ = 0;
};

}  // namespace whichwire::search
