// An upper bound of the mass of all sets drawn from some candidates.
//
// Let an observation that can still improve bring at most the log factor g, and where it is a certain candidate that
// brings it to its level, at most that level's worth. Split g = u + v. Then a set T weighs at most exp(sum of u) *
// product over its members f of odds(f) * exp(sum of v that f may improve, or of f's worths), since an improved
// observation has at least one member on it that brings it to its level. All of g in u suits observations that a few
// candidates explain many of at once: nothing is counted twice. All of g in v suits those that stand alone: the price
// of explaining each is counted. Observations that share such a candidate form a block. A set with j members that
// explain much of a block gains at most all its u there, and at most j times what the best of them explains besides
// what the others explain one by one.
#pragma once

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

  /// Log bound in which all blocks count, and the v of one entry: for bounds of sets that contain it.
  double all_blocks() const;
  double own(std::size_t k) const { return entries_[k].log_odds + alone_[k]; }

 private:
  struct Tail {
    double large = 0;       ///< sum of log1p(odds) of those that explain much
    double odds = 0;        ///< sum of their odds
    double most = 0;        ///< the most that one of them explains
    double small = 0;       ///< sum of log1p(odds) of the others
    double one_by_one = 0;  ///< the same with all that each of them explains
  };

  void form_blocks();
  bool worth_a_block(const std::vector<std::uint32_t>& observations);
  void join_block(const std::vector<std::uint32_t>& observations);
  void sum_up();
  void sum_up_block(std::size_t block, const std::vector<std::uint32_t>& block_of);
  static double bound_of(double gain, const Tail& tail);
  double bound(std::size_t from, const Prospect* without) const;

  const Context& context_;
  std::vector<Entry> entries_;
  struct Improved {
    std::uint32_t observation;
    double worth;
  };
  struct Improver {
    std::uint32_t entry;
    double worth;
  };
  std::vector<std::vector<Improved>> improves_;    ///< by entry
  std::vector<double> alone_;                      ///< by entry: sum of v
  std::vector<double> gain_;                       ///< by observation: g
  std::vector<std::vector<Improver>> entries_at_;  ///< by observation
  std::vector<std::uint32_t> block_at_;            ///< by observation: 0 none, else block + 1
  std::vector<double> block_gain_;
  std::vector<std::vector<Tail>> tails_;  ///< by block, from each entry on
  std::vector<double> free_sum_;          ///< of entries in no block
  std::vector<double> odds_sum_;          ///< of all entries, with what they improve in u
  double all_gain_ = 0;                   ///< sum of g
};

}  // namespace whichwire::search
