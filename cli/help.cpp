// Tests: tests/cli/command_line.cpp compares every page with its golden file.
#include "help.hpp"

#include <algorithm>
#include <sstream>

namespace whichwire::cli {

namespace {

constexpr std::size_t column = 20;  // where the explanations begin

/// `name` and, from `column` on, the lines of `what`; on the next line where the name is too long.
void row(std::string& page, const std::string& name, const std::string& what) {
  std::string left = "  " + name;
  if (left.size() + 2 > column) {
    page.append(left).append("\n");
    left.clear();
  }
  std::istringstream lines(what);
  for (std::string line; std::getline(lines, line); left.clear()) {
    page.append(left).append(column - left.size(), ' ').append(line).append("\n");
  }
}

std::string name_of(const CLI::Option& option) {
  if (!option.nonpositional()) return option.get_name(true);
  const std::string type = option.get_type_name();  // behind a colon CLI11 lists what is allowed; our words say it
  const std::string value = option.get_type_size() == 0 ? "" : " " + type.substr(0, type.find(':'));
  return "--" + option.get_lnames().front() + value;
}

/// `whichwire locate NETWORK [SCAN] [options]`
std::string usage_of(const CLI::App& command) {
  std::string usage = words_of(command);
  if (!command.get_subcommands(nullptr).empty()) return usage + " COMMAND …";
  for (const CLI::Option* option : command.get_options()) {
    if (option->nonpositional()) continue;
    const std::string name = option->get_name(true) + (option->get_items_expected_max() > 1 ? "…" : "");
    usage += option->get_required() ? " " + name : " [" + name + "]";
  }
  return usage + " [options]";
}

std::string page_of(const CLI::App& command, const std::string& example) {
  std::string page = usage_of(command) + "\n\n" + command.get_description() + "\n\n";
  for (const CLI::App* sub : command.get_subcommands(nullptr)) {
    const std::string what = sub->get_description();
    row(page, sub->get_name(), what.substr(0, what.find('\n')));
  }
  if (!command.get_subcommands(nullptr).empty()) page += "\n";
  for (const bool positional : {true, false}) {
    for (const CLI::Option* option : command.get_options()) {
      if (option->nonpositional() != positional) row(page, name_of(*option), option->get_description());
    }
  }
  return page + "\nExamples\n" + example + "\n";
}

}  // namespace

std::string words_of(const CLI::App& command) {
  return command.get_parent() == nullptr ? "whichwire" : words_of(*command.get_parent()) + " " + command.get_name();
}

void teach(CLI::App& command, const std::string& example) {
  command.set_help_flag("--help", "this page");
  command.formatter_fn(
      [example](const CLI::App* app, const std::string&, CLI::AppFormatMode) { return page_of(*app, example); });
}

}  // namespace whichwire::cli
