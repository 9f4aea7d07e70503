// The parts of a build that may recur, and the classes of parts that a scan cannot tell apart: those that break the same
// modules off. Each with its share of what the rates let fail. Tests: tests/fleet/recurring.cpp.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "fleet/build.hpp"

namespace whichwire {

struct Groups {
  struct Group {
    std::vector<std::string> parts;
    double share = 0;  ///< of all faults that break a module off, by their odds
  };
  std::vector<Group> all;                                     ///< parts, then classes of several parts
  std::map<std::string, std::vector<std::size_t>> of_fault;  ///< by the fault's words: its part and its class
};

/// A fault that breaks nothing off is in no group: scans do not show it. One that comes and goes is in those of the
/// fault that stays.
Groups groups_of(const Build& build);

}  // namespace whichwire
