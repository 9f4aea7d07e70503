// What a Fleet holds.
#pragma once

#include <vector>
#include <whichwire/fleet.hpp>

#include "fleet/build.hpp"
#include "fleet/memory.hpp"
#include "fleet/numbers.hpp"

namespace whichwire {

struct Fleet::State {
  State() : by_text(most_bytes()), by_evidence(most_bytes()) {}
  static std::size_t most_bytes() { return static_cast<std::size_t>(fleet_number("remembered-bytes")) / 2; }

  std::vector<std::unique_ptr<const Build>> builds;
  const Build* given = nullptr;  ///< all scans are of this one
  LocateOptions search;
  double no_fault_with_complaint = 1;
  bool remember = true;
  mutable Memory by_text, by_evidence;
};

/// The build of this name, or null.
const Build* build_named(const Fleet::State& state, std::string_view name);

}  // namespace whichwire
