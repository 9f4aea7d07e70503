// One run over many scans: pieces of the input to all cores, rows back in order, each written as soon as it is there.
// Tests: tests/cli/fleet.cpp.
#pragma once

#include <atomic>
#include <optional>
#include <string>
#include <vector>
#include <whichwire/fleet.hpp>

#include "rows_file.hpp"
#include "scan_inputs.hpp"

namespace whichwire::cli {

class FleetRun {
 public:
  /// `keep`: the rows for a report at the end; otherwise they are only written, to the file or to standard output.
  FleetRun(const Fleet& fleet, const std::vector<std::string>& scans, std::size_t threads, bool keep);

  /// Takes what the file has for the first of the scans. The exit status, after saying why it is not `done`.
  int resume(RowsFile& file);

  /// All scans that are left, or up to a wish to stop. The exit status, after saying why it is not `done`.
  int go(RowsFile& file);

  std::vector<FleetRow> take_rows() { return std::move(rows_); }
  std::size_t count() const { return count_; }
  std::size_t not_read() const { return not_read_; }
  bool fault_found() const { return fault_found_; }
  std::size_t passed_over() const { return inputs_.passed_over(); }

 private:
  std::optional<ScanPiece> next_piece();
  std::string next_name();
  void take(FleetRow row);
  std::string progress(int seconds) const;

  const Fleet& fleet_;
  ScanInputs inputs_;
  std::size_t threads_;
  bool keep_;
  std::optional<ScanPiece> left_;  ///< read, but not worked on
  std::vector<FleetRow> rows_;
  std::atomic<std::size_t> count_ = 0;
  std::size_t resumed_ = 0, not_read_ = 0;
  bool fault_found_ = false;
};

}  // namespace whichwire::cli
