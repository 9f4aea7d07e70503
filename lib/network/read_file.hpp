// A file's bytes, or why there are none. Tested in tests/network/read_file_test.cpp.
#pragma once

#include <optional>
#include <string>

namespace whichwire {

struct FileText {
  std::optional<std::string> text;
  std::string error;  ///< one clause: `cannot be read: no such file`
};

/// Reads at most `most` bytes; a larger file, a folder or a device is an error.
FileText read_file(const std::string& path, std::size_t most);

}  // namespace whichwire
