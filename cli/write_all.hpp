// Writing that does not give up on a signal or a short write. Tests: tests/cli/files.cpp, tests/hardening/program.cpp.
#pragma once

#include <string_view>

namespace whichwire::cli {

/// False with the reason in `errno`; some of it may be written then.
bool write_all(int handle, std::string_view text);

}  // namespace whichwire::cli
