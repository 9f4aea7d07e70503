// What some candidates may improve where the search stands: by observation and by candidate.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "locate/context.hpp"

namespace whichwire::search {

/// What one brings to an observation, alone and with others.
struct Improver {
  std::uint32_t entry, place;              ///< which candidate; which observation, of those that are improved
  double alone = 0, joint = 0, share = 1;  ///< worth; worth with others, and its share of that
  double beyond(double u) const { return std::max(std::max(0.0, alone - u), share * std::max(0.0, joint - u)); }
  double within(double u) const { return std::max(std::min(alone, u), share * std::min(joint, u)); }
};

class Gains {
 public:
  /// Entries, the candidates, are numbered as `add` and `leave_out` are called; then `finish`, before anything is
  /// asked.
  /// Beside `first`, which may be null, only what is beyond that one's improvements.
  Gains(const Problem& problem, const Context& context, const Prospect* first);

  void add(const Prospect& prospect);
  void leave_out() { ++entries_; }
  void finish();

  /// An observation that something improves has a place.
  static constexpr std::uint32_t nowhere = 0xffffffff;
  std::uint32_t place_of(std::uint32_t observation) const { return place_of_[observation]; }
  std::size_t places() const { return most_.size(); }
  double most(std::uint32_t place) const { return most_[place]; }  ///< the most that it can be worth

  std::span<const Improver> at(std::uint32_t place) const {
    return std::span(improvers_).subspan(from_[place], from_[place + 1] - from_[place]);
  }
  /// What an entry improves: indices for `improver`, by rising place.
  std::span<const std::uint32_t> of(std::uint32_t entry) const {
    return std::span(of_).subspan(of_from_[entry], of_from_[entry + 1] - of_from_[entry]);
  }
  const Improver& improver(std::uint32_t index) const { return improvers_[index]; }

 private:
  const Context& context_;
  std::uint32_t entries_ = 0;
  std::vector<double> taken_;                   ///< by observation: what the first improves it by; empty: there is none
  std::vector<std::uint32_t> place_of_, last_;  ///< by observation; by place: the last improver added
  std::vector<double> most_;
  std::vector<Improver> improvers_;
  std::vector<std::uint32_t> from_, of_, of_from_;
};

}  // namespace whichwire::search
