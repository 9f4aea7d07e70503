// The command line as a user meets it: help, versions, and what is said of words that have no place.
#include <doctest/doctest.h>

#include <algorithm>
#include <regex>
#include <set>

#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string golden_folder = WHICHWIRE_SOURCE_DIR "/tests/cli/golden/";

const std::vector<std::string> commands = {"locate",  "check",   "draw",       "codes",
                                           "predict", "compare", "blindspots", "fleet"};
const std::vector<std::string> case_commands = {"start",   "scan",   "reading",  "unplug",     "replug", "fuse-out",
                                                "fuse-in", "jumper", "replaced", "programmed", "note",   "undo",
                                                "guide",   "next",   "close",    "status",     "report"};

/// Every command's words, the program itself and `case` included.
std::vector<std::string> all_commands() {
  std::vector<std::string> all = {"", "case", "rates", "rates learn"};
  all.insert(all.end(), commands.begin(), commands.end());
  for (const std::string& command : case_commands) all.push_back("case " + command);
  return all;
}

std::string dashed(std::string words) {
  std::replace(words.begin(), words.end(), ' ', '-');
  return words.empty() ? words : "-" + words;
}

/// The names that share a line of the completion with the case command: `unplug | replug`.
std::string command_line_of(const std::string& completion, const std::string& command) {
  std::smatch found;
  const std::regex line("\n      ((?:[a-z-]+ \\| )*" + command + "(?: \\| [a-z-]+)*)\\) options=");
  return std::regex_search(completion, found, line) ? found[1].str() : command;
}

std::set<std::string> options_in(const std::string& text) {
  static const std::regex option("--[a-z][a-z-]+");
  return {std::sregex_token_iterator(text.begin(), text.end(), option), std::sregex_token_iterator()};
}

}  // namespace

TEST_CASE("help goes to standard output, teaches with an example and exits with 0") {
  for (const std::string& command : all_commands()) {
    CAPTURE(command);
    const Run asked = run("whichwire " + command + " --help");
    CHECK(asked.status == 0);
    CHECK(asked.err == "");
    CHECK(asked.out.find("Examples\n  whichwire ") != std::string::npos);
    CHECK(asked.out == golden(golden_folder + "help" + dashed(command) + ".txt", asked.out));
  }
}

TEST_CASE("no help line is wider than 80 columns") {
  for (const std::string& command : all_commands()) {
    const std::string page = run("whichwire " + command + " --help").out;
    CAPTURE(command);
    CHECK(!std::regex_search(page, std::regex("[^\n]{83}")));  // an ellipsis takes three bytes and one column
  }
}

TEST_CASE("without a command the help is shown") {
  const Run bare = run("whichwire");
  CHECK(bare.status == 0);
  CHECK(bare.out == run("whichwire --help").out);
}

TEST_CASE("the version is one line") {
  const Run asked = run("whichwire --version");
  CHECK(asked.status == 0);
  CHECK(asked.out == "whichwire " WHICHWIRE_VERSION "\n");
  CHECK(asked.err == "");
}

TEST_CASE("a word with no place is refused with status 2, a suggestion and nothing on standard output") {
  const std::vector<std::pair<std::string, std::string>> cases = {
      {"lokate a b", "whichwire: unknown command 'lokate', did you mean 'locate'?; `whichwire --help` shows how\n"},
      {"zzzzzzzz", "whichwire: unknown command 'zzzzzzzz'; `whichwire --help` shows how\n"},
      {"--versoin", "whichwire: unknown option '--versoin', did you mean '--version'?; `whichwire --help` shows how\n"},
      {"locate a b --jsn",
       "whichwire: unknown option '--jsn', did you mean '--json'?; `whichwire locate --help` shows how\n"},
      {"locate --exitcode=3",
       "whichwire: unknown option '--exitcode=3', did you mean '--exit-code'?; `whichwire locate --help` shows how\n"},
      {"locate a b c", "whichwire: 'c' is one argument too many; `whichwire locate --help` shows how\n"},
      {"case strat a b",
       "whichwire: unknown command 'strat', did you mean 'start'?; `whichwire case --help` shows how\n"},
      {"case report a --fro customer",
       "whichwire: unknown option '--fro', did you mean '--for'?; `whichwire case report --help` shows how\n"},
      {"case report a --for owner",
       "whichwire: --for: owner is none of colleague, customer; `whichwire case report --help` shows how\n"},
      {"case unplug a", "whichwire: WHAT is required; `whichwire case unplug --help` shows how\n"},
      {"case undo a 0", "whichwire: ENTRY: 0 is not between 1 and 1000000; `whichwire case undo --help` shows how\n"},
      {"locate", "whichwire: NETWORK is required; `whichwire locate --help` shows how\n"},
      {"check", "whichwire: FILE is required; `whichwire check --help` shows how\n"},
      {"predict a --fault", "whichwire: --fault: 1 required WORDS missing; `whichwire predict --help` shows how\n"},
      {"locate a b --key on",
       "whichwire: --key: on is none of off, accessory, run, start; `whichwire locate --help` shows how\n"},
      {"locate a b --outside 2",
       "whichwire: --outside: 2 is not between 1e-09 and 0.5; `whichwire locate --help` shows how\n"},
      {"locate a b --most x", "whichwire: --most: x is not a number; `whichwire locate --help` shows how\n"}};
  for (const auto& one : cases) {
    const std::string& words = one.first;
    const std::string& message = one.second;
    CAPTURE(words);
    const Run refused = run("whichwire " + words);
    CHECK(refused.status == 2);
    CHECK(refused.out == "");
    CHECK(refused.err == message);
  }
}

TEST_CASE("control characters in a word are not echoed raw") {
  const Run refused = run("whichwire \"$(printf '\\033[31mx')\"");
  CHECK(refused.status == 2);
  CHECK(refused.err.find('\x1b') == std::string::npos);
}

TEST_CASE("help, manual and completion know the same options") {
  std::set<std::string> helped;
  const std::string completion = read_text(WHICHWIRE_SOURCE_DIR "/cli/whichwire.bash");
  for (const std::string& command : commands) {
    const std::set<std::string> options = options_in(run("whichwire " + command + " --help").out);
    helped.insert(options.begin(), options.end());
    const std::size_t begin = completion.find("    " + command + ") options=");
    REQUIRE(begin != std::string::npos);
    CHECK(options_in(completion.substr(begin, completion.find('\n', begin) - begin)) == options);
  }
  for (const std::string& command : case_commands) {
    CAPTURE(command);
    const std::set<std::string> options = options_in(run("whichwire case " + command + " --help").out);
    helped.insert(options.begin(), options.end());
    const std::size_t begin = completion.find("      " + command_line_of(completion, command) + ") options=");
    REQUIRE(begin != std::string::npos);
    CHECK(options_in(completion.substr(begin, completion.find('\n', begin) - begin)) == options);
  }
  const std::set<std::string> learn = options_in(run("whichwire rates learn --help").out);
  helped.insert(learn.begin(), learn.end());
  const std::size_t rates = completion.find("== rates ]]");
  REQUIRE(rates != std::string::npos);
  const std::size_t line = completion.find("options=", rates);
  CHECK(options_in(completion.substr(line, completion.find('\n', line) - line)) == learn);
  std::string manual = read_text(WHICHWIRE_SOURCE_DIR "/cli/whichwire.1");
  manual = std::regex_replace(manual, std::regex("Fl -"), "--");
  helped.insert("--version");
  CHECK(options_in(manual) == helped);
}

TEST_CASE("completion offers commands, options and key states") {
  const std::string ask =
      "ask() { COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); _whichwire 2>/dev/null; echo \"${COMPREPLY[@]}\"; }; ";
  const auto complete = [&](const std::string& words) {
    return run("bash -c '. cli/whichwire.bash; " + ask + "ask " + words + "'").out;
  };
  CHECK(complete("whichwire lo") == "locate\n");
  CHECK(complete("whichwire case fuse-o") == "fuse-out\n");
  CHECK(complete("whichwire case reading j.jsonl --rul") == "--rules-out\n");
  CHECK(complete("whichwire case report j.jsonl --for cu") == "customer\n");
  CHECK(complete("whichwire locate --ex") == "--exit-code\n");
  CHECK(complete("whichwire predict n.json --key r") == "run\n");
  CHECK(complete("whichwire check --j") == "--json\n");
}
