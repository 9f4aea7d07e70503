// Diagnosis instances of the vehicle's shape whose figures were published with their generator: buses with splices and
// modules, a gateway, shared fuses and grounds; answers and lost-communication codes as observations, with noise.
// Source: a generator of 60 lines in Python's standard library and, made with it, `net30` and `net300` with their
// figures from gringo/clasp, toulbar2 and plain enumeration. Ported number for number:
// tests/reference/textbook_nets.cpp holds the text it writes against the published checksum. Used by the tests and by
// the benchmark.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "locate/problem.hpp"

namespace whichwire::test {

struct NetObservation {
  std::string name;
  std::vector<std::uint32_t> causes;         ///< faults, rising: any of them breaks it
  double given_whole = 0, given_broken = 0;  ///< probability of what was seen
};

struct PublishedNet {
  std::vector<std::string> faults;
  std::vector<double> prior;
  std::vector<NetObservation> observations;

  std::uint32_t index_of(const std::string& fault) const;
};

struct NetShape {
  std::size_t buses = 3, splices = 5, modules_a_splice = 2;
  std::uint32_t seed = 7;
  std::vector<std::string> present;  ///< the faults that the vehicle has
};

PublishedNet published_net(const NetShape& shape);
PublishedNet net30();
PublishedNet net300();

/// The generator's own text of an instance, to its last digit.
std::string text_of(const PublishedNet& net);

/// Weights in natural logs, as exact as doubles are.
search::Problem problem_of(const PublishedNet& net);

/// The same with every cost rounded to thousandths, as the published counts have it.
search::Problem rounded_problem_of(const PublishedNet& net);

/// Log probability of no fault together with everything seen: the search's masses are relative to it.
double log_of_no_fault(const PublishedNet& net);

}  // namespace whichwire::test
