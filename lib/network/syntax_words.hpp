// What nlohmann_json says about a syntax error, in words for the person who wrote the text.
// Tested in tests/network/placed_json_test.cpp, which provokes every row.
#pragma once

#include <string>
#include <string_view>

namespace whichwire::json {

std::string syntax_words(std::string_view said);

}  // namespace whichwire::json
