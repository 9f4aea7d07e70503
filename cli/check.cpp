// `whichwire check`: every mistake of networks, scans and cases, with its place. Tests: tests/cli/check.cpp.
#include <algorithm>
#include <whichwire/render.hpp>

#include "commands.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "Every mistake in networks, scans and cases.\n"
    "\n"
    "Prints each with file, line, column, path, the line itself and a suggestion, all\n"
    "of a file at once. Exits with 2 when there is one. A scan is read against a\n"
    "network where one is given, so that module names are checked too.";

constexpr const char* examples =
    "  whichwire check topologies/compact-car.json\n"
    "  whichwire check scan.json --network topologies/compact-car.json";

struct Options {
  std::vector<std::string> files;
  std::string network;
  bool json = false;
};

std::string counted(std::size_t count, const std::string& one) {
  return std::to_string(count) + " " + one + (count == 1 ? "" : one.ends_with("s") ? "es" : "s");
}

FileChecked network_checked(const Input& input) {
  NetworkResult result = read_network(input.text, input.name);
  FileChecked checked{input.name, "", std::move(result.mistakes)};
  if (result.network) {
    checked.contents = "network of " + counted(result.network->modules.size(), "module") + " on " +
                       counted(result.network->buses.size(), "bus");
  }
  return checked;
}

FileChecked scan_checked(const Input& input, ScanResult result) {
  FileChecked checked{input.name, "", std::move(result.mistakes)};
  if (!result.scan) return checked;
  std::size_t codes = 0;
  for (const ModuleSeen& module : result.scan->modules) codes += module.codes.size();
  const auto lost = std::count_if(result.lines.begin(), result.lines.end(),
                                  [](const LineRead& line) { return line.understood.empty(); });
  checked.contents = "scan of " + counted(result.scan->modules.size(), "module") + ", " + counted(codes, "code");
  if (lost > 0) checked.contents += ", " + counted(static_cast<std::size_t>(lost), "line") + " not understood";
  return checked;
}

FileChecked case_checked(const Input& input) {
  CaseResult result = read_case(input.text, input.name);
  FileChecked checked{input.name, "", std::move(result.mistakes)};
  if (!result.job) return checked;
  checked.contents = "case of " + std::to_string(result.job->entries.size()) +
                     (result.job->entries.size() == 1 ? " entry" : " entries");
  if (result.job->cut_off_bytes > 0) checked.contents += ", and one whose writing was cut off";
  return checked;
}

/// What the file says that it is: the value of its first `format`, or nothing.
std::string format_of(const std::string& text) {
  const std::string_view start(text.data(), std::min<std::size_t>(text.size(), 65536));
  const auto key = start.find("\"format\"");
  if (key == std::string_view::npos) return "";
  const auto open = start.find('"', key + 8);
  const auto close = open == std::string_view::npos ? open : start.find('"', open + 1);
  return close == std::string_view::npos ? "" : std::string(start.substr(open + 1, close - open - 1));
}

bool looks_like_json(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  return first != std::string::npos && (text[first] == '{' || text[first] == '/' || text[first] == '[');
}

FileChecked checked(const std::string& path, const std::optional<Network>& network) {
  const Input input = read_input(path);
  if (!input.error.empty()) return {input.name, "", {{input.name, 0, 0, "", input.error, ""}}};
  if (looks_like_json(input.text)) {
    const std::string format = format_of(input.text);
    if (format.starts_with("whichwire.case.")) return case_checked(input);
    if (!format.starts_with("whichwire.scan.")) return network_checked(input);
    return scan_checked(input, read_scan(input.text, input.name, network ? &*network : nullptr));
  }
  if (network) return scan_checked(input, read_pasted_scan(input.text, input.name, *network));
  const std::string reason = "not JSON; pasted text can be read only with a network (--network FILE)";
  return {input.name, "", {{input.name, 0, 0, "", reason, ""}}};
}

int run(const Options& options) {
  std::optional<Network> network;
  if (!options.network.empty()) {
    network = network_or_message(options.network);
    if (!network) return refused;
  }
  std::vector<FileChecked> files;
  for (const std::string& path : options.files) files.push_back(checked(path, network));
  const int status = write_out(options.json ? json_of(files) : text_of(files, look_of_output()));
  const bool fine = std::all_of(files.begin(), files.end(), [](const auto& file) { return file.mistakes.empty(); });
  return fine ? status : refused;
}

}  // namespace

void add_check(CLI::App& program, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("check", about);
  command->allow_extras();
  command->add_option("FILE", options->files, "networks, scans and cases; `-` reads standard input")->required();
  command->add_option("--network", options->network, "the network that the scans belong to")->type_name("FILE");
  command->add_flag("--json", options->json, "print whichwire.mistakes.v1");
  teach(*command, examples);
  command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace whichwire::cli
