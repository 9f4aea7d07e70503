// What is held possible as repairs, likeliest first, each with the faults that need it.
// Tests: tests/planner/trade_rules.cpp.
#pragma once

#include "planner/evidence.hpp"

namespace whichwire {

std::vector<Repair> repairs_of(const Network& network, const Weighing& weighing);

}  // namespace whichwire
