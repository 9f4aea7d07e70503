#include "scan_inputs.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include "interrupt.hpp"

namespace whichwire::cli {
namespace {

namespace fs = std::filesystem;

constexpr const char* standard_input = "standard input";
constexpr std::size_t piece_bytes = 128U << 10U;             // some hundred scans: a piece of work for one core
constexpr std::size_t longest_scan = std::size_t{4} << 20U;  // as the format allows one

bool ends_in_any(const std::string& name, std::initializer_list<std::string_view> endings) {
  return std::ranges::any_of(endings, [&](std::string_view ending) { return name.ends_with(ending); });
}

std::string_view line_of(std::string_view text) {
  const std::size_t from = text.find_first_not_of(" \t\r\n");
  if (from == std::string_view::npos) return {};
  text = text.substr(from);
  text = text.substr(0, text.find('\n'));
  while (text.ends_with('\r') || text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

/// Whether there is a scan a line: the first line is an object, or both of the first two begin one.
bool one_a_line(const std::string& name, std::string_view text) {
  if (ends_in_any(name, {".ndjson", ".jsonl"})) return true;
  const std::string_view first = line_of(text);
  if (first.empty() && name == standard_input) return true;  // a filter that is given nothing gives nothing
  if (!first.starts_with('{') || first.size() < 2) return false;
  const std::string_view behind(first.data() + first.size(), text.data() + text.size());
  return first.ends_with('}') || line_of(behind).starts_with('{');
}

}  // namespace

ScanInputs::ScanInputs(const std::vector<std::string>& paths) {
  for (const std::string& path : paths) {
    std::error_code ignored;
    if (path != "-" && fs::is_directory(path, ignored)) {
      add_folder(path);
    } else {
      files_.push_back(path);
    }
  }
  for (const std::string& file : files_) {
    std::error_code none;
    const std::uintmax_t size = file == "-" ? 0 : fs::file_size(file, none);
    if (file == "-") {
      progress_.bytes_in_all = 0;
      break;
    }
    if (!none) progress_.bytes_in_all += size;
  }
}

ScanInputs::~ScanInputs() { close_file(); }

void ScanInputs::add_folder(const std::string& path) {
  std::vector<std::string> found;
  std::error_code error;
  for (fs::recursive_directory_iterator it(path, fs::directory_options::skip_permission_denied, error), end;
       !error && it != end; it.increment(error)) {
    std::error_code ignored;
    if (!it->is_regular_file(ignored)) continue;
    const std::string file = it->path().string();
    if (ends_in_any(file, {".json", ".jsonl", ".ndjson", ".txt"})) {
      found.push_back(file);
    } else {
      ++passed_over_;
    }
  }
  std::ranges::sort(found);
  files_.insert(files_.end(), found.begin(), found.end());
}

void ScanInputs::close_file() {
  if (handle_ > STDIN_FILENO) close(handle_);
  handle_ = -1;
  rest_.clear();
}

/// Adds to `rest_`. False at the end of the file, on an error, or once the user wants to stop.
bool ScanInputs::fill() {
  std::array<char, piece_bytes> piece;
  while (!ended_ && !stop_wanted()) {
    const ssize_t count = read(handle_, piece.data(), piece.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) error_ = std::strerror(errno);
    ended_ = count <= 0;
    if (ended_) break;
    rest_.append(piece.data(), static_cast<std::size_t>(count));
    progress_.bytes_read += static_cast<std::uint64_t>(count);
    return true;
  }
  return false;
}

ScanPiece ScanInputs::whole() {
  while (rest_.size() <= longest_scan && fill()) {
  }
  ScanPiece piece{name_, 0, std::move(rest_), error_};
  if (piece.text.size() > longest_scan) piece.error = "larger than 4 MiB";
  close_file();
  return piece;
}

std::optional<ScanPiece> ScanInputs::open_next() {
  while (at_ < files_.size() && !stop_wanted()) {
    const std::string& path = files_[at_++];
    name_ = path == "-" ? standard_input : path;
    handle_ = path == "-" ? STDIN_FILENO : open(path.c_str(), O_RDONLY | O_CLOEXEC);
    ended_ = false;
    line_ = 1;
    error_.clear();
    struct stat about {};
    if (handle_ < 0 || fstat(handle_, &about) != 0)
      return ScanPiece{name_, 0, "", errno == ENOENT ? "no such file" : std::strerror(errno)};
    fill();
    while (!ended_ && rest_.find('\n') == std::string::npos && rest_.size() <= longest_scan && fill()) {
    }
    if (!one_a_line(name_, rest_)) return whole();
    if (auto lines = next_lines()) return lines;
  }
  return std::nullopt;
}

/// Whole lines up to about the size of a piece.
std::optional<ScanPiece> ScanInputs::next_lines() {
  while (true) {
    const bool enough = rest_.rfind('\n') != std::string::npos && rest_.size() >= piece_bytes;
    if (enough || rest_.size() > longest_scan || !fill()) break;
  }
  if (stop_wanted()) return std::nullopt;
  const std::size_t end = rest_.rfind('\n');
  ScanPiece piece{name_, line_, "", ""};
  if (end == std::string::npos && rest_.size() > longest_scan) {
    while (rest_.find('\n') == std::string::npos) {
      rest_.clear();
      if (!fill()) break;
    }
    rest_.erase(0, rest_.find('\n') == std::string::npos ? rest_.size() : rest_.find('\n') + 1);
    ++line_;
    piece.error = "longer than 4 MiB";
    return piece;
  }
  const std::size_t size = end == std::string::npos || ended_ ? rest_.size() : end + 1;
  piece.text = rest_.substr(0, size);
  rest_.erase(0, size);
  line_ += static_cast<std::size_t>(std::ranges::count(piece.text, '\n'));
  piece.error = piece.text.empty() ? error_ : "";
  if (piece.text.empty()) close_file();
  if (piece.text.empty() && piece.error.empty()) return std::nullopt;
  return piece;
}

std::optional<ScanPiece> ScanInputs::next() {
  if (stop_wanted()) return std::nullopt;
  if (handle_ >= 0) {
    if (auto lines = next_lines()) return lines;
  }
  return open_next();
}

}  // namespace whichwire::cli
