// `ECM: not reachable, gateway locked`: the lock is why the module behind the gateway is not reached. It says nothing
// of the gateway itself, neither silence nor life. Tested in tests/scan/locked_gateway.cpp.
#pragma once

#include <vector>

#include "scan/elements.hpp"

namespace whichwire {

/// Where a line names a locked gateway beside those that it keeps from being reached, gateway and lock become one word:
/// not reachable. A gateway that refuses in a line or column of its own stays one.
void fold_locked_gateways(const TextLine& line, const Network& network, std::vector<LineElement>& elements);

}  // namespace whichwire
