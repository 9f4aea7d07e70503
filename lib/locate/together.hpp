// What sets of candidates raise: alone from their signatures, those that meet through the problem's own rule,
// remembered.
#pragma once

#include <memory_resource>
#include <optional>
#include <unordered_map>

#include "locate/problem.hpp"

namespace whichwire::search {

class Together {
 public:
  explicit Together(const Problem& problem);

  /// Log factor of a candidate that may be there or not and changes nothing.
  double log1p_odds(Candidate candidate) const { return log1p_odds_[candidate]; }

  /// What a set raises whose members (some marked `firmly`) all hang together by meeting one another. Valid until the
  /// next call.
  std::span<const Raised> of(std::span<const Candidate> connected);

  /// What two that meet raise, marked or not. They are asked for again and again, so more are remembered. Valid until
  /// the next call.
  std::span<const Raised> of_pair(Candidate a, Candidate b);

  /// Work spent on what was not remembered, as a multiple of a look at a candidate that meets none of the chosen.
  std::size_t work() const { return work_; }

  /// Levels of all observations under any set, some of it marked `firmly`; `level` is resized to the observations.
  void levels(std::span<const Candidate> set, std::vector<Level>& level);

  /// Log weight of a set against the empty set.
  double log_weight(std::span<const Candidate> set);

  /// The members of `set` (marks kept) that hang together with `candidate` by meeting it, directly or through members.
  void companions(std::span<const Candidate> set, Candidate candidate, std::vector<Candidate>& out);

 private:
  using Set = std::pmr::vector<Candidate>;
  struct Hash {
    std::size_t operator()(const Set& set) const;
  };
  void forget();
  void ask(std::span<const Candidate> set);

  static constexpr std::size_t most_remembered = 1 << 12;  // more of them do not fit a processor's cache
  const Problem& problem_;
  std::size_t work_ = 0;
  std::vector<double> log1p_odds_;
  std::pmr::monotonic_buffer_resource memory_;  ///< of what is remembered: it is only ever forgotten as a whole
  std::optional<std::pmr::unordered_map<Set, std::pmr::vector<Raised>, Hash>> remembered_;
  struct Piece {
    std::uint32_t from, count;
  };
  std::vector<std::optional<std::vector<Raised>>> firm_;  ///< by candidate that disturbs: what it raises firmly, alone
  static constexpr std::size_t most_pairs = 1 << 18, most_by_pairs = 1 << 21;
  std::unordered_map<std::uint64_t, Piece> pairs_;
  std::vector<Raised> by_pairs_;
  Set key_;
  std::vector<Raised> raised_;
  std::vector<Candidate> left_, rest_, group_;
  std::vector<Level> level_;
};

}  // namespace whichwire::search
