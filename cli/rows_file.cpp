#include "rows_file.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <whichwire/file_handle.hpp>

#include "terminal.hpp"

namespace whichwire::cli {
namespace {

constexpr std::size_t longest_row = std::size_t{4} << 20U;  // as a text in JSON may be long

}  // namespace

bool RowsFile::say(const std::string& what) const {
  message(path_ + what);
  return false;
}

void RowsFile::close_file() {
  if (handle_ >= 0) close(handle_);
  handle_ = -1;
}

bool RowsFile::open(const std::string& path, bool resume) {
  path_ = path;
  handle_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | (resume ? 0 : O_EXCL), 0666);
  if (handle_ < 0 && errno == EEXIST) return say(" is there already: --resume goes on with it, or name another file");
  if (handle_ < 0) return say(std::string(": cannot be written: ") + std::strerror(errno));
  const bool fit = is_ordinary_file(handle_);
  const bool alone = flock(handle_, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
  if (fit && alone) return true;
  close_file();
  return say(fit ? ": another run is writing to it" : " is no ordinary file");
}

/// Reads on. False at the end; the file is open no more where that cannot be told.
bool RowsFile::fill() {
  std::array<char, 65536> piece;
  ssize_t count = -1;
  do {
    count = pread(handle_, piece.data(), piece.size(), static_cast<off_t>(whole_ + read_.size()));
  } while (count < 0 && errno == EINTR);
  if (count > 0 && read_.size() <= longest_row) {
    read_.append(piece.data(), static_cast<std::size_t>(count));
    return true;
  }
  if (count == 0) return false;
  say(count > 0 ? ": a line of it is no row" : std::string(": cannot be read: ") + std::strerror(errno));
  close_file();
  return false;
}

std::optional<std::string> RowsFile::next_done() {
  std::size_t end = read_.find('\n');
  while (end == std::string::npos && fill()) end = read_.find('\n');
  if (end != std::string::npos) {
    std::string line = read_.substr(0, end);
    read_.erase(0, end + 1);
    whole_ += end + 1;
    return line;
  }
  // A line whose writing was cut off goes; what is added begins a line.
  if (is_open() && !read_.empty() && ftruncate(handle_, static_cast<off_t>(whole_)) != 0) {
    say(std::string(": cannot be written: ") + std::strerror(errno));
    close_file();
  }
  read_.clear();
  return std::nullopt;
}

bool RowsFile::add(const std::string& lines) {
  if (write_at(handle_, lines, static_cast<off_t>(whole_))) {
    whole_ += lines.size();
    return true;
  }
  const int reason = errno;
  const bool taken_back = ftruncate(handle_, static_cast<off_t>(whole_)) == 0;  // else the next run cuts it off
  return say(std::string(": cannot be written: ") + std::strerror(reason) +
             (taken_back ? "" : ", and its last row is cut off") + "; with more room, --resume goes on");
}

bool RowsFile::finish() {
  if (fsync(handle_) == 0) return true;
  return say(std::string(": its last rows may not be on the disk: ") + std::strerror(errno));
}

}  // namespace whichwire::cli
