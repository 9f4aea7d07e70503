// The commands of cli/MACHINES.md, as they stand there, come to the rows of a single run, and what recurs is the same.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "cli/vans.hpp"

using namespace whichwire::test;

namespace {

/// The page's blocks of commands.
std::vector<std::string> commands() {
  const std::string page = read_text(WHICHWIRE_SOURCE_DIR "/cli/MACHINES.md"), open = "```sh\n";
  std::vector<std::string> all;
  for (std::size_t at = page.find(open); at != std::string::npos; at = page.find(open, at)) {
    at += open.size();
    all.push_back(page.substr(at, page.find("```", at) - at));
  }
  return all;
}

/// In a folder with the networks and the scans.
Run there(const std::string& command, const std::string& input = "") {
  return run("cd '" + scratch() + "' && ln -sf '" WHICHWIRE_SOURCE_DIR "/topologies' . && " + command, input);
}

/// Without the line within what a process was given.
std::vector<nlohmann::json> rows_in(const std::string& text) {
  std::vector<nlohmann::json> rows;
  for (const std::string& line : lines_of(text)) {
    rows.push_back(nlohmann::json::parse(line));
    rows.back().erase("scan");
  }
  return rows;
}

std::string what_recurs(const std::string& page) {
  const std::size_t begin = page.find("What recurs\n");
  REQUIRE(begin != std::string::npos);
  return page.substr(begin, page.find("Not read") - begin);
}

}  // namespace

TEST_CASE("the commands that spread scans over machines come to what a single run says") {
  REQUIRE(run("command -v parallel").status == 0);
  const auto page = commands();
  REQUIRE(page.size() == 4);
  const std::string &by_parallel = page[0], &by_scheduler = page[1], &by_pipe = page[2], &gathered = page[3];
  const std::string scans = many(2000);
  REQUIRE(scans.size() > (2U << 20U));  // more than two of the blocks of a megabyte
  write_text(scratch() + "/scans.ndjson", scans);
  const auto single = rows_in(there("whichwire fleet topologies --as ndjson scans.ndjson").out);
  const std::string recurs = what_recurs(there("whichwire fleet topologies scans.ndjson").out);
  REQUIRE(single.size() == 2000);

  there(by_parallel);
  CHECK(rows_in(read_text(scratch() + "/rows.ndjson")) == single);
  CHECK(rows_in(there(by_pipe, scans).out) == single);

  std::string of_all;
  for (const char* task : {"1", "2", "3"}) {
    const std::string rows = scratch() + "/rows-" + task + ".ndjson", job = std::string("TASKS=3 TASK=") + task + "\n";
    there(job + by_scheduler);
    const std::string whole = read_text(rows);
    write_text(rows, whole.substr(0, whole.size() / 3));  // killed, and started again
    there(job + by_scheduler);
    CHECK(read_text(rows) == whole);
    of_all += whole;
  }
  CHECK(rows_in(of_all) == single);
  CHECK(what_recurs(there(gathered).out) == recurs);
}
