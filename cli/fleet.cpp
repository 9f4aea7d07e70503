// `whichwire fleet`: many units. Tests: tests/cli/fleet.cpp.
#include <algorithm>
#include <whichwire/render_fleet.hpp>

#include "commands.hpp"
#include "exit_status.hpp"
#include "fleet_run.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "interrupt.hpp"
#include "network_folder.hpp"
#include "outputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "Many units: which to pull in first, and what recurs.\n"
    "\n"
    "A row a unit, the most urgent first. Each scan is read against the network of\n"
    "its vehicle: the one that the scan states, or --network, or the one that fits\n"
    "the scan best. A scan that cannot be read is a row with its error. Then: parts\n"
    "that fail in more units of one build than chance makes; units of that build are\n"
    "judged in this light.\n"
    "With --as ndjson it is a filter: a scan a line in, a row a line out, in order,\n"
    "nothing kept between lines. Rows may be given in place of scans, to gather what\n"
    "was spread over machines.";

constexpr const char* examples =
    "  whichwire fleet topologies samples/fleet\n"
    "  whichwire fleet topologies scans.ndjson --rows rows.ndjson --as csv > rows.csv\n"
    "      and after an interruption the same with --resume\n"
    "  whichwire fleet topologies --as ndjson < scans.ndjson > rows.ndjson\n"
    "  whichwire fleet topologies rows.ndjson\n"
    "  whichwire fleet topologies rows.ndjson --html --output fleet.html";

struct Options {
  std::string networks, network, rates, rows, output, as = "text";
  std::vector<std::string> scans;
  bool html = false, resume = false, independent = false, all = false, exit_code = false;
  std::size_t threads = 0;
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
  return write_result(options.output, options.html           ? html_of(report, look)
                                      : options.as == "json" ? json_of(report)
                                      : options.as == "csv"  ? csv_of(report)
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
  if (options.as == "ndjson" && !options.output.empty()) {
    message("--output is for a report; rows go to --rows FILE");
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
  FleetRun run(*fleet, options.scans, options.threads, options.as != "ndjson");
  if (run.passed_over() > 0)
    message(std::to_string(run.passed_over()) + (run.passed_over() == 1 ? " file" : " files") +
            " passed over: not .json, .jsonl, .ndjson or .txt");
  if (file.is_open()) {
    if (const int status = run.resume(file); status != done) return status;
  }
  int status = run.go(file);
  if (status == done && file.is_open() && !file.finish()) status = failed;
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
  CLI::Option* as =
      command->add_option("--as", options->as, "text, csv, json; or ndjson: only rows, as they come (text)")
          ->type_name("FORM")
          ->check(one_of({"text", "csv", "json", "ndjson"}));
  command->add_flag("--html", options->html, "a page for a browser or to print")->excludes(as);
  command->add_option("--output", options->output, "write the report to this file, whole or not at all")
      ->type_name("FILE");
  command->add_option("--rows", options->rows, "keep each row in this file as it comes")->type_name("FILE");
  command->add_flag("--resume", options->resume, "go on behind the rows that the file has");
  command->add_flag("--independent", options->independent, "judge each unit by its own scan alone");
  command->add_flag("--all", options->all, "list every unit, however many");
  ask_for_rates(*command, options->rates);
  command->add_option("--threads", options->threads, "how many scans at a time (as many as there are cores)")
      ->type_name("N")
      ->check(between(1, 1024));
  command->add_flag("--exit-code", options->exit_code, "exit with 1 when a fault was found");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
