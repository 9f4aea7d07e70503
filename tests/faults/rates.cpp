// How often parts fail: the order that the trade holds, and the table that overrides it.
#include <doctest/doctest.h>

#include <algorithm>
#include <initializer_list>
#include <whichwire/fault.hpp>

#include "every_part.hpp"

using namespace whichwire;
using test::network_with_every_part;

namespace {

double odds(const char* what) {
  const auto& rows = default_rates().rows;
  const auto row = std::find_if(rows.begin(), rows.end(), [&](const Rate& rate) { return rate.what == what; });
  REQUIRE(row != rows.end());
  return row->odds;
}

double least(std::initializer_list<const char*> rows) {
  double result = 1e9;
  for (const char* row : rows) result = std::min(result, odds(row));
  return result;
}

double most(std::initializer_list<const char*> rows) {
  double result = 0;
  for (const char* row : rows) result = std::max(result, odds(row));
  return result;
}

std::string all_mistakes(const std::string& csv) {
  std::string text;
  for (const Mistake& mistake : read_rates(csv, "my.csv").mistakes) {
    text += std::to_string(mistake.line) + ":" + std::to_string(mistake.column) + " " + mistake.message + "\n";
  }
  return text;
}

}  // namespace

// Common practice, no source: connectors and wiring, then feeds and grounds, then added devices, then configuration,
// then the module's own electronics.
TEST_CASE("the odds follow the trade's order, from connectors and wiring down to the module's own electronics") {
  const double wiring =
      least({"open.segment.high", "open.segment.low", "open.segment.both", "open.segment.single", "open.power-pin",
             "open.ground-pin", "open.connector-bus-pin", "open.connector-power-pin", "open.connector-ground-pin"});
  CHECK(wiring > most({"open.feed.fuse", "open.feed.relay", "open.ground"}));
  CHECK(least({"open.feed.fuse", "open.feed.relay", "open.feed.switch", "open.feed.fusible-link", "open.ground"}) >
        odds("added-device"));
  CHECK(odds("added-device") > odds("unconfigured"));
  CHECK(odds("unconfigured") > most({"dead", "holds", "babbles", "port-dead", "not-forwarding", "back-feeds"}));
}

// Common practice, no source: two to three modules in a hundred have something wrong at them.
TEST_CASE("all that is local to one ordinary module sums to odds between 0.02 and 0.03") {
  const Network network = network_with_every_part();
  double sum = 0;
  for (const Fault& fault : faults_of(network)) {
    const std::string part = part_of(network, fault);
    if (!fault.comes_and_goes && (part == "DRV-2" || part == "ECM" || part.starts_with("ECM/")) &&
        fault.kind != FaultKind::missing) {
      sum += fault.odds;
    }
  }
  CHECK(sum > 0.02);
  CHECK(sum < 0.03);
}

TEST_CASE("every rate has odds and says where they are from") {
  for (const Rate& rate : default_rates().rows) {
    CAPTURE(rate.what);
    CHECK(rate.odds > 0);
    CHECK_FALSE(rate.source.empty());
  }
}

TEST_CASE("every row of the table moves the odds of some fault, or the factor of none") {
  const Network network = network_with_every_part();
  const std::vector<Fault> before = faults_of(network);
  for (std::size_t row = 0; row < default_rates().rows.size(); ++row) {
    Rates rates = default_rates();
    rates.rows[row].odds *= 2;
    const std::vector<Fault> after = faults_of(network, rates);
    CAPTURE(rates.rows[row].what);
    REQUIRE(after.size() == before.size());
    CHECK((after != before || factor_of_no_fault(rates) != factor_of_no_fault(default_rates())));
  }
}

TEST_CASE("a file overrides the rows that it has and leaves the others") {
  const RatesResult read =
      read_rates("what,odds,source\r\n# ours\r\n\r\ndead,0.01,\"our workshop, 2024\"\r\n", "my.csv");
  REQUIRE(read.mistakes.empty());
  CHECK(read.rates.rows.size() == default_rates().rows.size());
  for (const Rate& rate : read.rates.rows) {
    CAPTURE(rate.what);
    CHECK(rate.odds == (rate.what == "dead" ? 0.01 : odds(rate.what.c_str())));
    if (rate.what == "dead") CHECK(rate.source == "our workshop, 2024");
  }
}

TEST_CASE("every mistake of a table of rates is told, with its place") {
  CHECK(all_mistakes("what,odds,source\n"
                     "daed,0.1,x\n"
                     "holds,often,x\n"
                     "  babbles, -1 ,x\n"
                     "dead,0.1\n"
                     "dead,0.1,common practice, no source\n"
                     "unconfigured,0.1,\n"
                     "open.ground,0.1,x\n"
                     "open.ground,0.2,x\n"
                     "port-dead,nan,\"x\n") ==
        "2:1 there is no rate of this name, did you mean 'dead'?\n"
        "3:7 the odds must be a number, as in 0.002\n"
        "4:12 the odds must be above 0 and at most 1000000\n"
        "5:1 a line has three columns (what,odds,source), this one has 2\n"
        "6:1 a line has three columns (what,odds,source), this one has 4; put quotes around a text that has a comma\n"
        "7:18 the source is missing, write where the number is from\n"
        "9:1 this rate is given twice, keep one of the two lines\n"
        "10:11 the odds must be a number, as in 0.002\n"
        "10:15 the quotes that begin here are not ended on this line\n");
}

TEST_CASE("a table of rates without its first line, an empty one and an enormous one are refused") {
  CHECK(all_mistakes("dead,0.1,x\n") == "1:1 the first line must name the columns: what,odds,source\n");
  CHECK(all_mistakes("") == "0:0 the table is empty, its first line must be: what,odds,source\n");
  CHECK(all_mistakes(std::string(2'000'000, ',')) == "0:0 the table is larger than a million bytes\n");
}

TEST_CASE("control characters in a table of rates are never repeated raw") {
  for (const Mistake& mistake : read_rates("what,odds,source\n\x1b[31m,0.1,x\n", "my.csv").mistakes) {
    CHECK(text_of(mistake).find('\x1b') == std::string::npos);
  }
  CHECK(read_rates("what,odds,source\n\x1b[31m,0.1,x\n", "my.csv").mistakes.size() == 1);
}

TEST_CASE("a table of rates that is too long, or has a line that is, is refused with the place where reading stops") {
  const std::string heading = "what,odds,source\n";
  std::string remarks;
  for (int i = 0; i < 1999; ++i) remarks += "# remark\n";
  CHECK(all_mistakes(heading + remarks) == "");
  CHECK(all_mistakes(heading + remarks + "#\n") ==
        "2001:1 the table has more than 2000 lines; nothing from here on is read\n");
  CHECK(all_mistakes(heading + "dead,1," + std::string(1993, 'x')) == "");
  CHECK(all_mistakes(heading + "dead,1," + std::string(1994, 'x')) ==
        "2:1 this line is longer than 2000 bytes; nothing from here on is read\n");
  CHECK(read_rates(std::string(1'000'001, ','), "my.csv").mistakes.size() == 1);
  CHECK(read_rates(std::string(900'000, ','), "my.csv").mistakes.size() == 1);
}
