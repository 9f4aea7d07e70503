// How likely each thing that a scan can show is at each level: the table likelihood.csv.
// Tested by tests/locate/evidence_*.cpp.
#pragma once

#include <array>
#include <string_view>
#include <whichwire/findings.hpp>

namespace whichwire {

/// Natural logs by level. Throws std::logic_error for a row that the table does not have.
const std::array<double, level_count>& log_likelihood_of(std::string_view seen);

}  // namespace whichwire
