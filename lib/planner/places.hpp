// Where the probes go for each check that a meter or a lamp answers. Tests: tests/planner/evidence.cpp.
#pragma once

#include <map>
#include <whichwire/planner.hpp>

#include "checks/build.hpp"

namespace whichwire {

/// How each check of the network is taken, by id.
using Places = std::map<std::string, Measurement>;

Places places_of(const Job& job);

/// `taken` with everything off that is off now.
Measurement with_off(Measurement taken, const Situation& now);

}  // namespace whichwire
