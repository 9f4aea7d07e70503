// Looks values up by their key. Tests: tests/electrical/values.cpp.
#pragma once

#include <whichwire/electrical.hpp>

namespace whichwire {

/// The row's value; std::logic_error when the table has no such row.
const Interval& value_of(const ElectricalValues& values, std::string_view what);

/// The row's value, or nullptr.
const Interval* find_value(const ElectricalValues& values, std::string_view what);

}  // namespace whichwire
