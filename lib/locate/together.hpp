// What sets of candidates raise: alone from their signatures, those that meet through the problem's own rule,
// remembered.
#pragma once

#include <unordered_map>

#include "locate/problem.hpp"

namespace whichwire::search {

class Together {
 public:
  explicit Together(const Problem& problem) : problem_(problem) {}

  /// What a set raises whose members (some marked `firmly`) all hang together by meeting one another. Valid until the
  /// next call.
  const std::vector<Raised>& of(std::span<const Candidate> connected);

  /// Levels of all observations under any set, some of it marked `firmly`; `level` is resized to the observations.
  void levels(std::span<const Candidate> set, std::vector<Level>& level);

  /// Log weight of a set against the empty set.
  double log_weight(std::span<const Candidate> set);

  /// The members of `set` (marks kept) that hang together with `candidate` by meeting it, directly or through members.
  void companions(std::span<const Candidate> set, Candidate candidate, std::vector<Candidate>& out);

 private:
  struct Hash {
    std::size_t operator()(const std::vector<Candidate>& set) const;
  };
  static constexpr std::size_t most_remembered = 1 << 16;  // a few ten MiB
  const Problem& problem_;
  std::unordered_map<std::vector<Candidate>, std::vector<Raised>, Hash> remembered_;
  std::vector<Candidate> key_, left_, rest_, group_;
  std::vector<Level> level_;
};

}  // namespace whichwire::search
