// Ceilings of those candidates that lose little, of those that lose more, and of all. A set loses at least what the one
// of its members loses that loses most, so it weighs e^-p less where it is not among those that lose less than p.
// Proof: DEVELOPERS.md, "Losses". Tested by tests/differential.
#pragma once

#include <deque>
#include <optional>

#include "locate/ceiling.hpp"

namespace whichwire::search {

class Ceilings {
 public:
  /// `entries` and `first` as in Ceiling.
  Ceilings(const Problem& problem, const Context& context, std::vector<Ceiling::Entry> entries,
           const Prospect* first = nullptr);

  /// Log bound of the mass of all sets: with more care where it is not far below what is wanted.
  double whole(double wanted) const;

  /// The same of what the entries after `k` can add to a set that has entry `k`.
  double after(std::size_t k, double wanted) const;

  /// Of all entries, whatever they lose.
  const Ceiling& all() const { return all_; }

 private:
  struct Class {
    double price;  ///< its members lose less than this
    Ceiling ceiling;
    std::vector<std::uint32_t> up_to;  ///< by entry: how many up to it, and it, are members
  };
  std::vector<double> prices() const;
  const std::deque<Class>& classes() const;
  template <class Bound>
  double sum(double paid, Bound bound) const;

  const Problem& problem_;
  const Context& context_;
  std::vector<Ceiling::Entry> entries_;
  const Prospect* first_;
  Ceiling all_;
  mutable std::optional<std::deque<Class>> classes_;  ///< but the last, which has all; made when first asked for
};

}  // namespace whichwire::search
