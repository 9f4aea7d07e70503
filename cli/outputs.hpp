// Results that go to a file: written whole or not at all.
#pragma once

#include <string>

namespace whichwire::cli {

/// To the file at `path`, which keeps its old contents until the new ones are all there; to standard output for an
/// empty path or `-`. Returns the exit status.
int write_result(const std::string& path, const std::string& text);

}  // namespace whichwire::cli
