// What may recur in a build: a part, or parts that a scan cannot tell apart since they break the same modules off; and
// a part's single states. Each with its share of what the rates let fail. Tests: tests/fleet/recurring.cpp.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "fleet/build.hpp"

namespace whichwire {

struct Group {
  enum class Sort : std::uint8_t {
    part,
    several_parts,  ///< that break the same modules off
    state,          ///< one part in one broken state
  };
  Sort sort = Sort::part;
  std::vector<std::string> parts;
  double share = 0;  ///< of all faults that break a module off, by their odds
};

/// A part, or several: what only one part brings about is said of the part.
bool may_recur(const Group& group);

struct Groups {
  std::vector<Group> all;
  std::map<std::string, std::vector<std::size_t>> of_fault;  ///< by the fault's words

  std::size_t part_group(const std::string& part) const;
  /// How many may recur: parts and several parts.
  std::size_t looked_at() const;
};

/// A fault that breaks nothing off is in no group: scans do not show it. One that comes and goes is in those of the
/// fault that stays.
Groups groups_of(const Build& build);

}  // namespace whichwire
