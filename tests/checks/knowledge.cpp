// The tables of the checks are whole: every number has a source, every probability is one, every check has outcomes.
#include "checks/knowledge.hpp"

#include <doctest/doctest.h>

#include <set>
#include <stdexcept>

using namespace whichwire;

TEST_CASE("every row of the tables of checks has a source") {
  for (const CheckKind& row : knowledge().checks) CHECK_FALSE(row.source.empty());
  for (const OutcomeKind& row : knowledge().outcomes) CHECK_FALSE(row.source.empty());
  for (const Caution& row : knowledge().cautions) CHECK_FALSE(row.source.empty());
  for (const Limit& row : knowledge().limits) CHECK_FALSE(row.source.empty());
  CHECK(knowledge().checks.size() > 20);
}

TEST_CASE("every reliability of a check is a probability, and a check takes time") {
  for (const CheckKind& row : knowledge().checks) {
    CAPTURE(row.what);
    for (const double chance : {row.fine, row.seen, row.at_times}) {
      CHECK(chance >= 0);
      CHECK(chance <= 1);
    }
    CHECK(row.fine > 0.5);
    CHECK(row.minutes > 0);
    CHECK(row.reach >= 0);
  }
}

TEST_CASE("no check is listed twice and each has a good outcome and another") {
  std::set<std::string> names;
  for (const CheckKind& row : knowledge().checks) CHECK(names.insert(row.what).second);
  for (const OutcomeKind& row : knowledge().outcomes) names.insert(row.what);
  for (const std::string& what : names) {
    const bool shares = what.starts_with("pair-") || what.ends_with("-pins") || what.ends_with("-apart");
    if (shares || what == "feed-volts" || what == "wire") continue;  // another's
    CAPTURE(what);
    CHECK(knowledge().outcomes_of(what).size() >= 2);
  }
}

TEST_CASE("a row that is not in the tables is a broken program, not a silent nothing") {
  CHECK_THROWS_AS(knowledge().check("no such check"), std::logic_error);
  CHECK_THROWS_AS(knowledge().limit("no such limit"), std::logic_error);
  CHECK_THROWS_AS(knowledge().caution("no such place"), std::logic_error);
}

TEST_CASE("the words of the tables never tell to replace anything") {
  const auto tells = [](const std::string& text) { return text.find("eplace ") != std::string::npos; };
  for (const CheckKind& row : knowledge().checks) CHECK_FALSE(tells(row.measure));
  for (const OutcomeKind& row : knowledge().outcomes) CHECK_FALSE(tells(row.means));
}

TEST_CASE("a sentence of the tables is filled in name by name, and unknown names stay") {
  CHECK(fill("Unplug {part}: pin {pin}{wire}", {{"part", "ECM"}, {"pin", "A-3"}, {"wire", ""}}) ==
        "Unplug ECM: pin A-3");
  CHECK(fill("{what} {", {}) == "{what} {");
}
