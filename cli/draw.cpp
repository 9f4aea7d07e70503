// `whichwire draw`: the network as a picture. Tests: tests/cli/draw.cpp, tests/draw.
#include <whichwire/picture.hpp>
#include <whichwire/svg.hpp>

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
    "The network as a picture, to look at and to print.\n"
    "\n"
    "Writes SVG: each bus as a line with its splices and stubs in wiring order, the\n"
    "modules, the gateways, the diagnostic connector. With a scan also: which modules\n"
    "are silent, what is suspected and how much, and where to check first.\n"
    "\n"
    "A large network is tiny on paper: --paper lays it out on sheets of A4, --brief\n"
    "draws the buses on which something is marked and names all others.";

constexpr const char* examples =
    "  whichwire draw topologies/compact-car.json --output car.svg\n"
    "  whichwire draw topologies/compact-car.json --scan scan.txt --output car.svg\n"
    "      open car.svg in a browser, or print it\n"
    "  whichwire draw topologies/van-high.json --scan scan.txt --brief --paper \\\n"
    "      --output car.svg\n"
    "      print what is suspected, large";

struct Options {
  std::string network, scan, rates, output;
  PictureOptions picture;
  bool paper = false;
};

std::optional<Scan> scan_of(const std::string& path, const Network& network) {
  const auto input = input_or_message(path);
  if (!input) return std::nullopt;
  ScanResult result = read_any_scan(input->text, input->name, network);
  message(result.mistakes);
  return std::move(result.scan);
}

int run(const Options& options) {
  const auto network = network_or_message(options.network);
  const auto rates = rates_or_message(options.rates);
  if (!network || !rates) return refused;
  std::optional<Marks> marks;
  if (!options.scan.empty()) {
    const auto scan = scan_of(options.scan, *network);
    if (!scan) return refused;
    const Answered answered = while_working("searching", [&] { return answer_for(*network, *scan, *rates); });
    marks = marks_of(*network, *scan, answered.ranking, answered.verdict, answered.plan, Look{}.most_checks);
  }
  const Marks* const shown = marks ? &*marks : nullptr;
  PictureOptions how = options.picture;
  if (options.paper) how.fit = PictureFit::sheets;
  const Picture picture = picture_of(*network, shown, how);
  return write_result(options.output, svg_of({*network, shown, picture}));
}

}  // namespace

void add_draw(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("draw", about);
  command->allow_extras();
  command->add_option("NETWORK", options->network, "the network description, whichwire.network.v1")->required();
  CLI::Option* scan =
      command->add_option("--scan", options->scan, "a scan of it, JSON or pasted text; `-` reads standard input")
          ->type_name("FILE");
  command->add_flag("--feeds", options->picture.feeds, "feeds and grounds too");
  command
      ->add_flag("--brief", options->picture.brief,
                 "draw buses on which something is marked, name the modules\nof the others")
      ->needs(scan);
  command->add_flag("--paper", options->paper, "laid out for sheets of A4, to be printed");
  command->add_option("--output", options->output, "write to this file, whole or not at all; else standard output")
      ->type_name("FILE");
  ask_for_rates(*command, options->rates);
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
