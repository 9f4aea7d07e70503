// An upper bound of the mass of all sets drawn from some candidates.
//
// Let the candidates that have a part in improving an observation bring it to levels that are worth at most w each, and
// have shares in that of s each. Choose any u for the observation. Then a set T weighs at most exp(sum of u) * product
// over its members f of odds(f) * exp(sum of its s * (w - u) where that is positive): what an improvement is worth
// beyond u is paid for by the shares of those that bring it (DEVELOPERS.md). All u = 0 suits observations that stand
// alone: the price of explaining each is counted. The worth that one candidate brings, as u, suits observations that a
// few candidates explain many of at once: nothing is counted twice, and only what is worth still more is paid for. Such
// observations, and those that share candidates with them, form a block. A set with j members that explain much of a
// block gains at most all its u there, and at most j times what the best of them explains of it besides what the others
// explain one by one. Where that is not enough, every u is fitted by itself (ceiling_fitted.cpp). Tested by
// tests/differential/ceiling_test.cpp.
#pragma once

#include <array>
#include <cmath>

#include "locate/gains.hpp"

namespace whichwire::search {

class Ceiling {
 public:
  struct Entry {
    double log_odds, log1p_odds;
    const Prospect* prospect;
  };

  /// `entries` in the order in which sets are split by their first member. With `first`, which may be null: of what
  /// they can add to a set that has it.
  Ceiling(const Problem& problem, const Context& context, std::vector<Entry> entries, const Prospect* first);

  /// Log bound of the mass of all sets.
  double whole() const { return bound(0, nullptr); }

  /// Log bound of what the entries from `from` on can add to a set that has `first`.
  double after(const Prospect& first, std::size_t from) const { return bound(from, &first); }

  /// The same with u fitted observation by observation, until it is below `wanted` or hardly falls: dearer. Infinite
  /// where there is nothing to fit, or to get below.
  double fitted(double wanted) const;

  /// Log bound in which all blocks count, and what one entry pays for: for bounds of sets that contain it.
  double all_blocks() const;
  double own(std::size_t k) const { return entries_[k].log_odds + paid_[k]; }

 private:
  /// Those that explain much, by how much of the block it is.
  struct Sort {
    double odds = 0;   ///< sum of their odds
    double alone = 0;  ///< sum of their odds with all that each of them explains, over exp(block's gain)
  };
  /// What one member has to do with its block.
  struct Share {
    double explains = 0, odds = 0, log1p_odds = 0;
    double log1p_with = 0;  ///< log1p of the odds with all that it explains
    double alone = 0;       ///< its part in Sort::alone
  };
  struct Tail {
    double large = 0;  ///< sum of log1p(odds) of those that explain much
    std::array<Sort, 4> sorts;
    double most = 0;        ///< the most that one of them explains
    double small = 0;       ///< sum of log1p(odds) of the others
    double one_by_one = 0;  ///< the same with all that each of them explains
    double each = 0;        ///< so of all, those that explain much as well

    /// `border`: the part of the block's gain from which it is much.
    void add(const Share& share, double border, double gain);
  };
  struct Block {
    double gain = 0;
    std::vector<std::uint32_t> members;  ///< rising
    std::vector<Tail> tails;             ///< from each member on
  };

  using Holds = std::vector<std::uint32_t>;  ///< improvers

  void form_blocks();
  double saved_by(const Holds& holds, const std::vector<double>& free);
  void join_block(const Holds& holds, const std::vector<double>& free);
  void sum_up();
  void sum_up(std::uint32_t block);
  /// `gain`: what can still be gained of all the block's gain.
  static double bound_of(double all, double gain, const Tail& tail);
  static Share share_of(double own, double explains, double gain);
  static double best_border(const std::vector<Share>& shares, double gain);
  double bound(std::size_t from, const Prospect* without) const;

  const Problem& problem_;
  const Context& context_;
  std::vector<Entry> entries_;
  Gains gains_;
  bool unlikely_;                        ///< none of them is likely even with all that it may improve
  std::vector<double> paid_;             ///< by entry: sum of what it brings beyond u
  std::vector<double> free_gain_;        ///< by place: u
  std::vector<std::uint32_t> block_at_;  ///< by place: 0 none, else block + 1
  std::vector<Block> blocks_;
  std::vector<double> free_sum_;  ///< of entries in no block
  std::vector<double> odds_sum_;  ///< of all entries, where all that can be gained is free
  double all_gain_ = 0;           ///< sum of the most that each place can be worth
};

}  // namespace whichwire::search
