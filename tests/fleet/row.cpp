// A row that was written and read is the same row; anything else is refused.
#include "fleet/row.hpp"

#include <whichwire/render_fleet.hpp>

#include "fleet/units.hpp"

using namespace whichwire;

TEST_CASE("a row that was written and read again is written the same, and so is one passed through") {
  const Fleet fleet = test::fleet_of({"compact-car", "van-base"});
  const Network network = test::shipped("van-base");
  std::vector<FleetRow> rows = {fleet.row_of(test::unit_line(network, "V \"1\"", {"open DRV-13"}), "a.json"),
                                fleet.row_of(test::unit_line(network, "V-2", test::Words{}), "b:2"),
                                fleet.row_of(test::unit_line(network, "", {"open F27"}), "ü"),
                                fleet.row_of("{}", "bad:4")};
  const std::string lines = ndjson_of(rows);
  std::vector<FleetRow> again;
  for (std::size_t at = 0; at < lines.size();) {
    const std::size_t end = lines.find('\n', at);
    const std::string line = lines.substr(at, end - at);
    CHECK(is_fleet_row(line));
    again.push_back(fleet.row_of(line, "rows"));
    at = end + 1;
  }
  REQUIRE(again.size() == rows.size());
  CHECK(ndjson_of(again) == lines);
  CHECK(again[2].scan == "ü");
  CHECK(again[3].finding->error == rows[3].finding->error);
}

TEST_CASE("what is no row is refused with the reason, a scan is no row") {
  CHECK(!is_fleet_row(R"({"format":"whichwire.scan.v1","modules":[]})"));
  const auto error = [](const std::string& text) { return read_fleet_row(text, "x").finding->error; };
  CHECK(error("{").starts_with("no row of a fleet: "));
  CHECK(error(R"({"format":"whichwire.fleet-row.v1","scan":"a"})").find("error") != std::string::npos);
  CHECK(error(R"({"format":"whichwire.fleet-row.v1","scan":"a","class":"module","fault":1.5})").find("fault") !=
        std::string::npos);
}

TEST_CASE("a row of a network that is not given is an error") {
  const Fleet fleet = test::fleet_of({"compact-car"});
  const std::string row =
      R"({"format":"whichwire.fleet-row.v1","scan":"a","unit":"U","network":"other","matched":"vehicle","class":"none"})";
  CHECK(fleet.row_of(row, "x").finding->error == "no network given is its own: other");
  CHECK(fleet.row_of(row, "x").unit == "U");
}
