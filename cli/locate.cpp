// `whichwire locate`: the main job. Tests: tests/cli/locate.cpp, tests/samples.
#include <whichwire/check.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/picture.hpp>
#include <whichwire/render.hpp>

#include "answer.hpp"
#include "commands.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "outputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "From a scan to the wires to check first.\n"
    "\n"
    "Reads a network description and a scan, and says: what was read, what makes it\n"
    "doubtful, the verdict and its probability, what speaks for and against it, the\n"
    "rivals, and which wires to check first.";

constexpr const char* examples =
    "  whichwire locate topologies/compact-car.json scan.json\n"
    "  whichwire locate topologies/compact-car.json < pasted-summary.txt\n"
    "  whichwire locate topologies/compact-car.json - --lines\n"
    "      then paste the summary of your scan tool and end with Ctrl-D\n"
    "  whichwire locate topologies/compact-car.json scan.json --html --output page.html";

struct Options {
  std::string network, scan, rates, key, output;
  bool json = false, html = false, exit_code = false, lines = false, own_battery = false;
  LocateOptions search;
};

/// The scan, with what the command line says about it; nullopt after saying why not.
std::optional<ScanResult> scan_of(const Options& options, const Network& network) {
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

/// The page with the network's picture.
std::string html_of(const Findings& findings, const Look& look) {
  const Marks marks =
      marks_of(findings.network, findings.scan, findings.ranking, findings.verdict, findings.plan, look.most_checks);
  const PagePictures pictures = pictures_for_page(findings.network, &marks);
  return html_of(findings, drawn_for_page(findings.network, &marks, pictures), look);
}

std::string answer_as(const Options& options, const Findings& findings) {
  Look look = look_of_output();
  look.every_line = options.lines;
  if (options.json) return json_of(findings);
  return options.html ? html_of(findings, look) : text_of(findings, look);
}

int run(const Options& options) {
  const auto network = network_or_message(options.network);
  const auto rates = rates_or_message(options.rates);
  if (!network || !rates) return refused;
  const auto read = scan_of(options, *network);
  if (!read) return refused;
  const Answered answered =
      while_working("searching", [&] { return answer_for(*network, *read->scan, *rates, options.search); });
  const Findings findings{*network, *read->scan, read->lines, answered.ranking, answered.verdict, answered.plan};
  const int status = write_result(options.output, answer_as(options, findings));
  const bool found = answered.verdict.verdict_class != VerdictClass::none;
  return status == done && options.exit_code && found ? fault_found : status;
}

}  // namespace

void add_locate(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("locate", about);
  command->allow_extras();
  command->add_option("NETWORK", options->network, "the network description, whichwire.network.v1")->required();
  command->add_option("SCAN", options->scan,
                      "the scan: whichwire.scan.v1 or pasted text of any layout;\n"
                      "`-` or nothing reads standard input");
  CLI::Option* json = command->add_flag("--json", options->json, "print whichwire.findings.v1");
  command->add_flag("--html", options->html, "a page with the picture of the network, for a browser or to\nprint")
      ->excludes(json);
  command->add_option("--output", options->output, "write to this file, whole or not at all; else standard output")
      ->type_name("FILE");
  command->add_flag("--lines", options->lines, "print every line of pasted text and what was understood");
  command->add_option("--key", options->key, "the key state of the scan: off, accessory, run or start")
      ->type_name("STATE")
      ->check(a_key_state());
  command->add_flag("--own-battery", options->own_battery, "the scan tool does not live on the vehicle's supply");
  ask_for_rates(*command, options->rates);
  command->add_option("--outside", options->search.outside, "how much probability may stay unlisted (0.0001)")
      ->type_name("P")
      ->check(between(1e-9, 0.5));
  command->add_option("--most", options->search.most_explanations, "list no more explanations than this (1000)")
      ->type_name("N")
      ->check(between(1, 1e6));
  command->add_flag("--exit-code", options->exit_code, "exit with 1 when a fault was found");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
