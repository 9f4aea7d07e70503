// Which network is a unit's: the one that the user named, the one of the vehicle that the scan states, or the one that
// accounts for the scan best. Tests: tests/fleet/match.cpp.
#pragma once

#include <string>
#include <string_view>
#include <whichwire/scan.hpp>

#include "fleet/state.hpp"

namespace whichwire {

struct Matched {
  const Build* build = nullptr;
  MatchedBy by = MatchedBy::only_one;
  std::optional<Scan> scan;  ///< read against the build's network
  std::string error;         ///< why one of the two is missing
};

Matched match_scan(const Fleet::State& state, std::string_view text, const std::string& name);

}  // namespace whichwire
