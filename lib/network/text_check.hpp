// Before a text is taken as JSON: is it of a size, an encoding and characters that can be read at all?
// Tested in tests/network/placed_json_test.cpp.
#pragma once

#include "network/complaints.hpp"

namespace whichwire::json {

/// Says in `complaints` what keeps the text from being read. A text that is not UTF-8 gets its first bad byte named.
bool readable(std::string_view text, std::uint32_t source, Complaints& complaints, std::size_t most_bytes);

/// Offset of the first byte at or after `from` that is neither blank nor in a comment; a comment that is never closed
/// counts as neither.
std::size_t behind_blanks(std::string_view text, std::size_t from);

/// Offset of the next token at or after `from`: behind white space, comments, commas and colons.
std::size_t token_start(std::string_view text, std::size_t from);

/// Where the number that begins at `start` is over.
std::size_t number_end(std::string_view text, std::size_t start);

}  // namespace whichwire::json
