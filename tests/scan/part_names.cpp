// Modules by a part of their names, and whose a line is where its name is not known: a code or an answer is never taken
// for the module of the line above when the line has a name of its own. The texts are made up.
#include "scan/part_names.hpp"

#include "scan/van.hpp"
#include "shipped.hpp"

using namespace whichwire;
using test::understood;

namespace {

/// Ids of the modules that the words may mean.
std::string meant(const Network& network, std::string_view words) {
  std::string all;
  for (const NameHit& hit : PartNames(network).find(words))
    all += (all.empty() ? "" : " ") + network.modules[hit.module].id;
  return all;
}

}  // namespace

TEST_CASE("a part of a name tells the module that it fits alone") {
  const Network car = test::shipped("compact-car");
  CHECK(meant(car, "Body") == "BCM");
  CHECK(meant(car, "Heating") == "HVAC");
  CHECK(meant(car, "brakes") == "ABS");
  CHECK(meant(car, "Parking") == "PDC");
  CHECK(meant(car, "air conditioning") == "HVAC");
  CHECK(meant(car, "Sliding door").empty());
}

TEST_CASE("a part that fits several modules tells all of them, unless it is the whole of one's own name") {
  const Network car = test::shipped("electric-car");
  CHECK(meant(car, "Heater") == "HTR HVAC BLW HSW");
  CHECK(meant(car, "Door") == "DDM PDM RLD RRD");
  CHECK(meant(car, "Body") == "BCMF");  // its own alias is `body computer`
  CHECK(meant(car, "Rear body") == "BCMR");
  CHECK(meant(test::shipped("ring-saloon"), "Body") == "BCM");  // and not the rear body module
}

TEST_CASE("words that many names begin with tell nobody") {
  const Network car = test::shipped("electric-car");
  for (const char* words : {"Front", "rear left", "power", "Driver", "main", "module", "control unit", "3", ""}) {
    CAPTURE(words);
    CHECK(meant(car, words).empty());
  }
}

TEST_CASE("what is taken by a part of a name is said, and marked to be looked at again") {
  const ScanResult result = read_pasted_scan("TCM ok\nBody ....... ok   U0121-87 active\n", "paste", test::van());
  REQUIRE(result.scan.has_value());
  CHECK(result.lines[0].doubt == LineDoubt::none);
  CHECK(result.lines[1].understood == "`Body` taken as BCM: answers; U0121-87 current (misses ABS)");
  CHECK(result.lines[1].doubt == LineDoubt::named_in_part);
  CHECK(test::seen(*result.scan, "TCM")->codes.empty());
  REQUIRE(test::seen(*result.scan, "BCM") != nullptr);
  CHECK(test::seen(*result.scan, "BCM")->codes.size() == 1);
}

TEST_CASE("a part that fits two modules is told and not taken, nor is what stands below it") {
  const ScanResult result =
      read_pasted_scan("TCM ok\nDoors ... ok U0140 active\n  U0155 stored\nABS ok\n", "paste", test::van());
  REQUIRE(result.scan.has_value());
  CHECK(result.lines[1].understood.starts_with("`Doors` may be DDM or PDM, so this is not taken"));
  CHECK(result.lines[1].doubt == LineDoubt::not_taken);
  CHECK(result.lines[2].doubt == LineDoubt::not_taken);
  for (const ModuleSeen& one : result.scan->modules) CHECK(one.codes.empty());
}

TEST_CASE("a line with a name of its own gives nothing to the module above") {
  for (const char* line : {"Sliding door ... ok   U0121-87 active", "Sliding door: silent", "Sliding door  2 codes",
                           "[ok] Sliding door   1 code   U0121", "Sliding door | answers | U0121"}) {
    CAPTURE(line);
    const Scan scan = test::pasted("TCM ok U0100 active\n" + std::string(line) + "\n");
    REQUIRE(test::seen(scan, "TCM") != nullptr);
    CHECK(test::seen(scan, "TCM")->answer == Answer::yes);
    CHECK(test::seen(scan, "TCM")->codes.size() == 1);
    CHECK(test::seen(scan, "Sliding door") != nullptr);
  }
}

TEST_CASE("in a table without answers a name that is not known keeps its codes") {
  const Scan scan = test::pasted("TCM\tU0100\tactive\nSliding door\tU0121\tactive\n");
  CHECK(test::seen(scan, "TCM")->codes.size() == 1);
  REQUIRE(test::seen(scan, "Sliding door") != nullptr);
  CHECK(test::seen(scan, "Sliding door")->codes.size() == 1);
}

TEST_CASE("a name that is not known, alone in its line, keeps what stands below it") {
  const Scan scan = test::pasted("TCM\n  U0100 active\nYaw box\n  U0121 active\n\nFridge\n  no codes\n");
  CHECK(test::seen(scan, "TCM")->codes.size() == 1);
  REQUIRE(test::seen(scan, "Yaw box") != nullptr);
  CHECK(test::seen(scan, "Yaw box")->codes.size() == 1);
  CHECK(test::seen(scan, "Fridge")->answer == Answer::yes);
}

TEST_CASE("a name in the middle of a line keeps its code too") {
  const Scan scan = test::pasted("TCM has U0100 stored; front seat U0121 active; ABS U0155\n");
  CHECK(test::seen(scan, "TCM")->codes.size() == 1);
  CHECK(test::seen(scan, "ABS")->codes.size() == 1);
  REQUIRE(test::seen(scan, "front seat") != nullptr);
  CHECK(test::seen(scan, "front seat")->codes[0].written == "U0121");
}

TEST_CASE("a module that a code before accuses is the next one's reporter where it leads a code itself") {
  CHECK(understood("BCM U0100 active, ECM has U0155 stored\n") ==
        "BCM: answers; U0100 current (misses ECM); ECM: answers; U0155 history (misses IPC)\n");
}

TEST_CASE("codes wait for a module below them only where the text puts codes first") {
  const Scan scan = test::pasted("U0100 active\nTCM ok U0121 stored\nABS ok\n");
  CHECK(test::seen(scan, "TCM")->codes.size() == 1);
  const Scan from = test::pasted("U0100 (active) from somewhere\nU0155 (active) from TCM\n");
  REQUIRE(from.modules.size() == 1);
  CHECK(from.modules[0].codes.size() == 1);
}

TEST_CASE("each answer of a list goes with the name in its own clause") {
  const Scan scan = test::pasted("gw2 ok / TCM ok / ABS no comms / EPS ok / SRS silent\n");
  CHECK(test::seen(scan, "TCM")->answer == Answer::yes);
  CHECK(test::seen(scan, "ABS")->answer == Answer::no);
  CHECK(test::seen(scan, "EPS")->answer == Answer::yes);
  CHECK(test::seen(scan, "SRS")->answer == Answer::no);
}

TEST_CASE("what is said of something else in a module is no answer of it") {
  const Scan scan = test::pasted("ABS: no response\npower ok at ABS, ground ok at ABS\n");
  CHECK(test::seen(scan, "ABS")->answer == Answer::no);
}

TEST_CASE("a status that is of nobody known is no heading for the modules that follow") {
  const Scan scan = test::pasted("Doors\nstatus: no communication\nTCM\n  U0100\nABS\nno codes\n");
  CHECK(test::seen(scan, "TCM")->answer == Answer::yes);
  CHECK(test::seen(scan, "ABS")->answer == Answer::yes);
}

TEST_CASE("a name and an address of two modules are told and not taken") {
  CHECK(understood("BCM SA 33 ok\nBCM SA 19 silent\n") ==
        "BCM: answers\n`BCM` may be BCM or EPS, so this is not taken: no answer\n");
}

TEST_CASE("a name that was not read in a list of modules is marked to be looked at again") {
  const ScanResult result = read_pasted_scan("silent: TCM, rear seat screen, ABS\n", "paste", test::van());
  CHECK(result.lines[0].doubt == LineDoubt::not_taken);
  CHECK(result.lines[0].understood == "TCM: no answer; ABS: no answer; not read: `rear seat screen`");
}

TEST_CASE("the battery's volts are no module's answer, though modules are named after a battery") {
  const Network car = test::shipped("electric-car");
  const ScanResult read = read_pasted_scan("Battery: 12.6 V, ok\nABS ok\n", "paste", car);
  REQUIRE(read.scan.has_value());
  CHECK(read.scan->battery_volts == 12.6);
  CHECK(read.scan->modules.size() == 1);
}

TEST_CASE("the volts of a 12 volt battery are those that stand behind it") {
  CHECK(test::pasted("the 12 volt battery at 12.6\nTCM ok\n").battery_volts == 12.6);
  CHECK(test::pasted("12 V battery\nTCM ok\n").battery_volts == 12);
}

TEST_CASE("a value with its key is no name, and a heading between rules is no text of the code above") {
  const Scan scan =
      test::pasted("1. TCM\n   Connection: fair\n   Fault 1: U0100, active\n--- Fridge ---\nAnswer: yes\n");
  CHECK(test::seen(scan, "TCM")->codes.size() == 1);
  CHECK(test::seen(scan, "TCM")->codes[0].text.empty());
  REQUIRE(test::seen(scan, "Fridge") != nullptr);
  CHECK(test::seen(scan, "Fridge")->answer == Answer::yes);
}

TEST_CASE("codes below a line of something else, further in, are not the module's above") {
  for (const char* line : {"Wipers: ok", "Seat belt ok"}) {
    CAPTURE(line);
    const Scan scan = test::pasted("TCM ok\n" + std::string(line) + "\n  B1320 stored\n");
    CHECK(test::seen(scan, "TCM")->codes.empty());
  }
}

TEST_CASE("a name further in than the code above it is that code's text; one further out is not") {
  const Scan in = test::pasted("TCM\n  U0100\n    Engine\n    active\n  U0121\n    Brake control module\n    stored\n");
  REQUIRE(in.modules.size() == 1);
  REQUIRE(in.modules[0].codes.size() == 2);
  CHECK(in.modules[0].codes[0].text == "Engine");
  CHECK(in.modules[0].codes[0].state == CodeState::current);
  CHECK(in.modules[0].codes[1].text == "Brake control module");
  CHECK(in.modules[0].codes[1].state == CodeState::history);
  const Scan out = test::pasted(" ENGINE\n   U0121\n BODY\n   U0121\n YAW\n   U0155\n");
  REQUIRE(out.modules.size() == 3);
  for (const ModuleSeen& one : out.modules) CHECK(one.codes.size() == 1);
}
