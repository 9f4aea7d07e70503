// Tests: tests/cli/fleet.cpp.
#include "rows_file.hpp"

#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>

#include "terminal.hpp"

namespace whichwire::cli {

RowsFile::~RowsFile() {
  if (file_ != nullptr) std::fclose(file_);
}

bool RowsFile::open(const std::string& path, bool resume) {
  path_ = path;
  file_ = std::fopen(path.c_str(), resume ? "r+" : "wx");
  if (file_ == nullptr && resume && errno == ENOENT) file_ = std::fopen(path.c_str(), "wx");
  if (file_ != nullptr) return true;
  message(path + (errno == EEXIST ? " is there already: --resume goes on with it, or name another file"
                                  : std::string(": cannot be written: ") + std::strerror(errno)));
  return false;
}

std::optional<std::string> RowsFile::next_done() {
  char* text = nullptr;
  std::size_t room = 0;
  const ssize_t length = getline(&text, &room, file_);
  std::optional<std::string> line;
  if (length > 0 && text[length - 1] == '\n') {
    line.emplace(text, static_cast<std::size_t>(length - 1));
    whole_ += length;
  }
  std::free(text);
  // A line whose writing was cut off goes; what is added begins a line.
  if (line || (ftruncate(fileno(file_), whole_) == 0 && std::fseek(file_, whole_, SEEK_SET) == 0)) return line;
  message(path_ + ": cannot be written: " + std::strerror(errno));
  std::fclose(file_);
  file_ = nullptr;
  return std::nullopt;
}

bool RowsFile::add(const std::string& lines) {
  if (std::fwrite(lines.data(), 1, lines.size(), file_) == lines.size() && std::fflush(file_) == 0) return true;
  message(path_ + ": cannot be written: " + std::strerror(errno) + "; with more room, --resume goes on");
  return false;
}

}  // namespace whichwire::cli
