// The table of generic network codes (network-codes.csv), in order of their numbers.
// Source: SAE J2012 / ISO 15031-6 as public lists print it. Tested in tests/scan/tables.cpp, tests/reference/j2012.cpp.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace whichwire {

struct GenericCode {
  std::uint32_t number = 0;  ///< 0x0100 for U0100
  std::string_view kind, subject, qualifier, title;
};

const std::vector<GenericCode>& generic_codes();

/// The row of a number, or null.
const GenericCode* find_generic_code(std::uint32_t number);

}  // namespace whichwire
