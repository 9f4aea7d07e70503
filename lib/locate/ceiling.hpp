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
// explain one by one.
#pragma once

#include <array>

#include "locate/context.hpp"

namespace whichwire::search {

class Ceiling {
 public:
  struct Entry {
    double log_odds;
    const Prospect* prospect;
  };

  /// `entries` in the order in which sets are split by their first member.
  Ceiling(const Problem& problem, const Context& context, std::vector<Entry> entries);

  /// Log bound of the mass of all sets.
  double whole() const { return bound(0, nullptr); }

  /// Log bound of what the entries after `k` can add to a set that has entry `k`.
  double after(std::size_t k) const { return bound(k + 1, entries_[k].prospect); }

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

    /// `border`: the part of the block's gain from which it is much.
    void add(const Share& share, double border, double gain);
  };
  struct Block {
    double gain = 0;
    std::vector<std::uint32_t> members;  ///< rising
    std::vector<Tail> tails;             ///< from each member on
  };

  /// What an entry brings to an observation, alone and with others.
  struct Improver {
    std::uint32_t entry;
    double alone = 0, joint = 0, share = 1;  ///< worth; worth with others, and its share of that
    double beyond(double u) const { return std::max(std::max(0.0, alone - u), share * std::max(0.0, joint - u)); }
    double within(double u) const { return std::max(std::min(alone, u), share * std::min(joint, u)); }
  };
  struct Hold {
    std::uint32_t observation, improver;  ///< index into entries_at_[observation]
  };

  const Improver& at(const Hold& hold) const { return entries_at_[hold.observation][hold.improver]; }
  void form_blocks();
  double saved_by(const std::vector<Hold>& holds, const std::vector<double>& free);
  void join_block(const std::vector<Hold>& holds, const std::vector<double>& free);
  void sum_up();
  void sum_up(std::uint32_t block);
  /// `gain`: what can still be gained of all the block's gain.
  static double bound_of(double all, double gain, const Tail& tail);
  double bound(std::size_t from, const Prospect* without) const;

  const Context& context_;
  std::vector<Entry> entries_;
  std::vector<std::vector<Hold>> improves_;        ///< by entry
  std::vector<double> paid_;                       ///< by entry: sum of what it brings beyond u
  std::vector<double> gain_;                       ///< by observation: the most that it can be worth
  std::vector<double> free_gain_;                  ///< by observation: u
  std::vector<std::vector<Improver>> entries_at_;  ///< by observation
  std::vector<std::uint32_t> block_at_;            ///< by observation: 0 none, else block + 1
  std::vector<Block> blocks_;
  std::vector<double> free_sum_;  ///< of entries in no block
  std::vector<double> odds_sum_;  ///< of all entries, where all that can be gained is free
  double all_gain_ = 0;           ///< sum of gain_
};

}  // namespace whichwire::search
