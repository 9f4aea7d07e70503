#include "fleet_run.hpp"

#include <algorithm>
#include <cmath>
#include <whichwire/in_order.hpp>
#include <whichwire/render_fleet.hpp>

#include "exit_status.hpp"
#include "interrupt.hpp"
#include "terminal.hpp"

namespace whichwire::cli {
namespace {

std::string place(const ScanPiece& piece, std::size_t line) {
  return piece.first_line == 0 ? piece.file : piece.file + ":" + std::to_string(piece.first_line + line);
}

/// Calls `each(text, name)` for every scan of the piece until it returns false.
template <class Each>
void each_scan(const ScanPiece& piece, Each each) {
  if (piece.first_line == 0) {
    each(std::string_view(piece.text), piece.file);
    return;
  }
  const std::string_view text = piece.text;
  std::size_t line = 0;
  for (std::size_t at = 0; at < text.size(); ++line) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string_view one = text.substr(at, end - at);
    at = end + 1;
    if (one.find_first_not_of(" \t\r") != std::string_view::npos && !each(one, place(piece, line))) return;
  }
}

/// Takes the first scan off the piece; its name, or nothing where there is none.
std::string take_first(ScanPiece& piece) {
  std::string name;
  std::size_t behind = piece.text.size();
  each_scan(piece, [&](std::string_view text, const std::string& its) {
    name = its;
    behind = static_cast<std::size_t>(text.data() + text.size() - piece.text.data());
    return false;
  });
  const auto gone = piece.text.begin() + static_cast<std::ptrdiff_t>(std::min(behind + 1, piece.text.size()));
  piece.first_line += static_cast<std::size_t>(std::count(piece.text.begin(), gone, '\n'));
  piece.text.erase(piece.text.begin(), gone);
  return name;
}

int refuse_rows(const std::string& why) {
  message("the rows are not those of these scans: " + why);
  return refused;
}

struct Worked {
  std::vector<FleetRow> rows;
  std::string lines;
  bool whole = true;  ///< it was not stopped on the way
};

Worked rows_of(const Fleet& fleet, const ScanPiece& piece) {
  Worked made;
  if (!piece.error.empty()) {
    UnitFinding finding;
    finding.error = piece.error;
    made.rows.push_back({place(piece, 0), "", std::make_shared<const UnitFinding>(std::move(finding))});
    return made;
  }
  each_scan(piece, [&](std::string_view text, const std::string& name) {
    made.whole = !stop_wanted();
    if (made.whole) made.rows.push_back(fleet.row_of(text, name));
    return made.whole;
  });
  return made;
}

}  // namespace

FleetRun::FleetRun(const Fleet& fleet, const std::vector<std::string>& scans, std::size_t threads, bool keep)
    : fleet_(fleet), inputs_(scans.empty() ? std::vector<std::string>{"-"} : scans), threads_(threads), keep_(keep) {}

int FleetRun::resume(RowsFile& file) {
  while (auto line = file.next_done()) {
    FleetRow row = fleet_.row_of(*line, "");
    if (row.scan.empty()) return refuse_rows("a line of it is no row: " + row.finding->error);
    const std::string expected = next_name();
    if (row.scan != expected)
      return refuse_rows("it has a row of " + row.scan + " where " +
                         (expected.empty() ? "the scans end" : expected + " comes next"));
    take(std::move(row));
    ++resumed_;
  }
  return file.is_open() ? done : refused;
}

int FleetRun::go(RowsFile& file) {
  const Working working([this](int seconds) { return progress(seconds); });
  const bool write = file.is_open() || !keep_;
  int status = done;
  in_order(
      threads_, [this] { return next_piece(); },
      [this, write](const ScanPiece& piece) {
        Worked made = rows_of(fleet_, piece);
        if (write) made.lines = ndjson_of(made.rows);
        return made;
      },
      [&](Worked made) {
        const bool to_file = file.is_open();
        if (to_file && !file.add(made.lines)) status = failed;
        if (!to_file && !made.lines.empty()) status = write_out(made.lines);
        for (FleetRow& row : made.rows) take(std::move(row));
        return status == done && made.whole;  // rows have no gap, so that a later run finds where to go on
      });
  return status;
}

void FleetRun::take(FleetRow row) {
  ++count_;
  if (!row.finding->error.empty()) ++not_read_;
  fault_found_ = fault_found_ || row.finding->verdict.verdict_class != VerdictClass::none;
  if (keep_) rows_.push_back(std::move(row));
}

std::optional<ScanPiece> FleetRun::next_piece() {
  if (left_) return std::exchange(left_, std::nullopt);
  return inputs_.next();
}

/// The name of the next scan, which is taken off what is left; nothing at the end.
std::string FleetRun::next_name() {
  while (left_ || (left_ = inputs_.next())) {
    const bool single = left_->first_line == 0 || !left_->error.empty();
    std::string name = single ? place(*left_, 0) : take_first(*left_);
    if (single || left_->text.empty()) left_.reset();
    if (!name.empty()) return name;
  }
  return "";
}

std::string FleetRun::progress(int seconds) const {
  std::string text = std::to_string(count_) + " scans, " +
                     std::to_string((count_ - resumed_) / static_cast<std::size_t>(std::max(1, seconds))) + " a second";
  const InputProgress& input = inputs_.progress();
  if (input.bytes_in_all == 0 || input.bytes_read == 0) return text;
  const double part = std::min(1.0, static_cast<double>(input.bytes_read) / static_cast<double>(input.bytes_in_all));
  if (part >= 1) return text + ", all read";  // how long the last ones take cannot be told
  return text + ", " + std::to_string(std::lround(100 * part)) + " % read, " +
         std::to_string(std::lround(seconds * (1 - part) / part)) + " s left";
}

}  // namespace whichwire::cli
