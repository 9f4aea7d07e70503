// What codes say, with their failure type or FMI taken into account.
#include <doctest/doctest.h>

#include <whichwire/code.hpp>

using namespace whichwire;

namespace {
CodeMeaning says(std::string_view code) { return meaning_of(*parse_code(code)); }
CodeKind kind(std::string_view code) { return says(code).kind; }
bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }
}  // namespace

TEST_CASE("a lost-communication code accuses the one that was not heard") {
  const CodeMeaning meaning = says("U0100");
  CHECK(meaning.kind == CodeKind::lost_communication);
  CHECK(meaning.subject == "engine-control");
  CHECK(meaning.qualifier == "a");
  CHECK(meaning.title == "Lost Communication With ECM/PCM A");
  CHECK(
      meaning.explanation ==
      "The module that stores this gets no messages from the engine control A: that one is silent, or the way between "
      "the two is broken.");
  CHECK_FALSE(meaning.about_configuration);
}

TEST_CASE("the failure type turns a lost-communication code round") {
  CHECK(kind("U0100-87") == CodeKind::lost_communication);
  CHECK(kind("U0100-00") == CodeKind::lost_communication);
  CHECK(kind("U0100-08") == CodeKind::lost_communication);
  CHECK(kind("U0100-8F") == CodeKind::lost_communication);
  for (const char* code : {"U0100-81", "U0100-82", "U0100-83", "U0100-84", "U0100-85", "U0100-86", "U0100-29"})
    CHECK_MESSAGE(kind(code) == CodeKind::invalid_data, code);
  CHECK(says("U0100-82").subject == "engine-control");
  CHECK(contains(says("U0100-82").explanation, "Failure type 82: the message counter was wrong or stood still."));
  CHECK(says("U0100-87").standard == "SAE J2012 / ISO 15031-6, failure type by SAE J2012-DA");
}

TEST_CASE("bus off and an inside failure point at the reporter, not at the accused") {
  const CodeMeaning off = says("U0100-88");
  CHECK(off.kind == CodeKind::bus_off);
  CHECK(off.subject.empty());
  const CodeMeaning inside = says("U0100-49");
  CHECK(inside.kind == CodeKind::self);
  CHECK(inside.subject.empty());
  CHECK(inside.qualifier == "self");
}

TEST_CASE("failure types 51 to 57 speak of configuration") {
  for (const char* code : {"U0140-51", "U0140-52", "U0140-54", "U0140-55", "U0140-56", "U0140-57"})
    CHECK_MESSAGE(says(code).about_configuration, code);
  CHECK(says("U0140-55").kind == CodeKind::lost_communication);
  CHECK_FALSE(says("U0140-87").about_configuration);
  CHECK(says("U1402-55").about_configuration);
}

TEST_CASE("an invalid-data code with a missing message is a lost communication") {
  CHECK(kind("U0401") == CodeKind::invalid_data);
  CHECK(kind("U0401-82") == CodeKind::invalid_data);
  CHECK(kind("U0401-87") == CodeKind::lost_communication);
}

TEST_CASE("bus codes name the bus and its line") {
  const CodeMeaning meaning = says("U0003");
  CHECK(meaning.kind == CodeKind::bus_fault);
  CHECK(meaning.subject == "can-high-speed");
  CHECK(meaning.qualifier == "plus-open");
  CHECK(says("U0073").kind == CodeKind::bus_off);
  CHECK(says("U0073").subject == "bus-a");
  CHECK(says("U0001-88").kind == CodeKind::bus_off);
  CHECK(says("U0001-88").subject == "can-high-speed");
  CHECK(says("U0001-11").kind == CodeKind::bus_fault);
}

TEST_CASE("a sensor's complaint that the engine control passes on names both") {
  const CodeMeaning meaning = says("U05A1");
  CHECK(meaning.kind == CodeKind::invalid_data);
  CHECK(meaning.subject == "engine-control");
  CHECK(meaning.qualifier == "received-by:nox-sensor-a");
  CHECK(meaning.explanation ==
        "The NOx sensor A complains that what the engine control sends it is no use; both are alive and hear each "
        "other.");
  CHECK(contains(says("U05A4-87").explanation, "particulate matter sensor complains that it hears nothing"));
}

TEST_CASE("codes about nobody in particular accuse nobody") {
  CHECK(kind("U0300") == CodeKind::software_incompatible);
  CHECK(says("U0300").subject.empty());
  CHECK(kind("U0400") == CodeKind::invalid_data);
  CHECK(says("U0400").subject.empty());
  CHECK(contains(says("U0400").explanation, "not told which"));
}

TEST_CASE("the U3000 codes speak of the reporter's own supply, ground and wake-up") {
  CHECK(says("U3006").kind == CodeKind::self);
  CHECK(says("U3006").qualifier == "self-supply");
  CHECK(says("U3014").qualifier == "self-supply");
  CHECK(says("U3008").qualifier == "self-ground");
  CHECK(says("U3016").qualifier == "self-ground");
  CHECK(says("U3003").qualifier == "vehicle-supply");
  CHECK(says("U3012").qualifier == "self-wake-up");
  CHECK(says("U3000").qualifier == "self");
  CHECK(says("U3000-87").kind == CodeKind::self);
  CHECK(says("U3004").kind == CodeKind::other);
}

TEST_CASE("U1 and U2 are the maker's, and a code without a row says so") {
  CHECK(kind("U1402") == CodeKind::other);
  CHECK(contains(says("U1402").explanation, "maker's own"));
  CHECK(says("U2100-87").standard == "the maker's own, failure type by SAE J2012-DA");
  CHECK(contains(says("U02FF").explanation, "does not have"));
  CHECK(contains(says("P0301").explanation, "powertrain"));
  CHECK(contains(says("B1000").explanation, "body"));
  CHECK(contains(says("C0035").explanation, "chassis"));
}

TEST_CASE("SPN 2000 and up name the module at an address") {
  const CodeMeaning meaning = says("SPN 2011 FMI 9");
  CHECK(meaning.kind == CodeKind::lost_communication);
  CHECK(meaning.subject == "address:11");
  CHECK(contains(meaning.explanation, "usually the brake system"));
  CHECK(meaning.standard == "SAE J1939-73");
  CHECK(kind("SPN 2011") == CodeKind::lost_communication);
  CHECK(kind("SPN 2011 FMI 31") == CodeKind::lost_communication);
  CHECK(kind("SPN 2011 FMI 19") == CodeKind::invalid_data);
  CHECK(kind("SPN 2011 FMI 2") == CodeKind::invalid_data);
  CHECK(kind("SPN 2011 FMI 12") == CodeKind::other);
  CHECK(kind("SPN 2011 FMI 14") == CodeKind::other);
  CHECK(says("SPN 2011 FMI 13").about_configuration);
}

TEST_CASE("network SPNs name a bus or the reporter itself") {
  CHECK(kind("SPN 639 FMI 9") == CodeKind::bus_fault);
  CHECK(says("SPN 639 FMI 9").subject == "j1939-1");
  CHECK(says("SPN 1674").subject == "j1939-10");
  CHECK(kind("SPN 639 FMI 14") == CodeKind::other);
  CHECK(kind("SPN 639 FMI 19") == CodeKind::other);
  CHECK(says("SPN 639 FMI 13").about_configuration);
  CHECK(kind("SPN 1230 FMI 9") == CodeKind::bus_fault);
  CHECK(says("SPN 1230 FMI 9").subject.empty());
  CHECK(kind("SPN 629 FMI 12") == CodeKind::self);
  CHECK(kind("SPN 1484 FMI 11") == CodeKind::other);
}

TEST_CASE("an ordinary SPN accuses nobody, late or not") {
  CHECK(kind("SPN 84 FMI 9") == CodeKind::other);
  CHECK(contains(says("SPN 84 FMI 19").explanation, "does not tell which module sends it"));
  CHECK(contains(says("SPN 520192 FMI 9").explanation, "maker"));
  CHECK(says("SPN 520192 FMI 9").subject.empty());
}
