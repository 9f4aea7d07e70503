// What one scan says of its unit. Tests: tests/fleet/fleet.cpp.
#pragma once

#include <whichwire/fleet.hpp>
#include <whichwire/scan.hpp>

#include "fleet/build.hpp"

namespace whichwire {

UnitFinding finding_of(const Build& build, const Scan& scan, const LocateOptions& options);

/// What the finding depends on: two scans with one key have the same finding.
std::string evidence_key(const Build& build, const Scan& scan, const LocateOptions& options);

/// Six digits after the point: what is known of a probability, and what is written of it.
double in_millionths(double probability);

}  // namespace whichwire
