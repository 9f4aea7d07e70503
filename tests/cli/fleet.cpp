// Many units as the program handles them: the page, the other forms, going on after an interruption, bad scans.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <vector>

#include "cli/judged.hpp"
#include "cli/vans.hpp"
#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string golden_folder = WHICHWIRE_SOURCE_DIR "/tests/cli/golden/";

std::string row_of_many() { return run("whichwire fleet topologies --as ndjson", many(40)).out; }

}  // namespace

TEST_CASE(
    "the sample fleet gives its page: the most urgent units first, then what recurs, then what could not be read") {
  const Run asked = run("whichwire fleet topologies samples/fleet");
  CHECK(asked.status == 2);  // one scan of it is broken
  CHECK(asked.err == "whichwire: 1 file passed over: not .json, .jsonl, .ndjson or .txt\n");
  CHECK(asked.out == golden(golden_folder + "fleet.txt", asked.out));
  for (const std::string& line : lines_of(asked.out)) CHECK(line.size() <= 80);
}

TEST_CASE("by itself each unit is judged by its own scan alone") {
  const Run asked = run("whichwire fleet topologies samples/fleet --independent --as json");
  const auto json = nlohmann::json::parse(asked.out);
  CHECK(json["independent"] == true);
  for (const auto& row : json["rows"]) CHECK(!row.contains("narrowed"));
  CHECK(json["recurring"].size() == 1);
}

TEST_CASE("JSON, rows and CSV say the same of the same units, and JSON is as its schemas have it") {
  const Run json = run("whichwire fleet topologies samples/fleet --as json --independent");
  CHECK(judged(json.out, "fleet") == "");
  const auto rows = nlohmann::json::parse(json.out)["rows"];
  const auto csv = lines_of(run("whichwire fleet topologies samples/fleet --as csv --independent").out);
  CHECK(csv.size() == rows.size() + 1);
  const auto ndjson = lines_of(run("whichwire fleet topologies samples/fleet --as ndjson").out);
  REQUIRE(ndjson.size() == rows.size());
  for (const std::string& line : ndjson) {
    CHECK(judged(line, "fleet-row") == "");
    auto row = nlohmann::json::parse(line);
    row.erase("format");
    CHECK(std::count(rows.begin(), rows.end(), row) == 1);
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::string scan = rows[i]["scan"];
    CHECK(csv[i + 1].find("," + scan + ",") != std::string::npos);
  }
}

TEST_CASE("rows come in the order of the scans, the same whatever the number of threads") {
  const std::string scans = many(400);
  const Run one = run("whichwire fleet topologies --as ndjson --threads 1", scans);
  const Run more = run("whichwire fleet topologies --as ndjson --threads 5", scans);
  CHECK(one.out == more.out);
  const auto rows = lines_of(one.out);
  REQUIRE(rows.size() == 400);
  for (std::size_t i = 0; i < rows.size(); ++i)
    CHECK(rows[i].find("\"scan\":\"standard input:" + std::to_string(i + 1) + "\"") != std::string::npos);
}

TEST_CASE("a run that was cut off anywhere is taken up where its whole rows end") {
  const std::string scans = scratch() + "/forty.ndjson", rows = scratch() + "/rows.ndjson";
  write_text(scans, many(40));
  const std::string command = "whichwire fleet topologies " + scans + " --as ndjson --rows " + rows;
  const Run whole = run(command);
  CHECK(whole.out == "");
  const std::string all = read_text(rows);
  CHECK(lines_of(all).size() == 40);
  for (const std::size_t bytes : {std::size_t{0}, std::size_t{1}, all.find('\n'), all.find('\n') + 1, all.size() / 2,
                                  all.size() - 1, all.size()}) {
    CAPTURE(bytes);
    write_text(rows, all.substr(0, bytes));
    const Run again = run(command + " --resume");
    CHECK(again.err == "");
    CHECK(read_text(rows) == all);
  }
  const Run page = run("whichwire fleet topologies " + scans + " --rows " + rows + " --resume");
  CHECK(page.out == run("whichwire fleet topologies " + scans).out);
}

TEST_CASE("rows of other scans, or what is none, are not gone on with; a file that is there is not written over") {
  const std::string rows = scratch() + "/other.ndjson";
  write_text(rows, lines_of(row_of_many()).front() + "\n");
  const Run other = run("whichwire fleet topologies " + vans + " --resume --rows " + rows);
  CHECK(other.status == 2);
  CHECK(other.err == "whichwire: the rows are not those of these scans: it has a row of standard input:1 where " +
                         vans + ":1 comes next\n");
  write_text(rows, "{}\n");
  CHECK(run("whichwire fleet topologies " + vans + " --resume --rows " + rows).err.find("a line of it is no row") !=
        std::string::npos);
  const Run there = run("whichwire fleet topologies " + vans + " --rows " + rows);
  CHECK(there.status == 2);
  CHECK(there.err == "whichwire: " + rows + " is there already: --resume goes on with it, or name another file\n");
  CHECK(read_text(rows) == "{}\n");
  CHECK(run("whichwire fleet topologies " + vans + " --resume").err ==
        "whichwire: --resume needs the file of rows: --rows FILE\n");
}

TEST_CASE("asked to stop it leaves whole rows, says how to go on, and exits as a shell expects") {
  const std::string rows = scratch() + "/stopped.ndjson";
  for (const auto& [signal, status] : std::vector<std::pair<std::string, int>>{{"INT", 130}, {"TERM", 143}}) {
    // The scans never end, and the signal comes when rows are there.
    const Run asked = run(
        "rm -f " + rows + "; (cat " + vans + "; while :; do cat " + vans +
        " || exit; sleep 0.05; done) 2>/dev/null | whichwire fleet topologies --as ndjson --threads 1 --rows " + rows +
        " & pid=$!; until [ -s " + rows + " ]; do sleep 0.05; done; kill -" + signal + " $pid; wait $pid; echo $?");
    CHECK(asked.out == std::to_string(status) + "\n");
    CHECK(asked.err.starts_with("whichwire: stopped after "));
    CHECK(asked.err.ends_with(" scans; the same words and --resume go on from there\n"));
    const std::string text = read_text(rows);
    CHECK(text.ends_with("\n"));
    for (const std::string& line : lines_of(text))
      CHECK(nlohmann::json::parse(line)["format"] == "whichwire.fleet-row.v1");
  }
}

TEST_CASE("whatever stands in a line is a row of its own, and the others are as without it") {
  const std::string good = lines_of(many(1)).front() + "\n";
  const std::string bad =
      "{\n\n[1]\nnull\n\xff\xfe{\"a\n{\"format\":\"whichwire.fleet-row.v1\"}\n" + std::string(70'000, '{') + "\n";
  const Run asked = run("whichwire fleet topologies --as ndjson", good + good + bad + good);
  CHECK(asked.status == 2);
  CHECK(asked.err == "");
  const auto rows = lines_of(asked.out);
  REQUIRE(rows.size() == 9);
  std::size_t errors = 0;
  for (const std::string& row : rows) errors += nlohmann::json::parse(row).contains("error") ? 1 : 0;
  CHECK(errors == 6);
  CHECK(rows[8].find("\"scan\":\"standard input:10\"") != std::string::npos);
}

TEST_CASE("what cannot be read is a row; networks and options that are wrong are refused before anything is done") {
  const Run missing = run("whichwire fleet topologies nowhere.json --as ndjson");
  CHECK(missing.status == 2);
  CHECK(missing.out == R"({"format":"whichwire.fleet-row.v1","scan":"nowhere.json","error":"no such file"})"
                       "\n");
  CHECK(run("whichwire fleet topologies " + vans + " --network van-bse").err ==
        "whichwire: --network: none of the networks is called van-bse, did you mean 'van-base'?\n");
  CHECK(run("whichwire fleet samples " + vans).err == "whichwire: samples: no network description in this folder\n");
  CHECK(run("whichwire fleet nowhere.json " + vans).err == "whichwire: nowhere.json: no such file\n");
  const Run full = run("whichwire fleet topologies " + vans + " --as ndjson > /dev/full");
  CHECK(full.status == 3);
  CHECK(full.err == "whichwire: cannot write the result: No space left on device\n");
  const Run nothing = run("whichwire fleet topologies --as ndjson");
  CHECK(nothing.status == 0);
  CHECK(nothing.out == "");
}

TEST_CASE("with --exit-code a fault in any unit is told by the status") {
  const auto lines = lines_of(read_text(WHICHWIRE_SOURCE_DIR "/" + vans));
  CHECK(run("whichwire fleet topologies --as ndjson --exit-code", lines[0] + "\n").status == 0);
  CHECK(run("whichwire fleet topologies --as ndjson --exit-code", lines[0] + "\n" + lines[1] + "\n").status == 1);
}
