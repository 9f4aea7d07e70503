// The scans of many units as they come: files, folders, standard input; one scan a file, or one a line. Read in pieces,
// so that there may be any number of them. Tests: tests/cli/fleet.cpp.
#pragma once

#include <atomic>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace whichwire::cli {

/// One scan, or some whole lines of a file with one scan a line.
struct ScanPiece {
  std::string file;            ///< for names: the path, or `standard input`
  std::size_t first_line = 0;  ///< of the lines, from 1; 0: the text is one scan
  std::string text;
  std::string error;  ///< in place of the text: why it could not be read
};

/// How far it is; may be asked from another thread.
struct InputProgress {
  std::atomic<std::uint64_t> bytes_read = 0;
  std::uint64_t bytes_in_all = 0;  ///< 0: not known
};

class ScanInputs {
 public:
  /// Of folders the files that end in .json, .jsonl, .ndjson or .txt, in the order of their names, those in folders
  /// below as well.
  explicit ScanInputs(const std::vector<std::string>& paths);
  ~ScanInputs();
  ScanInputs(const ScanInputs&) = delete;
  ScanInputs& operator=(const ScanInputs&) = delete;

  /// The next piece; nullopt at the end, or once the user wants to stop.
  std::optional<ScanPiece> next();

  const InputProgress& progress() const { return progress_; }
  /// Files of folders that were passed over because of their names.
  std::size_t passed_over() const { return passed_over_; }

 private:
  void add_folder(const std::string& path);
  std::optional<ScanPiece> open_next();
  std::optional<ScanPiece> next_lines();
  ScanPiece whole();
  bool fill();
  void close_file();

  std::vector<std::string> files_;
  std::size_t at_ = 0, passed_over_ = 0;  ///< the next file
  int handle_ = -1;
  bool ended_ = false;  ///< nothing more of the file to be read
  std::string name_, rest_, error_;
  std::size_t line_ = 1;
  InputProgress progress_;
};

}  // namespace whichwire::cli
