// The page of `fleet --html`, read by html5lib without script: it is HTML by its every rule, says what the text says,
// what recurs first, then the units by urgency.
#include <doctest/doctest.h>

#include "judging.hpp"

using namespace whichwire::test;
using nlohmann::json;

namespace {

const std::string samples = "whichwire fleet topologies samples/fleet 2>/dev/null";

/// Two broken scans of the sample fleet in turn as so many units; what `unit_of` gives is their names.
template <class UnitOf>
std::string fleet_of(std::size_t count, UnitOf unit_of) {
  std::istringstream lines(read_text(WHICHWIRE_SOURCE_DIR "/samples/fleet/vans.ndjson"));
  std::vector<json> scans;
  for (std::string line; scans.size() < 4 && std::getline(lines, line);) scans.push_back(json::parse(line));
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    json& scan = scans[i % 2 == 0 ? 1 : 3];
    scan["unit"] = unit_of(i);
    text += scan.dump() + "\n";
  }
  return text;
}

std::vector<std::string> units_to_pull_in(const std::string& fleet_json) {
  std::vector<std::string> units;
  const json report = json::parse(fleet_json);
  for (const json& row : report["rows"])
    if (row.contains("suspected") && !row["suspected"].empty()) units.push_back(row["unit"]);
  return units;
}

}  // namespace

TEST_CASE("the sample fleet gives its expected page, what recurs first, then the units, the most urgent first") {
  const Run made = run(samples + " --html");
  CHECK(made.status == 2);  // one scan of it is broken
  const std::string bare = without_style_and_script(made.out);
  CHECK(bare == golden(WHICHWIRE_SOURCE_DIR "/tests/page/golden/fleet.html", bare));
  const json page = read_pages({made.out})[0];
  CHECK(page["complaints"] == json::array());
  CHECK(page["first"][0].get<std::string>().starts_with("What recurs van-base: DRV-12 or DRV-13 "));
  CHECK(words_missing(page, run(samples).out) == std::vector<std::string>{});
  const std::vector<std::string> units = units_to_pull_in(run(samples + " --as json").out);
  REQUIRE(units.size() == 9);
  REQUIRE(page["steps"].size() == units.size());
  for (std::size_t i = 0; i < units.size(); ++i)
    CHECK(page["steps"][i]["says"].get<std::string>().starts_with(units[i] + " ("));
}

TEST_CASE("every caution of a unit's first check stands at the unit, or before all where it belongs to all") {
  const json page = read_pages({run(samples + " --html").out})[0];
  const json rows = json::parse(run(samples + " --as json").out)["rows"];
  std::size_t at_the_unit = 0;
  for (std::size_t i = 0; i < page["steps"].size(); ++i) {
    for (const json& caution : rows[i]["check"]["cautions"]) {
      const bool of_all = caution.get<std::string>().starts_with("The maker's service information");
      CHECK(has(page["steps"][i]["cautions"], caution) != of_all);
      CHECK(says(page, caution));
      at_the_unit += of_all ? 0 : 1;
    }
  }
  CHECK(at_the_unit > 0);
}

TEST_CASE("units behind the twenty most urgent are rows of a table, in their order, each with its caution") {
  const std::string scans = fleet_of(27, [](std::size_t i) { return "N-" + std::to_string(i); });
  const Run made = run("whichwire fleet topologies --html", scans);
  const json page = read_pages({made.out})[0];
  CHECK(page["complaints"] == json::array());
  CHECK(page["steps"].size() == 20);
  std::vector<json> rows;
  for (const json& row : page["rows"])
    if (!row.empty()) rows.push_back(row);
  REQUIRE(rows.size() == 7);  // the fourteen of the bus first, then thirteen of one module, of which six are no rows
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CHECK(rows[i][0] == "N-" + std::to_string(13 + 2 * i) + " (van-base)");
    CHECK(rows[i][2].get<std::string>().starts_with("Look at fuse F27"));
    CHECK(rows[i][3] == "Fused leads; smallest lamp that loads the path.");
  }
  CHECK(run("whichwire fleet topologies", scans).out.find("and 7 less urgent (--all lists them)") != std::string::npos);
}

TEST_CASE("whatever a unit or a file of scans is called stands in the page as text") {
  const std::vector<std::string> names = hostile_texts();
  const std::string scans = fleet_of(names.size(), [&](std::size_t i) { return names[i]; });
  const json page = read_pages({run("whichwire fleet topologies --html", scans).out})[0];
  CHECK(page["complaints"] == json::array());
  for (const std::string& name : names) CHECK(says(page, name));
}

TEST_CASE("the page goes to a file whole or not at all, and not together with another form") {
  const std::string file = scratch() + "/fleet.html";
  CHECK(run(samples + " --html --output " + file).out == "");
  CHECK(read_text(file) == run(samples + " --html").out);
  CHECK(run("whichwire fleet topologies samples/fleet --html --as csv").status == 2);
  const Run nowhere_to =
      run("whichwire fleet topologies samples/fleet --html --output " + scratch() + "/none/fleet.html");
  CHECK(nowhere_to.err.find("cannot be written") != std::string::npos);
  CHECK(run("whichwire fleet topologies --as ndjson --output " + file).err ==
        "whichwire: --output is for a report; rows go to --rows FILE\n");
}
