// Rows kept in a file while a run goes on, so that one that was interrupted is taken up again. What was added is whole
// rows, or is taken back; what not even that can be done with is cut off by the run that goes on.
// Tests: tests/cli/fleet.cpp, tests/hardening/rows.cpp.
#pragma once

#include <optional>
#include <string>
#include <whichwire/fleet.hpp>

namespace whichwire::cli {

class RowsFile {
 public:
  RowsFile() = default;
  ~RowsFile() { close_file(); }
  RowsFile(const RowsFile&) = delete;
  RowsFile& operator=(const RowsFile&) = delete;

  /// Makes the file; with `resume` reads on in one that is there. False after saying why not.
  bool open(const std::string& path, bool resume);
  bool is_open() const { return handle_ >= 0; }

  /// The next line that was written before; nullopt behind the last whole one, from where on rows are added. The file
  /// is open no more, and as it was, where it cannot be read to its end or written to; that is said.
  std::optional<std::string> next_done();

  /// Adds whole lines. False after saying why not; the file then ends where it did before.
  bool add(const std::string& lines);

  /// Waits until all that was added is on the disk. False after saying why not.
  bool finish();

 private:
  bool say(const std::string& what) const;
  void close_file();
  bool fill();

  int handle_ = -1;
  std::string path_;
  std::string read_;       ///< what was read behind the whole lines
  std::size_t whole_ = 0;  ///< bytes of whole lines, read or added
};

}  // namespace whichwire::cli
