// What a Fleet holds.
#pragma once

#include <atomic>
#include <map>
#include <mutex>
#include <vector>
#include <whichwire/fleet.hpp>

#include "fleet/build.hpp"
#include "fleet/groups.hpp"
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
  mutable std::atomic<const Build*> last_by_vehicle = nullptr;

  /// Made when first asked for: rows alone do not need them.
  const Groups& groups_of(const Build& build) const;

 private:
  mutable std::mutex mutex_;
  mutable std::map<const Build*, Groups> groups_;
};

/// The build of this name, or null.
const Build* build_named(const Fleet::State& state, std::string_view name);

}  // namespace whichwire
