// `whichwire case scan` and `case reading`. Tests: tests/cli/case.cpp.
#include <algorithm>
#include <whichwire/render.hpp>

#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about_scan =
    "Adds a scan, and compares it with the first.\n"
    "\n"
    "A new code about a plug or fuse that was off in testing is said first: check\n"
    "that plug before anything else.";

constexpr const char* scan_examples =
    "  whichwire case scan job.jsonl scan.txt\n"
    "  whichwire case scan job.jsonl -\n"
    "      then paste the summary of your scan tool and end with Ctrl-D";

constexpr const char* about_reading =
    "Adds what the meter shows or the eye sees at a place.\n"
    "\n"
    "What is unplugged at that moment the case knows; say key and mode, a reading\n"
    "means little without them. Type readings as they are: 59.8, OL, \"12.3 V\",\n"
    "\"0.31 V drop\", \"lamp dim\", \"seen corrosion\", \"wiggle changed it\". With\n"
    "--check, skip says that the check cannot be done: it is not asked again.";

constexpr const char* reading_examples =
    "  whichwire case reading job.jsonl ECM/A-1 \"0.2 V\" --mode volts-loaded --key off\n"
    "  whichwire case reading job.jsonl \"DRV at DLC\" 59.8 --mode ohms \\\n"
    "      --battery disconnected\n"
    "  whichwire case reading job.jsonl F3 \"12.4 V\" --rules-out \"open F3\"\n"
    "  whichwire case reading job.jsonl ECM skip --check plug:ECM";

struct ScanOptions {
  EntryOptions entry;
  std::string scan, key;
  bool own_battery = false;
};

struct ReadingOptions {
  EntryOptions entry;
  CaseReading reading;
  std::string key, battery, bus, rates;
};

std::optional<ScanResult> scan_of(const ScanOptions& options, const Network& network) {
  if (options.scan.empty() && input_is_terminal()) {
    message("no scan: give a file, or `-` to paste one here and end it with Ctrl-D");
    return std::nullopt;
  }
  const auto input = input_or_message(options.scan.empty() ? "-" : options.scan);
  if (!input) return std::nullopt;
  ScanResult result = read_any_scan(input->text, input->name, network);
  message(result.mistakes);
  if (!result.scan) return std::nullopt;
  if (const auto key = key_of(options.key)) {
    result.scan->key = *key;
    result.scan->key_stated = true;
  }
  result.scan->tool_has_own_battery |= options.own_battery;
  return result;
}

int run_scan(const ScanOptions& options) {
  const auto job = case_or_message(options.entry.file);
  if (!job) return refused;
  const auto read = scan_of(options, job->start().network);
  if (!read) return refused;
  const Appended appended = append_to_case(options.entry.file, CaseScan{*read->scan}, time_of(options.entry));
  if (appended.entry == 0) return not_written(options.entry.file, appended);
  const auto after = case_or_message(options.entry.file);
  if (!after) return failed;
  const Look look = look_of_output();
  return write_out(entry_line(*after, appended.entry, {}, look) + lines_not_placed(read->lines, look) +
                   comparison_of(compare_scans(*after), look));
}

/// An answer to a check in words, as `nothing changes`: then `outcome` says which of its outcomes is meant. Or `skip`.
bool answer_in_words(const Case& job, const Rates& rates, CaseReading& reading) {
  if (reading.check.empty() || read_reading(reading.reading).reading) return false;
  const CaseState state = while_working("weighing scan and readings", [&] { return state_of(job, rates); });
  if (!state.reasoning) return false;
  const std::vector<Check>& known = state.reasoning->assessment.known;
  const auto check = std::ranges::find(known, reading.check, &Check::id);
  if (check == known.end()) return false;
  if (reading.reading == "skip") {
    CaseReading aside = put_aside(*check);
    aside.rules_out = reading.rules_out;
    reading = std::move(aside);
    return true;
  }
  const auto outcome = outcome_meant(*check, reading.reading);
  if (!outcome) return false;
  reading.outcome = check->expect[*outcome].name;
  reading.reading = check->expect[*outcome].outcome;
  return true;
}

int run_reading(ReadingOptions options) {
  const auto job = case_or_message(options.entry.file);
  const auto rates = rates_or_message(options.rates);
  if (!job || !rates) return refused;
  const Network& network = job->start().network;
  CaseReading& reading = options.reading;
  const PlaceFound place = reading_place(network, reading.place);
  const bool words = answer_in_words(*job, *rates, reading);
  const bool slip = !words && !place.error.empty() && !options.entry.as_written;
  if (slip) message(place.error + " --as-written takes it as it stands");
  if (!faults_in_words(network, reading.rules_out) || slip) return refused;
  if (place.known) reading.place = place.what;
  reading.key = key_of(options.key);
  if (!options.battery.empty()) reading.battery_connected = options.battery == "connected";
  if (!options.bus.empty()) reading.awake = options.bus == "awake";
  reading.note = options.entry.note;
  return append(options.entry, reading, cautions_at(network, reading));
}

void add_scan(CLI::App& job, Action& chosen) {
  auto options = std::make_shared<ScanOptions>();
  CLI::App* command = job.add_subcommand("scan", about_scan);
  command->allow_extras();
  ask_for_entry(*command, options->entry);
  command->add_option("SCAN", options->scan,
                      "the scan: whichwire.scan.v1 or pasted text of any layout;\n"
                      "`-` or nothing reads standard input");
  command->add_option("--key", options->key, "the key state of the scan: off, accessory, run or start")
      ->type_name("STATE")
      ->check(a_key_state());
  command->add_flag("--own-battery", options->own_battery, "the scan tool does not live on the vehicle's supply");
  teach(*command, scan_examples);
  command->callback([options, &chosen] { chosen = [options] { return run_scan(*options); }; });
}

void add_reading(CLI::App& job, Action& chosen) {
  auto options = std::make_shared<ReadingOptions>();
  CLI::App* command = job.add_subcommand("reading", about_reading);
  command->allow_extras();
  CaseReading& reading = options->reading;
  ask_for_entry(*command, options->entry);
  command->add_option("PLACE", reading.place, "where: ECM/A-1, F3, DLC/6, or in your own words")->required();
  command->add_option("READING", reading.reading, "what it shows")->required();
  command
      ->add_option("--mode", reading.mode,
                   "volts, volts-loaded, volts-drop, volts-ac, ohms, amps,\nlamp, look, wiggle, light, unplug or ask")
      ->type_name("MODE")
      ->check(one_of(case_modes()));
  command->add_option("--key", options->key, "key state: off, accessory, run or start")
      ->type_name("STATE")
      ->check(a_key_state());
  command->add_option("--battery", options->battery, "connected or disconnected")
      ->type_name("STATE")
      ->check(one_of({"connected", "disconnected"}));
  command->add_option("--bus", options->bus, "awake or asleep")->type_name("STATE")->check(one_of({"awake", "asleep"}));
  command->add_option("--check", reading.check, "the check that it answers, by its id in the findings")
      ->type_name("ID");
  command
      ->add_option("--rules-out", reading.rules_out,
                   "a fault that you take as ruled out, as \"open F3\";\nonce for each")
      ->type_name("WORDS")
      ->allow_extra_args(false);
  command->add_flag("--as-written", options->entry.as_written, "take the place as it stands");
  ask_for_rates(*command, options->rates);
  ask_for_note(*command, options->entry);
  teach(*command, reading_examples);
  command->callback([options, &chosen] { chosen = [options] { return run_reading(*options); }; });
}

}  // namespace

void add_case_evidence(CLI::App& job, Action& chosen) {
  add_scan(job, chosen);
  add_reading(job, chosen);
}

}  // namespace whichwire::cli
