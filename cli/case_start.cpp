// `whichwire case start`. Tests: tests/cli/case.cpp.
#include <whichwire/render.hpp>

#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "Begins a case, before anything is touched.\n"
    "\n"
    "Makes the file, with the whole network in it. Ask for the complaint, what was\n"
    "repaired already, and what works and what does not, before the first plug is\n"
    "pulled: later nobody can tell what was there before.";

constexpr const char* examples =
    "  whichwire case start job.jsonl topologies/compact-car.json --unit T-14 \\\n"
    "      --complaint \"does not crank\" --since \"this morning\" \\\n"
    "      --repaired \"battery, last week\" --works lights --works-not \"rear wiper\" \\\n"
    "      --battery 12.5";

struct Options {
  EntryOptions entry;
  std::string network;
  CaseStart start;
};

int run(Options options) {
  const auto network = input_or_message(options.network);
  if (!network) return refused;
  NetworkLine line = network_line(network->text, network->name);
  message(line.mistakes);
  if (!line.json) return refused;
  options.start.network_name = network->name;
  options.start.network_json = std::move(*line.json);
  const Appended appended = start_case(options.entry.file, options.start, time_of(options.entry));
  if (appended.entry == 0) return not_written(options.entry.file, appended);
  const auto job = case_or_message(options.entry.file);
  return job ? write_out(entry_line(*job, appended.entry, {}, look_of_output())) : failed;
}

void several(CLI::App& command, const std::string& name, std::vector<std::string>& values, const std::string& what) {
  command.add_option(name, values, what + "; once for each")->type_name("TEXT")->allow_extra_args(false);
}

}  // namespace

void add_case_start(CLI::App& job, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = job.add_subcommand("start", about);
  command->allow_extras();
  Intake& intake = options->start.intake;
  command->add_option("FILE", options->entry.file, "the case; it must not be there yet")->required();
  command->add_option("NETWORK", options->network, "the network description, whichwire.network.v1")->required();
  command->add_option("--unit", options->start.unit, "which vehicle, in your own words")->type_name("TEXT");
  command->add_option("--complaint", intake.complaint, "what the customer complains of")->type_name("TEXT");
  command->add_option("--since", intake.since, "since when")->type_name("TEXT");
  command->add_option("--conditions", intake.conditions, "when it happens: cold, wet, while driving")
      ->type_name("TEXT");
  several(*command, "--repaired", intake.earlier_repairs, "what was repaired or fitted before");
  several(*command, "--works", intake.works, "what works");
  several(*command, "--works-not", intake.works_not, "what does not work before you begin");
  several(*command, "--added", intake.added_devices, "a device that was added later");
  command->add_option("--battery", intake.battery_volts, "volts of the battery at rest")
      ->type_name("VOLTS")
      ->check(between(0, 60));
  command->add_option("--at", options->entry.at, "when it was, in UTC, as 2026-03-02T09:14:00Z (now)")
      ->type_name("TIME");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
