// `whichwire predict`: what a scan would show if this were broken. Tests: tests/cli/predict.cpp.
#include <fstream>
#include <whichwire/expected_scan.hpp>
#include <whichwire/render.hpp>

#include "commands.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "What a scan would show if this were broken.\n"
    "\n"
    "The other direction: takes faults and gives the scan they lead to, without any\n"
    "chance in it. Without --fault: the scan of a vehicle that is in order.";

constexpr const char* examples =
    "  whichwire predict topologies/compact-car.json --fault \"dead ECM\"\n"
    "  whichwire predict topologies/compact-car.json --fault \"open F3\" --scan-out s\n"
    "      and back again: whichwire locate topologies/compact-car.json s";

struct Options {
  std::string network, key = "run", scan_out, rates;
  std::vector<std::string> faults;
  bool json = false, own_battery = false;
};

/// The faults asked for; nullopt after saying which words are no fault of this network.
std::optional<std::vector<Fault>> faults_of_words(const Options& options, const Network& network, const Rates& rates) {
  std::vector<Fault> faults;
  for (const std::string& words : options.faults) {
    const FaultResult result = parse_fault(network, words, rates);
    if (result.fault) faults.push_back(*result.fault);
    if (!result.fault) message("--fault '" + words + "': " + result.error);
  }
  if (faults.size() != options.faults.size()) return std::nullopt;
  return faults;
}

/// Whether the scan could be written.
bool write_scan(const std::string& path, const Scan& scan) {
  std::ofstream file(path, std::ios::binary);
  file << json_of(scan);
  file.close();
  if (!file) message(path + ": cannot be written");
  return static_cast<bool>(file);
}

int run(const Options& options) {
  const auto network = network_or_message(options.network);
  const auto rates = rates_or_message(options.rates);
  if (!network || !rates) return refused;
  const auto faults = faults_of_words(options, *network, *rates);
  if (!faults) return refused;
  const Effects effects(*network);
  const ExpectedScan expected = expected_scan(effects, *faults, {*key_of(options.key), options.own_battery});
  if (options.scan_out == "-") return write_out(json_of(expected.scan));
  if (!options.scan_out.empty() && !write_scan(options.scan_out, expected.scan)) return refused;
  const Forecast forecast{*network, *faults, expected};
  return write_out(options.json ? json_of(forecast) : text_of(forecast, look_of_output()));
}

}  // namespace

void add_predict(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("predict", about);
  command->allow_extras();
  command->add_option("NETWORK", options->network, "the network description, whichwire.network.v1")->required();
  command
      ->add_option("--fault", options->faults,
                   "a fault in words, once for each: \"open DRV-2\",\n"
                   "\"open DRV-2 high\", \"short DRV-2 high ground\", \"dead ECM\",\n"
                   "\"open ECM/A-27\", \"open F4\", \"holds ABS DRV\",\n"
                   "\"not-forwarding GWM\"")
      ->type_name("WORDS")
      ->allow_extra_args(false);
  command->add_option("--key", options->key, "key state: off, accessory, run (the default) or start")
      ->type_name("STATE")
      ->check(a_key_state());
  command->add_flag("--own-battery", options->own_battery, "the scan tool does not live on the vehicle's supply");
  command->add_option("--scan-out", options->scan_out, "write the scan as whichwire.scan.v1; `-`: print only that")
      ->type_name("FILE");
  ask_for_rates(*command, options->rates);
  command->add_flag("--json", options->json, "print whichwire.prediction.v1");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
