// Parses the command line with CLI11, words its complaints, runs the command that was asked for.
// Tests: tests/cli/command_line.cpp.
#include "program.hpp"

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <new>
#include <string>
#include <vector>
#include <whichwire/mistake.hpp>

#include "commands.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "terminal.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "A technician gives a description of a vehicle's network and a scan of its\n"
    "modules; whichwire says which fault explains the scan, how surely and why, and\n"
    "which wires to check first.";

constexpr const char* first_steps =
    "  whichwire locate topologies/compact-car.json scan.txt\n"
    "      what is wrong, and what to check first; scan.txt is JSON or pasted text\n"
    "  whichwire check topologies/compact-car.json\n"
    "      every mistake in a description that you write\n"
    "  whichwire case start job.jsonl topologies/compact-car.json\n"
    "      begins the record of a job; `whichwire case --help` tells the rest\n"
    "  whichwire draw topologies/compact-car.json --output car.svg\n"
    "      the network as a picture; with --scan also what is silent and suspected\n"
    "  whichwire codes U0100-87\n"
    "      what a network code says, and about whom\n"
    "\n"
    "`whichwire COMMAND --help` explains a command. Exit status: 0 done, 2 input\n"
    "refused, 3 the program failed; with --exit-code also 1, done and a fault found.";

/// The command that the words so far have chosen, the innermost, or the program itself.
const CLI::App& chosen_command(const CLI::App& program) {
  const CLI::App* chosen = &program;
  while (!chosen->get_subcommands().empty()) chosen = chosen->get_subcommands().front();
  return *chosen;
}

std::vector<std::string> command_names(const CLI::App& program) {
  std::vector<std::string> names;
  for (const CLI::App* command : program.get_subcommands(nullptr)) names.push_back(command->get_name());
  return names;
}

std::vector<std::string> option_names(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

/// What to say of a word that the command line has no place for.
std::string complaint(const CLI::App& program, const std::string& word) {
  const CLI::App& command = chosen_command(program);
  const bool is_option = word.size() > 1 && word.front() == '-';
  const bool is_command = !is_option && !command.get_subcommands(nullptr).empty();
  const std::string near = is_option    ? nearest(word.substr(0, word.find('=')), option_names(command))
                           : is_command ? nearest(word, command_names(command))
                                        : "";
  std::string text = is_option    ? "unknown option '" + word + "'"
                     : is_command ? "unknown command '" + word + "'"
                                  : "'" + word + "' is one argument too many";
  if (!near.empty()) text += ", did you mean '" + near + "'?";
  return text;
}

int refuse(const CLI::App& program, const std::string& text) {
  message(text + "; `" + words_of(chosen_command(program)) + " --help` shows how");
  return refused;
}

int parse_and_run(CLI::App& program, Action& chosen, int argc, char** argv) {
  try {
    program.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return write_out(chosen_command(program).help());
  } catch (const CLI::ParseError& error) {
    const std::vector<std::string> extras = program.remaining(true);
    return refuse(program, extras.empty() ? std::string(error.what()) : complaint(program, extras.front()));
  }
  const std::vector<std::string> extras = program.remaining(true);
  if (!extras.empty()) return refuse(program, complaint(program, extras.front()));
  if (program.count("--version") > 0) return write_out("whichwire " WHICHWIRE_VERSION "\n");
  return chosen ? chosen() : write_out(chosen_command(program).help());
}

/// Where an exception cannot get to the end of `run`: the JSON library allocates where it takes a tree down, which must
/// not throw. Nothing is allocated here.
[[noreturn]] void give_up() {
  const char* said = "whichwire: this is a mistake in whichwire itself\n";
  try {
    if (std::current_exception()) throw;
  } catch (const std::bad_alloc&) {
    said = "whichwire: out of memory\n";
  } catch (...) {  // said already
  }
  std::fputs(said, stderr);
  std::_Exit(failed);
}

}  // namespace

int run(int argc, char** argv) {
  std::set_terminate(give_up);
  try {
    Action chosen;
    CLI::App program(about, "whichwire");
    program.allow_extras();
    bool version = false;
    program.add_flag<bool>("--version", version, "the version of the program");
    teach(program, first_steps);
    add_locate(program, chosen);
    add_check(program, chosen);
    add_draw(program, chosen);
    add_codes(program, chosen);
    add_predict(program, chosen);
    add_case(program, chosen);
    add_compare(program, chosen);
    add_blindspots(program, chosen);
    add_fleet(program, chosen);
    add_rates(program, chosen);
    return parse_and_run(program, chosen, argc, argv);
  } catch (const std::bad_alloc&) {
    message("out of memory");
  } catch (const std::exception& error) {
    message(std::string("this is a mistake in whichwire itself: ") + error.what());
  }
  return failed;
}

}  // namespace whichwire::cli
