// `whichwire codes`: what a network code says about whom. Tests: tests/cli/codes.cpp.
#include <algorithm>
#include <whichwire/render.hpp>

#include "commands.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "terminal.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "What a network code says about whom.\n"
    "\n"
    "A code that names a module speaks of that module and of the way from it, not of\n"
    "the module that stores it. The failure type behind the dash says more.";

constexpr const char* examples =
    "  whichwire codes U0100-87 U0073\n"
    "  whichwire codes \"SPN 2000 FMI 9\"";

struct Options {
  std::vector<std::string> codes;
  bool json = false;
};

int run(const Options& options) {
  std::vector<CodeAsked> asked;
  for (const std::string& written : options.codes) asked.push_back({written, parse_code(written)});
  const auto unknown = [](const CodeAsked& one) { return !one.code; };
  for (const CodeAsked& one : asked) {
    if (unknown(one)) message("'" + one.written + "' is not a code; write U0100, U0100-87 or SPN2000-9");
  }
  if (std::any_of(asked.begin(), asked.end(), unknown)) return refused;
  return write_out(options.json ? json_of(asked) : text_of(asked, look_of_output()));
}

}  // namespace

void add_codes(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("codes", about);
  command->allow_extras();
  command->add_option("CODE", options->codes, "a code as the scan tool prints it")->required();
  command->add_flag("--json", options->json, "print whichwire.codes.v1");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
