// Memory that runs out: `new` of this program fails at one allocation, and again from there on where asked.
#pragma once

#include <cstddef>

namespace whichwire::test {

/// The allocation of this thread with this number from now on fails, all behind it too where `from_there_on`; 0: none.
void fail_allocation(std::size_t number, bool from_there_on = false);

/// Allocations of this thread since then.
std::size_t allocations();

}  // namespace whichwire::test
