// Tests: tests/cli/files.cpp.
#include "inputs.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

#include "terminal.hpp"

namespace whichwire::cli {

namespace {

constexpr std::size_t most_bytes = std::size_t{256} << 20U;

class File {
 public:
  explicit File(const std::string& path)
      : handle_(path == "-" ? STDIN_FILENO : open(path.c_str(), O_RDONLY | O_CLOEXEC)) {}
  ~File() {
    if (handle_ > STDIN_FILENO) close(handle_);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  int handle() const { return handle_; }

 private:
  int handle_;
};

/// Everything up to the end of the file; returns what went wrong, or nothing.
std::string read_all(int handle, std::string& text) {
  std::array<char, 65536> piece;
  while (true) {
    const ssize_t count = read(handle, piece.data(), piece.size());
    if (count == 0) return "";
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return std::strerror(errno);
    text.append(piece.data(), static_cast<std::size_t>(count));
    if (text.size() > most_bytes) return "larger than 256 MiB";
  }
}

}  // namespace

Input read_input(const std::string& path) {
  Input input{path == "-" ? "standard input" : path, "", ""};
  const File file(path);
  struct stat about {};
  if (file.handle() < 0 || fstat(file.handle(), &about) != 0) {
    input.error = errno == ENOENT ? "no such file" : std::string("cannot be opened: ") + std::strerror(errno);
  } else if (S_ISDIR(about.st_mode)) {
    input.error = "is a directory, not a file";
  } else {
    input.error = read_all(file.handle(), input.text);
  }
  if (!input.error.empty()) input.text.clear();
  return input;
}

std::optional<Input> input_or_message(const std::string& path) {
  Input input = read_input(path);
  if (input.error.empty()) return input;
  message(input.name + ": " + input.error);
  return std::nullopt;
}

std::optional<Network> network_or_message(const std::string& path) {
  const auto input = input_or_message(path);
  if (!input) return std::nullopt;
  NetworkResult result = read_network(input->text, input->name);
  message(result.mistakes);
  return std::move(result.network);
}

std::optional<Rates> rates_or_message(const std::string& path) {
  if (path.empty()) return default_rates();
  const auto input = input_or_message(path);
  if (!input) return std::nullopt;
  RatesResult result = read_rates(input->text, input->name);
  message(result.mistakes);
  if (!result.mistakes.empty()) return std::nullopt;
  return std::move(result.rates);
}

}  // namespace whichwire::cli
