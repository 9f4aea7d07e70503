// The compiled-in table of comparing: compare.csv. Tests: tests/compare/fit.cpp.
#pragma once

#include <string_view>

namespace whichwire {

/// The value of a row. Throws std::logic_error where the table lacks it.
double compare_number(std::string_view what);

}  // namespace whichwire
