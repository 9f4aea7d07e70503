// The planner's numbers by name. Tests: tests/planner/evidence.cpp.
#pragma once

#include <whichwire/planner.hpp>

namespace whichwire {

/// std::logic_error where the table lacks the row.
double number_of(const PlannerNumbers& numbers, std::string_view what);

}  // namespace whichwire
