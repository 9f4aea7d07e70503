// What a case file and the rows of a fleet need of an open file (POSIX). Tests: tests/hardening/disk.cpp, rows.cpp.
#pragma once

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <string_view>

namespace whichwire {

inline bool is_ordinary_file(int handle) {
  struct stat about {};
  return fstat(handle, &about) == 0 && S_ISREG(about.st_mode);
}

/// Writes all of it from that byte on, however little a call takes. False with the reason in `errno`; some of it may
/// then be written.
inline bool write_at(int handle, std::string_view text, off_t at) {
  while (!text.empty()) {
    const ssize_t count = pwrite(handle, text.data(), text.size(), at);
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(count));
    at += count;
  }
  return true;
}

}  // namespace whichwire
