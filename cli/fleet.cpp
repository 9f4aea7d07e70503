// `whichwire fleet`: many units. Tests: tests/cli/fleet.cpp.
#include <algorithm>
#include <cmath>
#include <whichwire/in_order.hpp>
#include <whichwire/render_fleet.hpp>

#include "commands.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "interrupt.hpp"
#include "network_folder.hpp"
#include "rows_file.hpp"
#include "scan_inputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "Many units: a row each, the most urgent first, and what recurs among them.\n"
    "\n"
    "Each scan is read against the network of its vehicle: the one that the scan\n"
    "states, or --network, or the one that fits the scan best. A scan that cannot be\n"
    "read is a row with its error. Then: parts that fail in more units of one build\n"
    "than chance makes; units of that build are judged in this light.\n"
    "With --as ndjson it is a filter: a scan a line in, a row a line out, in order,\n"
    "nothing kept between lines. Rows may be given in place of scans, to gather what\n"
    "was spread over machines.";

constexpr const char* examples =
    "  whichwire fleet topologies samples/fleet\n"
    "  whichwire fleet topologies scans.ndjson --rows rows.ndjson --as csv > rows.csv\n"
    "      and after an interruption the same with --resume\n"
    "  whichwire fleet topologies --as ndjson < scans.ndjson > rows.ndjson\n"
    "  whichwire fleet topologies rows.ndjson";

struct Options {
  std::string networks, network, rates, rows, as = "text";
  std::vector<std::string> scans;
  bool resume = false, independent = false, all = false, exit_code = false;
  std::size_t threads = 0;
};

struct Done {
  std::vector<FleetRow> rows;
  std::string lines;
};

/// One run: from the scans to rows, in order.
class Run {
 public:
  Run(const Fleet& fleet, const Options& options)
      : fleet_(fleet),
        inputs_(options.scans.empty() ? std::vector<std::string>{"-"} : options.scans),
        threads_(options.threads),
        keep_(options.as != "ndjson"),
        write_(!options.rows.empty() || !keep_) {}

  /// Skips what a file of rows has. The exit status.
  int resume(RowsFile& file) {
    while (auto line = file.next_done()) {
      FleetRow row = fleet_.row_of(*line, "");
      if (row.scan.empty()) return refuse_rows("a line of it is no row: " + row.finding->error);
      const std::string expected = next_name();
      if (row.scan != expected)
        return refuse_rows("its row of " + row.scan + (expected.empty() ? " has no scan" : " is not of " + expected));
      take_row(std::move(row));
      ++resumed_;
    }
    return file.is_open() ? done : failed;
  }

  int go(RowsFile& file) {
    const Working working([this](int seconds) { return progress(seconds); });
    int status = done;
    in_order(
        threads_, [this] { return next_piece(); }, [this](const ScanPiece& piece) { return rows_of(piece); },
        [&](Done made) {
          if (!made.lines.empty()) status = file.is_open() ? (file.add(made.lines) ? done : failed) : write_out(made.lines);
          for (FleetRow& row : made.rows) take_row(std::move(row));
          return status == done;
        });
    return status;
  }

  std::vector<FleetRow> take_rows() { return std::move(rows_); }
  std::size_t count() const { return count_; }
  std::size_t not_read() const { return not_read_; }
  bool fault_found() const { return fault_found_; }
  std::size_t passed_over() const { return inputs_.passed_over(); }

 private:
  static std::string place(const ScanPiece& piece, std::size_t line) {
    return piece.first_line == 0 ? piece.file : piece.file + ":" + std::to_string(piece.first_line + line);
  }

  /// Calls `each(text, name)` for every scan of the piece until it returns false.
  template <class Each>
  static void each_scan(const ScanPiece& piece, Each each) {
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

  Done rows_of(const ScanPiece& piece) const {
    Done made;
    if (!piece.error.empty()) {
      UnitFinding finding;
      finding.error = piece.error;
      made.rows.push_back({place(piece, 0), "", std::make_shared<const UnitFinding>(std::move(finding))});
    } else {
      each_scan(piece, [&](std::string_view text, const std::string& name) {
        if (stop_wanted()) return false;
        made.rows.push_back(fleet_.row_of(text, name));
        return true;
      });
    }
    if (write_) made.lines = ndjson_of(made.rows);
    return made;
  }

  void take_row(FleetRow row) {
    ++count_;
    if (!row.finding->error.empty()) ++not_read_;
    fault_found_ = fault_found_ || row.finding->verdict.verdict_class != VerdictClass::none;
    if (keep_) rows_.push_back(std::move(row));
  }

  std::optional<ScanPiece> next_piece() {
    if (left_) return std::exchange(left_, std::nullopt);
    return inputs_.next();
  }

  /// The name of the next scan, which is taken off what is left.
  std::string next_name() {
    while (true) {
      if (!left_ && !(left_ = inputs_.next())) return "";
      std::string name = left_->first_line == 0 || !left_->error.empty() ? place(*left_, 0) : "";
      if (!name.empty()) {
        left_.reset();
        return name;
      }
      std::size_t behind = 0;
      each_scan(*left_, [&](std::string_view text, const std::string& its) {
        name = its;
        behind = static_cast<std::size_t>(text.data() + text.size() - left_->text.data());
        return false;
      });
      if (name.empty()) {
        left_.reset();
        continue;
      }
      const std::size_t cut = std::min(behind + 1, left_->text.size());
      const auto gone = left_->text.begin() + static_cast<std::ptrdiff_t>(cut);
      left_->first_line += static_cast<std::size_t>(std::count(left_->text.begin(), gone, '\n'));
      left_->text.erase(left_->text.begin(), gone);
      return name;
    }
  }

  static int refuse_rows(const std::string& why) {
    message("the rows are not those of these scans: " + why);
    return refused;
  }

  std::string progress(int seconds) const {
    const std::size_t fresh = count_ - resumed_;
    std::string text = std::to_string(count_) + " scans";
    if (seconds > 0) text += ", " + std::to_string(fresh / static_cast<std::size_t>(seconds)) + " a second";
    const InputProgress& input = inputs_.progress();
    const double part = input.bytes_in_all == 0
                            ? 0
                            : static_cast<double>(input.bytes_read) / static_cast<double>(input.bytes_in_all);
    if (part <= 0) return text;
    const auto left = std::llround(seconds * (1 - std::min(1.0, part)) / part);
    return text + ", " + std::to_string(std::llround(100 * part)) + " % read, " + std::to_string(left) + " s left";
  }

  const Fleet& fleet_;
  ScanInputs inputs_;
  std::size_t threads_;
  bool keep_, write_;
  std::optional<ScanPiece> left_;  ///< read, but not worked on
  std::vector<FleetRow> rows_;
  std::atomic<std::size_t> count_ = 0;
  std::size_t resumed_ = 0, not_read_ = 0;
  bool fault_found_ = false;
};

std::optional<Fleet> fleet_or_message(const Options& options) {
  auto networks = networks_or_message(options.networks);
  const auto rates = rates_or_message(options.rates);
  if (!networks || !rates) return std::nullopt;
  std::vector<std::string> names;
  for (const Network& network : *networks) names.push_back(build_name_of(network));
  if (options.network.empty() || std::ranges::find(names, options.network) != names.end())
    return Fleet(std::move(*networks), {*rates, options.network});
  const std::string near = nearest(options.network, names);
  message("--network: none of the networks is called " + options.network +
          (near.empty() ? "" : ", did you mean '" + near + "'?"));
  return std::nullopt;
}

int write_report(const Fleet& fleet, const Options& options, std::vector<FleetRow> rows) {
  FleetReport report = report_of(fleet, std::move(rows), options.independent);
  report.stopped = stop_wanted();
  Look look = look_of_output();
  look.in_full = options.all;
  return write_out(options.as == "json"  ? json_of(report)
                   : options.as == "csv" ? csv_of(report)
                                         : text_of(report, look));
}

void say_how_to_resume(const Options& options, std::size_t count) {
  message("stopped after " + std::to_string(count) + " scans; " +
          (options.rows.empty() ? "with --rows FILE a run can be taken up again"
                                : "the same words and --resume go on from there"));
}

int run(const Options& options) {
  if (options.resume && options.rows.empty()) {
    message("--resume needs the file of rows: --rows FILE");
    return refused;
  }
  if (options.scans.empty() && input_is_terminal()) {
    message("no scans: give files or folders, or a scan a line on standard input");
    return refused;
  }
  const auto fleet = fleet_or_message(options);
  if (!fleet) return refused;
  RowsFile file;
  if (!options.rows.empty() && !file.open(options.rows, options.resume)) return refused;
  stop_when_asked();
  Run run(*fleet, options);
  if (run.passed_over() > 0)
    message(std::to_string(run.passed_over()) + " files passed over: not .json, .jsonl, .ndjson or .txt");
  if (file.is_open()) {
    if (const int status = run.resume(file); status != done) return status;
  }
  int status = run.go(file);
  if (status == done && options.as != "ndjson") status = write_report(*fleet, options, run.take_rows());
  if (stop_wanted()) {
    say_how_to_resume(options, run.count());
    return status_of_stop();
  }
  if (status != done) return status;
  if (run.not_read() > 0) return refused;
  return options.exit_code && run.fault_found() ? fault_found : done;
}

}  // namespace

void add_fleet(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("fleet", about);
  command->allow_extras();
  command->add_option("NETWORKS", options->networks, "a folder of network descriptions, or one")->required();
  command->add_option("SCANS", options->scans,
                      "scans, or rows: files, folders, one a line in .ndjson and\n"
                      ".jsonl; `-` or nothing reads standard input");
  command->add_option("--network", options->network, "the name of the network of all scans, as compact-car")
      ->type_name("NAME");
  command->add_option("--as", options->as, "text, csv, json; or ndjson: only rows, as they come (text)")
      ->type_name("FORM")
      ->check(one_of({"text", "csv", "json", "ndjson"}));
  command->add_option("--rows", options->rows, "keep each row in this file as it comes")->type_name("FILE");
  command->add_flag("--resume", options->resume, "go on behind the rows that the file has");
  command->add_flag("--independent", options->independent, "judge each unit by its own scan alone");
  command->add_flag("--all", options->all, "list every unit, however many");
  command->add_option("--rates", options->rates, "a table of odds that overrides the built-in ones")->type_name("FILE");
  command->add_option("--threads", options->threads, "how many scans at a time (as many as there are cores)")
      ->type_name("N")
      ->check(between(1, 1024));
  command->add_flag("--exit-code", options->exit_code, "exit with 1 when a fault was found");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
