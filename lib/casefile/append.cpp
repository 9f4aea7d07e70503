// Appends under a lock. The entry is written with one call and is on the disk before it is acknowledged; a write that
// fails is taken back whole. What a writer that was killed left half written was never acknowledged: the next one cuts
// it off. Tested in tests/casefile/append.cpp with processes that are killed and that write at once.
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <thread>
#include <whichwire/casefile.hpp>
#include <whichwire/file_handle.hpp>

#include "casefile/entry_shape.hpp"
#include "casefile/replay.hpp"

namespace whichwire {

namespace {

constexpr std::size_t most_bytes = std::size_t{64} << 20U;
constexpr int most_waits = 400;  // of 25 ms each, for another program's lock

Appended refused(std::string why) { return {0, std::move(why), {}, false}; }
Appended failed(const std::string& what) { return {0, what + ": " + std::strerror(errno), {}, true}; }

/// An open file with an exclusive lock, given back at the end.
class LockedFile {
 public:
  LockedFile(const std::string& path, int flags) : handle_(open(path.c_str(), flags | O_RDWR | O_CLOEXEC, 0666)) {}
  ~LockedFile() {
    if (handle_ >= 0) close(handle_);  // the lock goes with it
  }
  LockedFile(const LockedFile&) = delete;
  LockedFile& operator=(const LockedFile&) = delete;

  bool is_open() const { return handle_ >= 0; }

  bool lock() const {
    for (int waits = 0; waits < most_waits; ++waits) {
      if (flock(handle_, LOCK_EX | LOCK_NB) == 0) return true;
      if (errno != EWOULDBLOCK && errno != EINTR) return false;
      std::this_thread::sleep_for(std::chrono::milliseconds(25));
    }
    return false;
  }

  bool regular() const { return is_ordinary_file(handle_); }

  bool read_all(std::string& text) const {
    std::array<char, 65536> piece;
    for (off_t at = 0; text.size() <= most_bytes;) {
      const ssize_t count = pread(handle_, piece.data(), piece.size(), at);
      if (count < 0 && errno == EINTR) continue;
      if (count <= 0) return count == 0;
      text.append(piece.data(), static_cast<std::size_t>(count));
      at += count;
    }
    errno = EFBIG;
    return false;
  }

  /// Puts `line` behind the first `length` bytes and waits for the disk; takes it back where that fails.
  bool put_at(std::size_t length, const std::string& line) const {
    const auto end = static_cast<off_t>(length);
    if (ftruncate(handle_, end) == 0 && write_at(handle_, line, end) && fsync(handle_) == 0) return true;
    const int reason = errno;
    if (ftruncate(handle_, end) == 0) fsync(handle_);
    errno = reason;
    return false;
  }

 private:
  int handle_;
};

/// The name of a new file is on the disk only when its folder is.
bool folder_kept(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : slash == 0 ? "/" : path.substr(0, slash);
  const int handle = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return errno == EACCES;  // a folder that may be written but not read: nothing more can be done
  const bool kept = fsync(handle) == 0 || errno == EINVAL || errno == EROFS;
  close(handle);
  return kept;
}

/// Of a start that was cut off, or nothing: what an earlier start left when it was killed.
bool only_a_start_cut_off(const std::string& text) {
  const std::string begins = "{\"format\":\"" + std::string(case_format) + "\"";
  const std::size_t common = std::min(text.size(), begins.size());
  return text.find('\n') == std::string::npos && text.compare(0, common, begins, 0, common) == 0 &&
         !read_case(text, "").job;
}

/// What the reader would not take back is not written. The entry is read behind the start that it will stand behind.
std::string why_unreadable(const std::string& text) {
  const CaseResult again = read_case(text, "entry");
  if (again.job) return "";
  const Mistake& mistake = again.mistakes.front();
  return (mistake.path.empty() ? "" : mistake.path + ": ") + mistake.message;
}

}  // namespace

Appended start_case(const std::string& path, const CaseStart& start, const std::string& at) {
  const std::string line = json_of(CaseEntry{at, start});
  if (const std::string why = why_unreadable(line); !why.empty()) return refused(why);
  const LockedFile file(path, O_CREAT);
  if (!file.is_open()) return refused(std::string("cannot be made: ") + std::strerror(errno));
  if (!file.regular()) return refused("is no ordinary file");
  if (!file.lock()) return failed("cannot be locked");
  std::string text;
  if (!file.read_all(text)) return failed("cannot be read");
  if (!only_a_start_cut_off(text)) return refused("is there already; a case is started once, in a file of its own");
  if (!file.put_at(0, line) || !folder_kept(path)) return failed("cannot be written");
  return {1, "", {}, false};
}

Appended append_to_case(const std::string& path, const CaseContents& contents, const std::string& at) {
  if (!is_utc_time(at)) return refused(at + " is no time in UTC, as in 2026-03-02T09:14:00Z");
  const LockedFile file(path, 0);
  if (!file.is_open() && errno == ENOENT) return refused("no such file; `start` makes one");
  if (!file.is_open()) return refused(std::string("cannot be opened for writing: ") + std::strerror(errno));
  if (!file.regular()) return refused("is no ordinary file");
  if (!file.lock()) return failed("cannot be locked");
  std::string text;
  if (!file.read_all(text)) return failed("cannot be read");
  const CaseResult before = read_case(text, path);
  if (!before.job) return {0, "is damaged or no case; nothing was written", before.mistakes, false};
  if (const std::string why = why_not_now(*before.job, contents); !why.empty()) return refused(why);
  text.resize(before.job->complete_bytes);
  std::string line = json_of(CaseEntry{at, contents});
  if (const std::string why = why_unreadable(text.substr(0, text.find('\n')) + "\n" + line);
      !why.empty() && !std::holds_alternative<CaseUndo>(contents))
    return refused(why);
  if (!text.ends_with('\n')) line.insert(0, "\n");
  if (!file.put_at(text.size(), line)) return failed("cannot be written");
  return {before.job->entries.size() + 1, "", {}, false};
}

}  // namespace whichwire
