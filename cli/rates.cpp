// `whichwire rates learn`: rates from proven cases. Tests: tests/cli/rates.cpp.
#include <whichwire/render_fleet.hpp>

#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "outputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "How often what fails: learned from your own proven cases.\n"
    "\n"
    "Makes a table of odds for --rates.";

constexpr const char* about_learn =
    "A table of odds from closed and proven cases.\n"
    "\n"
    "A case counts when it is closed, its readings prove the repair, and the scan\n"
    "after it shows no fault; of every other it is said why not. The built-in rates,\n"
    "or those given, are moved by what was found against what they let expect, the\n"
    "more the more cases there are. Each row says its counts.";

struct Options {
  std::vector<std::string> cases;
  std::string rates, output;
};

int run(const Options& options) {
  const auto rates = rates_or_message(options.rates);
  if (!rates) return refused;
  std::vector<Case> cases;
  bool fine = true;
  for (const std::string& path : options.cases) {
    auto job = case_or_message(path);
    fine = fine && job;
    if (job) cases.push_back(std::move(*job));
  }
  if (!fine) return refused;
  const LearnedRates learned = while_working("weighing the cases", [&] { return learn_rates(cases, *rates); });
  for (const std::string& one : learned.passed_over) message(one + "; nothing was learned from it");
  return write_result(options.output, csv_of(learned));
}

}  // namespace

void add_rates(CLI::App& program, Action& chosen) {
  CLI::App* rates = program.add_subcommand("rates", about);
  rates->allow_extras();
  teach(*rates, "  whichwire rates learn jobs/*.jsonl --output our-rates.csv");
  auto options = std::make_shared<Options>();
  CLI::App* learn = rates->add_subcommand("learn", about_learn);
  learn->allow_extras();
  learn->add_option("CASES", options->cases, "cases of `whichwire case`")->required();
  learn->add_option("--output", options->output, "write to this file, whole or not at all; else standard output")
      ->type_name("FILE");
  ask_for_rates(*learn, options->rates);
  teach(*learn,
        "  whichwire rates learn jobs/*.jsonl --output our-rates.csv\n"
        "  whichwire locate topologies/compact-car.json scan.txt --rates our-rates.csv");
  learn->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
