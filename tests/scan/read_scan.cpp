// The JSON reader and writer of scans.
#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;

namespace {

std::string with(std::string_view insides) {
  return "{ \"format\": \"whichwire.scan.v1\", " + std::string(insides) + " }";
}

std::string said(std::string_view insides, const Network* network = &test::van()) {
  const ScanResult result = read_scan(with(insides), "scan", network);
  CHECK(result.scan.has_value() == result.mistakes.empty());
  CHECK(result.lines.empty());
  std::string all;
  for (const Mistake& mistake : result.mistakes) all += mistake.path + ": " + mistake.message + "\n";
  return all;
}

Scan read(std::string_view insides, const Network* network = &test::van()) {
  const ScanResult result = read_scan(with(insides), "scan", network);
  REQUIRE(result.scan.has_value());
  return *result.scan;
}

}  // namespace

TEST_CASE("every key of a scan is read") {
  const Scan scan = read(R"(
    "unit": "V-117", "taken": "2026-03-02T09:14:00Z", "key": "off", "battery_volts": 12.5, "tool_has_own_battery": true,
    "modules": [
      { "module": "TCM", "answer": "yes", "codes": [
        { "code": "U0100-87", "state": "current", "text": "no messages", "volts": 9.5 },
        { "code": "U0121", "status": "28" },
        { "text": "misses the engine", "misses": "ECM" } ] },
      { "module": "ECM", "answer": "no" } ],
    "functions": [ { "function": "crank", "works": false } ])");
  CHECK(scan.name == "scan");
  CHECK(scan.unit == "V-117");
  CHECK(scan.taken == "2026-03-02T09:14:00Z");
  CHECK(scan.key == KeyState::off);
  CHECK(scan.key_stated);
  CHECK(scan.battery_volts == 12.5);
  CHECK(scan.tool_has_own_battery);
  REQUIRE(scan.modules.size() == 2);
  CHECK(scan.modules[1].answer == Answer::no);
  REQUIRE(scan.modules[0].codes.size() == 3);
  const CodeSeen& first = scan.modules[0].codes[0];
  CHECK(first.written == "U0100-87");
  CHECK(first.code == parse_code("U0100-87"));
  CHECK(first.state == CodeState::current);
  CHECK(first.text == "no messages");
  CHECK(first.volts == 9.5);
  CHECK(scan.modules[0].codes[1].status == 0x28);
  CHECK(scan.modules[0].codes[1].state == CodeState::history);
  CHECK(scan.modules[0].codes[2].misses == "ECM");
  CHECK(scan.modules[0].codes[2].written.empty());
  REQUIRE(scan.functions.size() == 1);
  CHECK(scan.functions[0].function == "crank");
  CHECK_FALSE(scan.functions[0].works);
}

TEST_CASE("every answer and every state has its word") {
  for (const Answer answer :
       {Answer::yes, Answer::no, Answer::refused, Answer::not_fitted, Answer::not_reachable, Answer::not_polled}) {
    const std::string word(word_for(answer));
    CHECK(read(R"("modules": [ { "module": "ECM", "answer": ")" + word + R"(" } ])").modules[0].answer == answer);
  }
  for (const CodeState state :
       {CodeState::current, CodeState::pending, CodeState::history, CodeState::not_tested, CodeState::unknown}) {
    const std::string word(word_for(state));
    const Scan scan =
        read(R"("modules": [ { "module": "ECM", "answer": "yes", "codes": [ { "code": "U0101", "state": ")" + word +
             R"(" } ] } ])");
    CHECK(scan.modules[0].codes[0].state == state);
  }
}

TEST_CASE("what a scan does not state is not known") {
  const Scan scan = read(R"("modules": [ { "module": "ECM", "answer": "yes", "codes": [ { "code": "U0101" } ] } ])");
  CHECK_FALSE(scan.key_stated);
  CHECK(scan.key == KeyState::run);
  CHECK_FALSE(scan.battery_volts.has_value());
  CHECK_FALSE(scan.tool_has_own_battery);
  CHECK(scan.modules[0].codes[0].state == CodeState::unknown);
}

TEST_CASE("a module is found by id, name, alias and role") {
  for (const char* name : {"ECM", "ecm", "engine control module", "Engine computer", "engine-control", "PCM"}) {
    CAPTURE(name);
    CHECK(read(R"("modules": [ { "module": ")" + std::string(name) + R"(", "answer": "no" } ])").modules[0].module ==
          "ECM");
  }
}

TEST_CASE("a module that the network does not know is kept as written") {
  const Scan scan = read(R"("modules": [ { "module": "Roof hatch", "answer": "no" } ])");
  CHECK(scan.modules[0].module == "Roof hatch");
  CHECK(read(R"("modules": [ { "module": "engine computer", "answer": "no" } ])", nullptr).modules[0].module ==
        "engine computer");
}

TEST_CASE("a module named twice is a mistake, by whatever names, and so is a name that fits two") {
  CHECK(
      said(R"("modules": [ { "module": "ECM", "answer": "no" }, { "module": "engine computer", "answer": "yes" } ])") ==
      "modules[1].module: the module `ECM` is listed already (the first is in line 1)\n");
  CHECK(said(R"("modules": [ { "module": "door module", "answer": "no" } ])") ==
        "modules[0].module: `door module` may be `DDM` or `PDM`; say which by its id\n");
}

TEST_CASE("a function that the network does not have is a mistake; its name does as well as its id") {
  CHECK(said(R"("modules": [], "functions": [ { "function": "crankk", "works": true } ])") ==
        "functions[0].function: the network has no function `crankk`; did you mean `crank`?\n");
  CHECK(read(R"("modules": [], "functions": [ { "function": "starter cranks", "works": true } ])")
            .functions[0]
            .function == "crank");
  CHECK(said(R"("modules": [], "functions": [ { "function": "anything", "works": true } ])", nullptr).empty());
}

TEST_CASE("a status byte is two hexadecimal digits") {
  const auto status = [](const std::string& text) {
    return R"("modules": [ { "module": "ECM", "answer": "yes", "codes": [ { "code": "U0101", "status": ")" + text +
           R"(" } ] } ])";
  };
  CHECK(read(status("2F")).modules[0].codes[0].status == 0x2F);
  CHECK(read(status("0x08")).modules[0].codes[0].status == 0x08);
  CHECK(said(status("2G")) ==
        "modules[0].codes[0].status: `2G` is no status byte: two hexadecimal digits, as in `2F`\n");
  CHECK(said(status("123")) != "");
}

TEST_CASE("a stated state counts more than the status byte beside it") {
  const Scan scan = read(
      R"("modules": [ { "module": "ECM", "answer": "yes", "codes": [ { "code": "U0101", "status": "28", "state": "current" } ] } ])");
  CHECK(scan.modules[0].codes[0].state == CodeState::current);
}

TEST_CASE("a mistyped network code is a mistake, a maker's own code is not") {
  const auto code = [](const std::string& text) {
    return R"("modules": [ { "module": "ECM", "answer": "yes", "codes": [ { "code": ")" + text + R"(" } ] } ])";
  };
  CHECK(said(code("U01O0")).find("is no network code") != std::string::npos);
  CHECK(said(code("U010")).find("is no network code") != std::string::npos);
  CHECK(said(code("F3-12")).empty());
  CHECK(said(code("Undervoltage")).empty());
  CHECK_FALSE(read(code("F3-12")).modules[0].codes[0].code.has_value());
}

TEST_CASE("who is missed is a module, or a role that no module has") {
  const auto misses = [](const std::string& who) {
    return R"("modules": [ { "module": "ECM", "answer": "yes", "codes": [ { "misses": ")" + who + R"(" } ] } ])";
  };
  CHECK(read(misses("gearbox computer")).modules[0].codes[0].misses == "TCM");
  CHECK(read(misses("transfer-case")).modules[0].codes[0].misses == "transfer-case");
}

TEST_CASE("all mistakes of a scan are said at once") {
  const ScanResult result =
      read_scan("{ \"format\": \"whichwire.scan.v2\",\n \"modles\": [],\n \"key\": \"on\",\n \"battery_volts\": 125 }",
                "scan", &test::van());
  CHECK_FALSE(result.scan.has_value());
  REQUIRE(result.mistakes.size() == 5);
  CHECK(result.mistakes[0].line == 1);
  CHECK(result.mistakes[4].line == 4);
}

TEST_CASE("what is written is read back the same") {
  Scan scan;
  scan.name = "scan";
  scan.unit = "V-1 \"old\"";
  scan.taken = "2026-03-02";
  scan.key = KeyState::start;
  scan.key_stated = true;
  scan.battery_volts = 11.9;
  scan.tool_has_own_battery = true;
  for (const Answer answer :
       {Answer::yes, Answer::no, Answer::refused, Answer::not_fitted, Answer::not_reachable, Answer::not_polled})
    scan.modules.push_back({"M" + std::to_string(scan.modules.size()), answer, {}});
  for (int status = -1; status < 256; status += 5) {
    for (const CodeState state :
         {CodeState::current, CodeState::pending, CodeState::history, CodeState::not_tested, CodeState::unknown}) {
      CodeSeen code;
      code.code = Code{'U', static_cast<std::uint32_t>(0x100 + status + 1), 0x87};
      code.written = text_of(*code.code);
      if (status >= 0) code.status = static_cast<std::uint8_t>(status);
      code.state = state;
      if (status % 2 == 0) code.volts = 9.1;
      if (status % 3 == 0) code.text = "wörds\tor not";
      scan.modules[0].codes.push_back(code);
    }
  }
  CodeSeen sentence;
  sentence.misses = "M1";
  sentence.text = "no messages";
  scan.modules[2].codes.push_back(sentence);
  scan.functions.push_back({"crank", false});
  scan.functions.push_back({"lamp", true});
  scan.vehicle = {"Hollin", "Moor", "", 2018};
  scan.complaint = "does not crank";
  for (CodeSeen& code : scan.modules[0].codes)
    if (code.text.find('\t') != std::string::npos) code.text = "wörds or not";
  const ScanResult again = read_scan(json_of(scan), "scan", nullptr);
  for (const Mistake& mistake : again.mistakes) MESSAGE(text_of(mistake));
  REQUIRE(again.scan.has_value());
  CHECK((*again.scan == scan));
  CHECK(json_of(scan).ends_with("}\n"));
}
