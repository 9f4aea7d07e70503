// What single faults mean for what a check can see. Tests: tests/checks/supply_checks.cpp.
#pragma once

#include "checks/candidate.hpp"

namespace whichwire {

/// `outcome` if seen, else good.
inline Sight sight(bool seen, std::size_t outcome, double share = 1) { return {seen ? outcome : 0, share, 0, 0}; }

/// An open wire or point.
bool is_open(const Fault& fault, PartKind part, std::size_t owner, std::size_t item = nowhere);

/// An open feed that is `feed` or above it.
bool opens_above(const Network& network, const Fault& fault, std::size_t feed);

/// A fault of the module itself.
bool of_module(const Fault& fault, FaultKind kind, std::size_t module);

/// Whether the fault takes the whole supply of the module away.
bool unpowers(const Network& network, const Fault& fault, std::size_t module);

/// A fault of a segment that ends at `end`.
bool of_segment_at(const Network& network, const Fault& fault, const End& end);

/// Whether the place of a module has a hazard for which it is refused.
bool out_of_bounds(const Module& module);

}  // namespace whichwire
