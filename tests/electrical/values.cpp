// The table of values, and tables that override it.
#include "electrical/values.hpp"

#include <doctest/doctest.h>

#include <cmath>

namespace whichwire {

TEST_CASE("every value has a unit and a source, and its limits rise") {
  const ElectricalValues& values = default_electrical_values();
  CHECK(values.rows.size() > 100);
  for (const ElectricalValue& row : values.rows) {
    CAPTURE(row.what);
    CHECK_FALSE(row.unit.empty());
    CHECK_FALSE(row.source.empty());
    CHECK(row.value.low <= row.value.nominal);
    CHECK(row.value.nominal <= row.value.high);
  }
}

TEST_CASE("a table of the user's replaces the rows that it has") {
  const auto read = read_electrical_values(
      "what,low,nominal,high,unit,source\nshort,0,1,2,ohm,measured\ncan-hs.off.ohms,5000,9000,open,ohm,measured\n",
      "own.csv");
  REQUIRE(read.mistakes.empty());
  CHECK(value_of(read.values, "short") == Interval{0, 1, 2});
  CHECK(std::isinf(value_of(read.values, "can-hs.off.ohms").high));
  CHECK(value_of(read.values, "joint") == value_of(default_electrical_values(), "joint"));
}

TEST_CASE("a table of the user's names all its mistakes at once") {
  const auto read = read_electrical_values(
      "what,low,nominal,high,unit,source\nshrot,0,1,2,ohm,x\nshort,3,1,2,ohm,x\njoint,0,a,2,ohm,x\nholds,-1,1,2,ohm,\n"
      "contact,1,2\nshort,0,1,2,ohm,x\n",
      "own.csv");
  REQUIRE(read.mistakes.size() == 7);
  CHECK(read.mistakes[0].message == "there is no value of this name, did you mean 'short'?");
  CHECK(read.mistakes[0].line == 2);
  CHECK(read.mistakes[1].message == "the numbers must rise: low, nominal, high");
  CHECK(read.mistakes[2].message == "here must be a number, as in 0.35, or the word open");
  CHECK(read.mistakes[3].message == "ohms cannot be less than 0");
  CHECK(read.mistakes[4].message == "the source is missing, write where the number is from");
  CHECK(read.mistakes[5].message.starts_with("a line has six columns"));
  CHECK(read.mistakes[6].message == "this value is given twice, keep one of the two lines");
  CHECK_FALSE(read_electrical_values("", "own.csv").mistakes.empty());
}

}  // namespace whichwire
