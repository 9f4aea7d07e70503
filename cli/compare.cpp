// `whichwire compare`: two networks of one build. Tests: tests/cli/compare.cpp.
#include <whichwire/compare.hpp>
#include <whichwire/picture.hpp>
#include <whichwire/render.hpp>

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
    "Two networks: what differs, and which of them a scan fits.\n"
    "\n"
    "Parts are compared by what they are and do, not by their order; a part with\n"
    "another name is matched by its role and place, and that is said. Then: which\n"
    "faults look different in a scan, and which a scan tells apart in one of the two\n"
    "only. With a scan: which of the two it fits, and the verdict under each, so\n"
    "that a wrong trim is seen.";

constexpr const char* examples =
    "  whichwire compare topologies/van-base.json topologies/van-high.json\n"
    "  whichwire compare van-base.json van-high.json --scan scan.txt\n"
    "  whichwire compare van-base.json van-high.json --svg --output van.svg\n"
    "  whichwire compare van-base.json van-high.json --svg --paper --output van.svg\n"
    "      the picture on sheets of A4";

struct Options {
  std::string a, b, scan, rates, output;
  bool json = false, svg = false, brief = false, paper = false, all = false;
};

/// The one scan, read against both; nullopt after saying why not.
std::optional<ScanOfBoth> scans_of(const Options& options, const Network& a, const Network& b) {
  const auto input = input_or_message(options.scan);
  if (!input) return std::nullopt;
  ScanOfBothResult read = read_scan_of_both(input->text, input->name, a, b);
  message(read.mistakes);
  return std::move(read.scan);
}

/// Both in one picture, with what differs marked.
std::string picture_of_both(const Options& options, const Network& a, const Network& b) {
  PictureOptions how;
  how.brief = options.brief;
  if (options.paper) how.fit = PictureFit::sheets;
  const std::vector<Difference> found = differences(a, b);
  const Marks marks_a = marks_of(a, found, false), marks_b = marks_of(b, found, true);
  const Picture picture_a = picture_of(a, &marks_a, how), picture_b = picture_of(b, &marks_b, how);
  return svg_of({a, &marks_a, picture_a}, {b, &marks_b, picture_b},
                options.paper ? Together::on_sheets : Together::side_by_side);
}

int run(const Options& options) {
  const auto a = network_or_message(options.a), b = network_or_message(options.b);
  const auto rates = rates_or_message(options.rates);
  if (!a || !b || !rates) return refused;
  if (options.svg) return write_result(options.output, picture_of_both(options, *a, *b));
  std::optional<ScanOfBoth> scan;
  if (!options.scan.empty() && !(scan = scans_of(options, *a, *b))) return refused;
  const Comparison comparison =
      while_working("comparing", [&] { return compare(Effects(*a), Effects(*b), scan, *rates); });
  Look look = look_of_output();
  look.in_full = options.all;
  const Compared compared{*a, *b, comparison};
  return write_result(options.output, options.json ? json_of(compared) : text_of(compared, look));
}

}  // namespace

void add_compare(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("compare", about);
  command->allow_extras();
  command->add_option("A", options->a, "a network description, whichwire.network.v1")->required();
  command->add_option("B", options->b, "the other one")->required();
  CLI::Option* scan =
      command
          ->add_option("--scan", options->scan, "a scan of the vehicle, JSON or pasted text; `-` reads\nstandard input")
          ->type_name("FILE");
  command->add_flag("--all", options->all, "list everything, however long");
  ask_for_rates(*command, options->rates);
  CLI::Option* json = command->add_flag("--json", options->json, "print whichwire.comparison.v1");
  CLI::Option* svg =
      command->add_flag("--svg", options->svg, "a picture of the two side by side, with what differs marked")
          ->excludes(json)
          ->excludes(scan);
  command->add_flag("--brief", options->brief, "draw buses on which something differs, name the modules\nof the others")
      ->needs(svg);
  command->add_flag("--paper", options->paper, "one below the other on sheets of A4, to be printed")->needs(svg);
  command->add_option("--output", options->output, "write to this file, whole or not at all; else standard output")
      ->type_name("FILE");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
