// The meaning of a J1939 code (letter S). Tested in tests/scan/meaning.cpp and tests/reference/j1939.cpp.
#pragma once

#include <whichwire/code.hpp>

namespace whichwire {

CodeMeaning meaning_of_spn(const Code& code);

}  // namespace whichwire
