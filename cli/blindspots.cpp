// `whichwire blindspots`: what scans of a network cannot tell. Tests: tests/cli/blindspots.cpp.
#include <whichwire/blindspots.hpp>
#include <whichwire/render_blindspots.hpp>

#include "commands.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "What scans of a network cannot tell, and which checks can.\n"
    "\n"
    "Groups of faults that every scan shows alike, in every key state, the likeliest\n"
    "first; for each the cheapest set of checks that tells apart what has to be\n"
    "repaired differently. Then faults that no scan shows, modules whose silence\n"
    "nobody would notice, and which further code or place for the tool would tell\n"
    "most apart.";

constexpr const char* examples = "  whichwire blindspots topologies/compact-car.json";

struct Options {
  std::string network, rates;
  bool json = false, all = false;
};

int run(const Options& options) {
  const auto network = network_or_message(options.network);
  const auto rates = rates_or_message(options.rates);
  if (!network || !rates) return refused;
  const Blindspots found =
      while_working("looking for blind spots", [&] { return blindspots(Effects(*network), *rates); });
  Look look = look_of_output();
  look.in_full = options.all;
  const BlindspotsOf page{*network, found};
  return write_out(options.json ? json_of(page) : text_of(page, look));
}

}  // namespace

void add_blindspots(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("blindspots", about);
  command->allow_extras();
  command->add_option("NETWORK", options->network, "the network description, whichwire.network.v1")->required();
  command->add_flag("--all", options->all, "list everything, however long");
  ask_for_rates(*command, options->rates);
  command->add_flag("--json", options->json, "print whichwire.blindspots.v1");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
