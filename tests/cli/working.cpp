// The line that says what takes long. `script` (util-linux) is the terminal; what was written to it is compared byte
// for byte, but for how many seconds there were on a slow machine.
#include <doctest/doctest.h>

#include <regex>

#include "cli/vans.hpp"

using namespace whichwire::test;

namespace {

/// All that is written to a terminal while the work takes so long.
std::string at_terminal(const std::string& work) {
  const std::string seen = scratch() + "/seen";
  const Run made = run("script -qec \"" + work + "\" '" + seen + "' >/dev/null");
  CHECK(made.status == 0);
  std::string text = read_text(seen);
  // `script` writes a line of its own before and behind.
  const std::size_t begin = text.find('\n') + 1, end = text.rfind("\nScript done");
  return text.substr(begin, end == std::string::npos ? end : end - begin);
}

const std::string works_for = "'" WHICHWIRE_WORKS_FOR "' ";

}  // namespace

TEST_CASE("on a terminal, what takes longer than a second says so, counts, and leaves nothing behind") {
  std::string seen = at_terminal(works_for + "2400");
  int seconds = 0;
  for (std::string next = "\r\x1b[Ksearching … 1 s"; seen.starts_with(next);
       next = "\r\x1b[Ksearching … " + std::to_string(seconds + 1) + " s") {
    seen.erase(0, next.size());
    ++seconds;
  }
  CHECK(seconds >= 2);
  CHECK(seen == "\r\x1b[K");
}

TEST_CASE("on a terminal many units say how many there were, how many a second, and how long it still takes") {
  const std::string long_one = "samples/23-chassis-bus-shorted/scan.txt", more = scratch() + "/more.ndjson";
  write_text(more, many(2000));
  const auto seen_over = [](const std::string& scans) {
    return at_terminal("whichwire fleet topologies --threads 1 --as ndjson " + scans + " >/dev/null || true");
  };
  const std::string count = "\\[K[0-9]+ scans, [0-9]+ a second, ";
  const std::string seen = seen_over(long_one + " " + more);
  CHECK(std::regex_search(seen, std::regex(count + "[0-9]+ % read, [0-9]+ s left")));
  CHECK(seen.ends_with("\r\x1b[K"));
  CHECK(std::regex_search(seen_over(long_one), std::regex(count + "all read")));
}

TEST_CASE("what is done at once leaves a terminal alone") {
  CHECK(at_terminal(works_for + "0") == "");
  CHECK(at_terminal("whichwire locate topologies/compact-car.json samples/01-one-silent/scan.txt >/dev/null") == "");
}

TEST_CASE("where standard error is no terminal, or colour is not wanted, nothing is said of progress") {
  const Run quiet = run(works_for + "1300");
  CHECK(quiet.status == 0);
  CHECK(quiet.err == "");
  CHECK(at_terminal("NO_COLOR=1 " + works_for + "1300") == "");
}
