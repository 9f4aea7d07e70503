// What is left of a disturbance beside a candidate that undoes some of it, looked up pair by pair and remembered.
#pragma once

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

class Spares {
 public:
  /// `most_steps` of about a nanosecond each are taken with them, at all nodes together. They only make bounds closer,
  /// and their number grows with the cube of a bus's modules.
  Spares(const Problem& problem, Together& together, std::size_t most_steps)
      : problem_(problem), together_(together), steps_left_(most_steps) {}

  /// One for each candidate that may undo something of the disturber.
  const std::vector<Beside>& of(Candidate disturber);

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
  std::map<Candidate, std::vector<Beside>> known_;
  std::size_t steps_left_;
};

}  // namespace whichwire::search
