// Functions that work or fail, as people say it. All sentences are made up; that people speak so is common practice, no
// source.
#include <algorithm>

#include "scan/function_words.hpp"
#include "scan/van.hpp"

using namespace whichwire;

namespace {

/// What a text that names one module says of the functions: `crank-` fails, `wipers+` works.
std::string functions_in(const std::string& text) {
  std::string all;
  for (const FunctionSeen& one : test::pasted("ECM ok\n" + text + "\n").functions)
    all += (all.empty() ? "" : " ") + one.function + (one.works ? "+" : "-");
  return all;
}

}  // namespace

TEST_CASE("verbs and plurals are alike in every form") {
  CHECK(stem_of("cranks") == stem_of("crank"));
  CHECK(stem_of("cranking") == stem_of("crank"));
  CHECK(stem_of("engages") == stem_of("engaging"));
  CHECK(stem_of("runs") == stem_of("running"));
  CHECK(stem_of("wipers") == stem_of("wiper"));
  CHECK(stem_of("glass") != stem_of("gla"));
}

TEST_CASE("a function that does not work is understood with every kind of apostrophe, and without one") {
  for (const char* mark : {"'", "\u2019", "\u2018", "`", "\u00B4", "\u02BC", ""}) {
    CAPTURE(mark);
    const std::string t = std::string(mark) + "t";
    CHECK(functions_in("Engine doesn" + t + " crank") == "crank-");
    CHECK(functions_in("Won" + t + " crank") == "crank-");
    CHECK(functions_in("Wipers don" + t + " work") == "wipers-");
    CHECK(functions_in("The wipers aren" + t + " working") == "wipers-");
    CHECK(functions_in("wipers can" + t + " be switched on") == "wipers-");
  }
}

TEST_CASE("sentences in many words say that a function fails or works") {
  for (const char* line : {"Starter does not crank", "No crank", "crank: fails", "Starter cranks: no", "not cranking",
                           "starter cranks no longer", "Crank inop"}) {
    CAPTURE(line);
    CHECK(functions_in(line) == "crank-");
  }
  for (const char* line : {"Wipers: dead", "wipers stopped working", "Wipers won't move", "wiper out of order"}) {
    CAPTURE(line);
    CHECK(functions_in(line) == "wipers-");
  }
  for (const char* line : {"Wipers work", "wipers: ok", "Wipers working", "wiper operates as normal"}) {
    CAPTURE(line);
    CHECK(functions_in(line) == "wipers+");
  }
}

TEST_CASE("several functions in a line each have what is said of them") {
  CHECK(functions_in("Wipers work, starter doesn't crank") == "wipers+ crank-");
  CHECK(functions_in("wipers and crank fail") == "wipers- crank-");
  CHECK(functions_in("wipers and starter don't work") == "wipers-");
  CHECK(functions_in("Not working: wipers, crank") == "wipers- crank-");
  CHECK(functions_in("Works: wipers, crank") == "wipers+ crank+");
  CHECK(functions_in("Crank and wipers ok") == "crank+ wipers+");
}

TEST_CASE("what is said of one function is not said of the next clause") {
  CHECK(functions_in("Crank, no start") == "");
  CHECK(functions_in("crank no start") == "");
  CHECK(functions_in("Engine cranks but doesn't start") == "");
  CHECK(functions_in("Cranks, won't start") == "");
  CHECK(functions_in("wipers, ok") == "wipers+");
  CHECK(functions_in("wipers ok but won't crank") == "wipers+ crank-");
}

TEST_CASE("a heading says of a list of functions that they work or fail") {
  CHECK(functions_in("Not working:\n- Wipers\n- Starter cranks") == "wipers- crank-");
  CHECK(functions_in("Works\nWipers\nFails\nCrank") == "wipers+ crank-");
  CHECK(functions_in("Not working:\nWipers\n\nStarter cranks") == "wipers-");
  CHECK(functions_in("Not working:\nWipers\nBCM ok\nStarter cranks") == "wipers-");
}

TEST_CASE("a function that comes and goes, or that only has its name, is not placed") {
  const ScanResult result = read_pasted_scan("ECM ok\nwipers intermittent\nWipers\n", "paste", test::van());
  REQUIRE(result.scan.has_value());
  CHECK(result.scan->functions.empty());
  CHECK(result.lines[1].understood.empty());
  CHECK(result.lines[2].understood.empty());
}

TEST_CASE("a function whose name begins with a module's is the function where it is denied") {
  Network network = test::van();
  network.functions.push_back({"sound", "Radio plays", {}, {}});
  const ScanResult result = read_pasted_scan("ECM ok\nRadio doesn\u2019t play\nRadio ok\n", "paste", network);
  REQUIRE(result.scan.has_value());
  REQUIRE(result.scan->functions.size() == 1);
  CHECK(result.scan->functions[0] == FunctionSeen{"sound", false});
  CHECK(test::seen(*result.scan, "RAD")->answer == Answer::yes);
}

TEST_CASE("a little word before a function's name is no part of it, so a longer name is still found") {
  Network network = test::van();
  network.functions.push_back({"siren", "Alarm siren", {}, {}});
  network.modules[test::module("RAD")].aliases.emplace_back("siren");
  const ScanResult result = read_pasted_scan("BCM ok\n  no messages from the siren\n", "paste", network);
  REQUIRE(result.scan.has_value());
  CHECK(result.lines[1].understood == "BCM: misses RAD");
}
