// A trouble code at the beginning of a longer text. Tested in tests/scan/code.cpp.
#pragma once

#include <whichwire/code.hpp>

namespace whichwire {

struct CodeRead {
  Code code;
  std::size_t length = 0;  ///< bytes of the text that are the code
};

/// The code that `text` begins with, or nullopt. What follows must not run on with a letter or digit.
std::optional<CodeRead> read_code(std::string_view text);

}  // namespace whichwire
