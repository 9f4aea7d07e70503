// Tests: tests/cli/draw.cpp.
#include "outputs.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "exit_status.hpp"
#include "terminal.hpp"
#include "write_all.hpp"

namespace whichwire::cli {

namespace {

/// Into a new file beside it, which then takes its name: a reader finds the old contents or the new.
bool replace(const std::string& path, const std::string& text, mode_t mode) {
  std::string fresh = path + ".XXXXXX";
  const int handle = mkstemp(fresh.data());
  if (handle < 0) return false;
  const bool written = write_all(handle, text) && fchmod(handle, mode) == 0 && fsync(handle) == 0;
  const int reason = errno;
  const bool closed = close(handle) == 0;
  if (written && closed && rename(fresh.c_str(), path.c_str()) == 0) return true;
  const int last = written ? errno : reason;
  unlink(fresh.c_str());
  errno = last;
  return false;
}

/// A device or pipe is not replaced but written to.
bool write_through(const std::string& path, const std::string& text) {
  const int handle = open(path.c_str(), O_WRONLY | O_CLOEXEC);
  if (handle < 0) return false;
  const bool written = write_all(handle, text);
  return close(handle) == 0 && written;
}

}  // namespace

int write_result(const std::string& path, const std::string& text) {
  if (path.empty() || path == "-") return write_out(text);
  struct stat about {};
  const bool there = stat(path.c_str(), &about) == 0;
  const mode_t mask = umask(0);
  umask(mask);
  const mode_t mode = there ? about.st_mode & 07777U : 0666U & ~mask;
  if (there && !S_ISREG(about.st_mode) ? write_through(path, text) : replace(path, text, mode)) return done;
  message(path + ": cannot be written: " + std::strerror(errno));
  return refused;
}

}  // namespace whichwire::cli
