// Pasted text, rule by rule: each test is one thing that a layout may do.
#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;
using test::understood;

TEST_CASE("a module with codes and no word for its answer has answered") {
  CHECK(test::pasted("TCM\nU0100").modules[0].answer == Answer::yes);
  CHECK(understood("TCM U0100\n") == "TCM: answers; U0100 (misses ECM)\n");
}

TEST_CASE("a module that a sentence only speaks of is not thereby polled") {
  const Scan scan =
      test::pasted("TCM: no messages from the engine computer\nABS U0155 lost communication with the dash");
  CHECK(test::seen(scan, "ECM") == nullptr);
  CHECK(test::seen(scan, "IPC") == nullptr);
  REQUIRE(test::seen(scan, "TCM") != nullptr);
  CHECK(test::seen(scan, "TCM")->codes[0].misses == "ECM");
  CHECK(test::seen(scan, "ABS")->codes[0].misses.empty());
}

TEST_CASE("sentences in many words say that a module is missed") {
  for (const char* sentence :
       {"no messages from ECM", "lost communication with the engine computer", "does not hear ECM",
        "ECM messages missing", "message timeout from ECM", "messages from ECM not received",
        "hears nothing from the engine control module", "ECM missing", "keine Botschaft vom Motorsteuergerät"}) {
    CAPTURE(sentence);
    const Scan scan = test::pasted("TCM: " + std::string(sentence));
    REQUIRE(scan.modules.size() == 1);
    CHECK(scan.modules[0].module == "TCM");
    REQUIRE(scan.modules[0].codes.size() == 1);
    CHECK(scan.modules[0].codes[0].misses == "ECM");
    CHECK(scan.modules[0].codes[0].written.empty());
  }
}

TEST_CASE("a sentence about two modules is two statements") {
  const Scan scan = test::pasted("IPC: no messages from TCM and ABS (active)");
  REQUIRE(scan.modules[0].codes.size() == 2);
  CHECK(scan.modules[0].codes[0].misses == "TCM");
  CHECK(scan.modules[0].codes[1].misses == "ABS");
  CHECK(scan.modules[0].codes[1].state == CodeState::current);
}

TEST_CASE("no answer from somebody is the tester's word unless a module stands before it") {
  CHECK(understood("No response from ECM\n") == "ECM: no answer\n");
  CHECK(understood("TCM: no response from ECM\n") == "TCM: answers; misses ECM\n");
  CHECK(understood("TCM ok, but no response from ECM\n") == "TCM: answers; ECM: no answer\n");
}

TEST_CASE("a sentence that nobody says is not placed") {
  CHECK(understood("lost communication with ECM\nTCM ok\n") == "?\nTCM: answers\n");
}

TEST_CASE("answer words in two languages give the answers") {
  const std::pair<const char*, Answer> words[] = {{"answers", Answer::yes},
                                                  {"OK", Answer::yes},
                                                  {"present", Answer::yes},
                                                  {"2 faults", Answer::yes},
                                                  {"no codes", Answer::yes},
                                                  {"antwortet", Answer::yes},
                                                  {"no response", Answer::no},
                                                  {"not responding", Answer::no},
                                                  {"no communication", Answer::no},
                                                  {"silent", Answer::no},
                                                  {"time-out", Answer::no},
                                                  {"keine Antwort", Answer::no},
                                                  {"not fitted", Answer::not_fitted},
                                                  {"not installed", Answer::not_fitted},
                                                  {"not equipped", Answer::not_fitted},
                                                  {"nicht verbaut", Answer::not_fitted},
                                                  {"refused", Answer::refused},
                                                  {"locked", Answer::refused},
                                                  {"negative response", Answer::refused},
                                                  {"not reachable", Answer::not_reachable},
                                                  {"not polled", Answer::not_polled},
                                                  {"skipped", Answer::not_polled}};
  for (const auto& [said, answer] : words) {
    const std::string word = said;
    CAPTURE(word);
    CHECK(test::pasted("ECM " + word).modules[0].answer == answer);
    CHECK(test::pasted(word + ": ECM").modules[0].answer == answer);
    CHECK(test::pasted("| " + word + " | ECM |").modules[0].answer == answer);
  }
}

TEST_CASE("state words in two languages give the states") {
  const std::pair<const char*, CodeState> words[] = {
      {"active", CodeState::current},        {"present", CodeState::current},
      {"aktuell", CodeState::current},       {"pending", CodeState::pending},
      {"stored", CodeState::history},        {"intermittent", CodeState::history},
      {"past", CodeState::history},          {"confirmed", CodeState::history},
      {"sporadic", CodeState::history},      {"gespeichert", CodeState::history},
      {"not present", CodeState::history},   {"permanent", CodeState::unknown},
      {"not tested", CodeState::not_tested}, {"stored, active", CodeState::current}};
  for (const auto& [said, state] : words) {
    const std::string word = said;
    CAPTURE(word);
    CHECK(test::pasted("ECM U0101-87 " + word).modules[0].codes[0].state == state);
  }
}

TEST_CASE("a state may stand before its codes and hold for several") {
  const Scan scan = test::pasted("ECM: active U0101, U0121; stored U0140");
  REQUIRE(scan.modules[0].codes.size() == 3);
  CHECK(scan.modules[0].codes[0].state == CodeState::current);
  CHECK(scan.modules[0].codes[1].state == CodeState::current);
  CHECK(scan.modules[0].codes[2].state == CodeState::history);
}

TEST_CASE("battery, key, own battery, unit and time are read once and kept") {
  const Scan scan = test::pasted(
      "Unit: V-7\nTaken: 2026-03-02 09:14\nBattery 12,4 V\nkey off\ntester has its own battery\nECM ok\nBattery 9 "
      "V\nkey on\n");
  CHECK(scan.unit == "V-7");
  CHECK(scan.taken == "2026-03-02 09:14");
  CHECK(scan.battery_volts == 12.4);
  CHECK(scan.key == KeyState::off);
  CHECK(scan.key_stated);
  CHECK(scan.tool_has_own_battery);
}

TEST_CASE("five volts in a code's text are no supply, a voltage of its own is") {
  CHECK_FALSE(test::pasted("ECM P0641 5 V reference low").modules[0].codes[0].volts.has_value());
  CHECK(test::pasted("ECM U0101 (9.1 V)").modules[0].codes[0].volts == 9.1);
  CHECK(test::pasted("ECM\nU0101\nvoltage 9.1 V").modules[0].codes[0].volts == 9.1);
}

TEST_CASE("the supply is read in every usual writing, wherever it stands") {
  for (const char* line :
       {"supply 12.7 V", "Supply: 12.7V", "12.7 VOLTS", "battery: 12,7 V", "BATTERY 12.7", "Bat. 12.7 volts",
        "12.7 V at the battery", "battery 60 Ah 12.7 V", "Terminal 30: 12.7 V", "Supply 12.7V - ignition on"}) {
    CAPTURE(line);
    CHECK(test::pasted(std::string(line) + "\nECM ok").battery_volts == 12.7);
    CHECK(test::pasted("ECM\n  U0101 current\n\n" + std::string(line) + "\n").battery_volts == 12.7);
  }
  CHECK(test::pasted("ECM ok\nTCM U0100 current\nsupply 12.7 V").battery_volts == 12.7);
}

TEST_CASE("amperes, per cent and part numbers beside the battery are no volts") {
  for (const char* line : {"Battery 60 Ah", "Battery: 55 %", "battery 12 months old", "Battery 2023"}) {
    CAPTURE(line);
    CHECK_FALSE(test::pasted(std::string(line) + "\nECM ok").battery_volts.has_value());
  }
}

TEST_CASE("a second supply that differs is said, never dropped in silence") {
  const std::string read = test::understood("Battery 12.4 V\nECM ok\n\n12.7 V, key on\n");
  CHECK(read.find("an earlier line's battery is kept") != std::string::npos);
}

TEST_CASE("a short unit in a heading is the unit, whatever stands around it") {
  for (const char* line : {"V-117: key on, engine off, 12.4 V at the battery", "MODULE SCAN   V-117",
                           "Pre-scan of V-117. Key on. Battery 12.5 V.", "scan\tV-117\t05.03.2026 11:20",
                           "V-117 *** ALL MODULE POLL *** BATTERY 12.5 VOLTS", "Unit V-117"}) {
    CAPTURE(line);
    CHECK(test::pasted(std::string(line) + "\nECM ok").unit == "V-117");
  }
}

TEST_CASE("a module that the network does not have keeps its short name in brackets") {
  const Scan scan = test::pasted("ECM ok\nSteering wheel heater (HSW): no answer\n");
  REQUIRE(scan.modules.size() == 2);
  CHECK(scan.modules[1].module == "Steering wheel heater (HSW)");
  CHECK(scan.modules[1].answer == Answer::no);
}

TEST_CASE("a word to begin with is no answer of the module named next") {
  const Scan scan = test::pasted("Okay so ECM is dead, TCM answers");
  CHECK(test::seen(scan, "ECM")->answer == Answer::no);
  CHECK(test::seen(scan, "TCM")->answer == Answer::yes);
  CHECK(test::seen(test::pasted("OK ECM"), "ECM")->answer == Answer::yes);
}

TEST_CASE("a failure type behind a slash is the code's, and the state behind it too") {
  const Scan scan = test::pasted("TCM: U0100/87 (active), U0401/81 (stored)");
  REQUIRE(scan.modules[0].codes.size() == 2);
  CHECK(scan.modules[0].codes[0].written == "U0100-87");
  CHECK(scan.modules[0].codes[1].written == "U0401-81");
  CHECK(scan.modules[0].codes[1].state == CodeState::history);
}

TEST_CASE("a bus as a heading is one whatever stands in brackets beside it") {
  const Scan scan = test::pasted("ECM no answer\nBody bus (125k):\nall others answer\n");
  CHECK(test::understood("ECM ok\nBody bus (125k):\n") == "ECM: answers\nheading: bus BDY; not read: `125k`\n");
  CHECK(test::seen(scan, "ECM")->answer == Answer::no);
}

TEST_CASE("the tester's own sentences say that somebody does not answer") {
  for (const char* line :
       {"Can't get into the engine computer", "cannot talk to ECM", "no comms with ECM", "Couldn\u2019t reach ECM",
        "ECM won't talk", "ECM doesn't communicate", "ECM isn't answering", "unable to connect to ECM"}) {
    CAPTURE(line);
    CHECK(test::seen(test::pasted(line), "ECM")->answer == Answer::no);
  }
}

TEST_CASE("a name that fits two modules is said to, and nothing is taken from it") {
  const ScanResult result = read_pasted_scan("Door module: no response\nU0140\nECM ok", "paste", test::van());
  CHECK(result.lines[0].understood == "`Door module` may be DDM or PDM, so this is not taken: no answer");
  CHECK(result.lines[1].understood.find("not taken") != std::string::npos);
  CHECK(result.scan->modules.size() == 1);
}

TEST_CASE("codes below a name that the network does not know are that one's, not the last module's") {
  const Scan scan = test::pasted("ECM ok\nRoof hatch module: U0140 active\nU0155\nTCM ok");
  CHECK(test::seen(scan, "ECM")->codes.empty());
  REQUIRE(test::seen(scan, "Roof hatch module") != nullptr);
  CHECK(test::seen(scan, "Roof hatch module")->codes.size() == 2);
}

TEST_CASE("codes after a line of several modules are nobody's and are not placed") {
  const ScanResult result = read_pasted_scan("ECM ok, TCM ok\nU0140\n", "paste", test::van());
  CHECK(result.lines[1].understood.empty());
  for (const ModuleSeen& module : result.scan->modules) CHECK(module.codes.empty());
}

TEST_CASE("codes before their module are told from codes after it by the whole text") {
  const Scan before = test::pasted("U0140 active\nTCM\nU0155 active\nABS\n");
  REQUIRE(test::seen(before, "TCM") != nullptr);
  CHECK(test::seen(before, "TCM")->codes[0].written == "U0140");
  CHECK(test::seen(before, "ABS")->codes[0].written == "U0155");
  const Scan after = test::pasted("Reason: U0140\nTCM\nU0155 active\nABS\nU0101\n");
  CHECK(test::seen(after, "TCM")->codes[0].written == "U0155");
  CHECK(test::seen(after, "ABS")->codes[0].written == "U0101");
}

TEST_CASE("an answer that a later line gives otherwise is said, and the living one holds") {
  const ScanResult result = read_pasted_scan("ECM no response\nECM answers\n", "paste", test::van());
  CHECK(result.lines[1].understood == "ECM: answers; an earlier line says: no answer, taken: answers");
  CHECK(result.scan->modules[0].answer == Answer::yes);
}

TEST_CASE("a code listed twice is one code, and the line that tells its state counts") {
  const Scan scan = test::pasted("ECM U0101\nECM U0101 active\nECM U0101 stored\n");
  REQUIRE(scan.modules[0].codes.size() == 2);
  CHECK(scan.modules[0].codes[0].state == CodeState::current);
  CHECK(scan.modules[0].codes[1].state == CodeState::history);
}

TEST_CASE("all others answer, but optional modules and those that were told of") {
  const Scan scan = test::pasted("ECM silent\nEverything else answers\n");
  CHECK(test::seen(scan, "ECM")->answer == Answer::no);
  CHECK(test::seen(scan, "TCM")->answer == Answer::yes);
  CHECK(test::seen(scan, "PAM") == nullptr);
}

TEST_CASE("a short id that is also a word counts only where it is written as an id") {
  Network network = test::van();
  network.modules[test::module("RAD")].id = "IS";
  const ScanResult result = read_pasted_scan("ECM is ok\nIS no response, said the tester\n", "paste", network);
  REQUIRE(result.scan.has_value());
  REQUIRE(result.scan->modules.size() == 2);
  CHECK(result.scan->modules[0].module == "ECM");
  CHECK(result.scan->modules[1].module == "IS");
}

TEST_CASE("a text that names no module of the network is refused, with its lines") {
  const ScanResult result = read_pasted_scan("Hello\nthere\n", "paste", test::van());
  CHECK_FALSE(result.scan.has_value());
  REQUIRE(result.mistakes.size() == 1);
  CHECK(result.mistakes[0].message == "no line of this text says anything about a module of the network");
  CHECK(result.lines.size() == 2);
}

TEST_CASE("too much text is refused, and a line too long for a line is not placed") {
  const ScanResult result = read_pasted_scan(std::string((std::size_t{1} << 20U) + 1, 'x'), "paste", test::van());
  CHECK(result.mistakes[0].message == "this text has 1048577 bytes; at most 1048576 are read");
  const ScanResult line = read_pasted_scan("ECM ok\nTCM ok " + std::string(3000, 'x') + "\n", "paste", test::van());
  CHECK(line.lines[1].understood.empty());
  CHECK(line.scan->modules.size() == 1);
}

TEST_CASE("control characters never come back raw") {
  const ScanResult result = read_pasted_scan(
      "ECM ok\x1b[31m\n\x07Roof hatch module\x1b]0;x: no response\nUnit: \x1b[2J\n", "paste", test::van());
  std::string all = json_of(*result.scan);
  for (const LineRead& line : result.lines) all += line.text + line.understood;
  for (const char c : all) CHECK((c == '\n' || static_cast<unsigned char>(c) >= 0x20));
}
