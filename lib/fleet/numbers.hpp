// The compiled-in table of fleet work: fleet.csv. Tests: tests/fleet/recurring.cpp.
#pragma once

#include <string_view>

namespace whichwire {

/// The value of a row. Throws std::logic_error where the table lacks it.
double fleet_number(std::string_view what);

}  // namespace whichwire
