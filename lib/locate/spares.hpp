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
  Spares(const Problem& problem, Together& together) : problem_(problem), together_(together) {}

  /// One for each candidate that may undo something of the disturber.
  const std::vector<Beside>& of(Candidate disturber);

 private:
  Beside beside(Candidate disturber, Candidate cut, Undo undo);

  const Problem& problem_;
  Together& together_;
  std::map<Candidate, std::vector<Beside>> known_;
};

}  // namespace whichwire::search
