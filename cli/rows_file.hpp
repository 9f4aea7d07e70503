// Rows kept in a file while a run goes on, so that one that was interrupted is taken up again.
#pragma once

#include <cstdio>
#include <optional>
#include <string>
#include <whichwire/fleet.hpp>

namespace whichwire::cli {

class RowsFile {
 public:
  RowsFile() = default;
  ~RowsFile();
  RowsFile(const RowsFile&) = delete;
  RowsFile& operator=(const RowsFile&) = delete;

  /// Makes the file; with `resume` reads on in one that is there. False after saying why not.
  bool open(const std::string& path, bool resume);
  bool is_open() const { return file_ != nullptr; }

  /// The next line that was written before; nullopt behind the last whole one, from where on rows are added. The file
  /// is open no more where it cannot be written to; that is said.
  std::optional<std::string> next_done();

  /// Adds whole lines. False after saying why not.
  bool add(const std::string& lines);

 private:
  std::FILE* file_ = nullptr;
  std::string path_;
  long whole_ = 0;  ///< bytes of complete lines read
};

}  // namespace whichwire::cli
