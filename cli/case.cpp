// `whichwire case`: one job from call-out to handover. Tests: tests/cli/case.cpp.
#include "case.hpp"

#include <whichwire/render.hpp>

#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "One job from call-out to handover, written down as it goes.\n"
    "\n"
    "Each command adds one entry to the file; none is ever changed. The case keeps\n"
    "account of what is unplugged, pulled and bridged, and does not close before all\n"
    "of it is back. After the repair, scan again: the case compares with the first\n"
    "scan. Killed at any moment, it opens at its last entry.";

constexpr const char* examples =
    "  whichwire case start job.jsonl topologies/compact-car.json --unit T-14 \\\n"
    "      --complaint \"does not crank\" --works-not \"rear wiper\" --battery 12.5\n"
    "  whichwire case scan job.jsonl scan.txt\n"
    "  whichwire case unplug job.jsonl ECM\n"
    "  whichwire case reading job.jsonl ECM/A-1 \"0.2 V\" --mode volts-loaded --key off\n"
    "  whichwire case replug job.jsonl ECM\n"
    "  whichwire case replaced job.jsonl \"fuse F3\"\n"
    "  whichwire case scan job.jsonl scan-after.txt\n"
    "  whichwire case report job.jsonl\n"
    "  whichwire case close job.jsonl";

}  // namespace

void ask_for_entry(CLI::App& command, EntryOptions& options) {
  command.add_option("FILE", options.file, "the case")->required();
  command.add_option("--at", options.at, "when it was, in UTC, as 2026-03-02T09:14:00Z (now)")->type_name("TIME");
}

void ask_for_note(CLI::App& command, EntryOptions& options) {
  command.add_option("--note", options.note, "a remark")->type_name("TEXT");
}

std::string time_of(const EntryOptions& options) {
  if (!options.at.empty()) return options.at;
  return utc_text(std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()));
}

std::optional<Case> case_or_message(const std::string& path) {
  const auto input = input_or_message(path);
  if (!input) return std::nullopt;
  CaseResult result = read_case(input->text, input->name);
  message(result.mistakes);
  return std::move(result.job);
}

int not_written(const std::string& path, const Appended& appended) {
  message(appended.mistakes);
  message(path + ": " + appended.error);
  return appended.failed ? failed : refused;
}

int append(const EntryOptions& options, const CaseContents& contents, const std::vector<std::string>& cautions) {
  const Appended appended = append_to_case(options.file, contents, time_of(options));
  if (appended.entry == 0) return not_written(options.file, appended);
  const auto job = case_or_message(options.file);
  if (!job) return refused;
  return write_out(entry_line(*job, appended.entry, cautions, look_of_output()));
}

bool faults_in_words(const Network& network, const std::vector<std::string>& all) {
  bool fine = true;
  for (const std::string& words : all) {
    const FaultResult result = parse_fault(network, words);
    if (!result.fault) message("--rules-out: " + result.error);
    fine = fine && result.fault;
  }
  return fine;
}

void add_case(CLI::App& program, Action& chosen) {
  CLI::App* job = program.add_subcommand("case", about);
  job->allow_extras();
  teach(*job, examples);
  add_case_start(*job, chosen);
  add_case_evidence(*job, chosen);
  add_case_work(*job, chosen);
  add_case_words(*job, chosen);
  add_case_guide(*job, chosen);
  add_case_pages(*job, chosen);
}

}  // namespace whichwire::cli
