#include "write_all.hpp"

#include <unistd.h>

#include <cerrno>

namespace whichwire::cli {

bool write_all(int handle, std::string_view text) {
  while (!text.empty()) {
    const ssize_t count = write(handle, text.data(), text.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

}  // namespace whichwire::cli
