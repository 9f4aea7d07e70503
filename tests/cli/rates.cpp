// `rates learn` from the command line: from a job, worked on and closed, to a table that every ranking command takes.
#include <doctest/doctest.h>

#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string job = "job-of-rates.jsonl";

void work(const std::string& words, const std::string& input = "") {
  const std::size_t blank = words.find(' ');
  const Run made =
      run("cd " + scratch() + " && ln -sfn '" WHICHWIRE_SOURCE_DIR "/topologies' topologies && whichwire case " +
              words.substr(0, blank) + " " + job + (blank == std::string::npos ? "" : words.substr(blank)),
          input);
  CAPTURE(words);
  CHECK(made.err == "");
  CHECK(made.status == 0);
}

std::string scan_with(const std::string& fault) {
  return run("whichwire predict topologies/compact-car.json --scan-out - " + fault).out;
}

}  // namespace

TEST_CASE("a proven case gives a table with counts, which locate and the case's own pages take; others give nothing") {
  work("start topologies/compact-car.json");
  work("scan - --key run", scan_with("--fault 'open F3'"));
  const std::string open_file = scratch() + "/" + job;
  const Run early = run("whichwire rates learn " + open_file);
  CHECK(early.status == 0);
  CHECK(early.err == "whichwire: " + open_file + ": it is not closed; nothing was learned from it\n");
  CHECK(early.out.ends_with("what,odds,source\n"));
  work("reading F4 '12.5 V' --mode volts-loaded --key run");
  work("reading F3 'one contact dead' --check feed:F3");
  work("unplug ECM");
  work("reading ECM/A-1 '0.0 V' --mode volts-loaded --key run");
  work("replug ECM");
  work("reading F3 'one contact dead' --check feed:F3");
  work("replaced 'fuse F3'");
  work("scan - --key run", scan_with(""));
  work("close");
  const std::string table = scratch() + "/rates.csv";
  const Run learned = run("whichwire rates learn " + open_file + " --output " + table);
  CHECK(learned.status == 0);
  CHECK(learned.err == "");
  CHECK(read_text(table).find("open.feed.fuse,") != std::string::npos);
  CHECK(read_text(table).find("found in 1 of 1 proven, ") != std::string::npos);
  const std::string scan = "samples/01-one-silent/scan.txt";
  const std::string with = run("whichwire locate topologies/compact-car.json " + scan + " --rates " + table).out;
  CHECK(with != run("whichwire locate topologies/compact-car.json " + scan).out);
  const std::string next = "whichwire case next " + open_file + " --json";
  const Run taken = run(next + " --rates " + table);
  CHECK(taken.status == 0);
  CHECK(taken.out != run(next).out);
}

TEST_CASE("a case or table that cannot be read is refused, and no table is written") {
  const std::string table = scratch() + "/none.csv";
  const Run asked = run("whichwire rates learn nowhere.jsonl --output " + table);
  CHECK(asked.status == 2);
  CHECK(asked.err == "whichwire: nowhere.jsonl: no such file\n");
  CHECK(read_text(table) == "");
  CHECK(run("whichwire rates").out == run("whichwire rates --help").out);
}
