// What is left of a disturbance beside a candidate that undoes some of it, looked up pair by pair and remembered.
#pragma once

#include <algorithm>
#include <boost/dynamic_bitset.hpp>
#include <map>

#include "locate/together.hpp"

namespace whichwire::search {

using Observations = boost::dynamic_bitset<std::uint64_t>;

/// A disturber beside one candidate that may undo some of it.
struct Beside {
  Candidate cut = 0;
  Observations raised;  ///< what the disturber still raises, beyond what the other does: no more than that with others
  Observations spared;  ///< what may be lower than with the disturber alone, be it with the help of others
};

/// What is left of a disturber beside each candidate that may undo some of it.
struct Undoers {
  std::vector<Beside> beside;
  /// Sorts of observations that the disturber raises alone, by who spares it there: indices of `beside`.
  std::vector<std::vector<std::uint32_t>> sorts;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> sort;  ///< of an observation, by rising observation

  /// `observation`: one that the disturber raises alone.
  std::uint32_t sort_at(std::uint32_t observation) const {
    return std::lower_bound(sort.begin(), sort.end(), std::pair(observation, std::uint32_t{0}))->second;
  }
};

class Spares {
 public:
  /// `most_steps` of about a nanosecond each are taken with them, at all nodes together. They only make bounds closer,
  /// and their number grows with the cube of a bus's modules.
  Spares(const Problem& problem, Together& together, std::size_t most_steps)
      : problem_(problem), together_(together), steps_left_(most_steps) {}

  /// Made when first asked for.
  const Undoers& of(Candidate disturber);

  /// Whether so many steps may still be taken.
  bool spend(std::size_t steps) {
    if (steps > steps_left_) return false;
    steps_left_ -= steps;
    return true;
  }

 private:
  Beside beside(Candidate disturber, Candidate cut, Undo undo);

  const Problem& problem_;
  Together& together_;
  std::map<Candidate, Undoers> known_;
  std::size_t steps_left_;
};

}  // namespace whichwire::search
