// Outside checks of the generic network codes. Sources: SAE J2012 / ISO 15031-6 as public code lists and service pages
// print it (the standard itself was not read); counts as worked out from those lists.
#include <doctest/doctest.h>

#include <map>
#include <string>
#include <whichwire/code.hpp>

#include "scan/generic_codes.hpp"

using namespace whichwire;

namespace {
CodeKind kind(std::string_view code) { return meaning_of(*parse_code(code)).kind; }
}  // namespace

// ISO 15031-6 / SAE J2012: letter in two bits (P 0, C 1, B 2, U 3), first digit in two, then three hexadecimal digits.
TEST_CASE("codes are sent as SAE J2012 encodes them") {
  CHECK(bytes_of(*parse_code("U0100")) == 0xC100);
  CHECK(bytes_of(*parse_code("U0073")) == 0xC073);
  CHECK(bytes_of(*parse_code("U1000")) == 0xD000);
  CHECK(bytes_of(*parse_code("U2000")) == 0xE000);
  CHECK(bytes_of(*parse_code("U3000")) == 0xF000);
  CHECK(bytes_of(*parse_code("U0100-87")) == 0xC10087);
  CHECK(parse_code("0xC10087") == parse_code("U0100-87"));
}

// Counted over the public lists: of 333 roles that have a lost-communication and an invalid-data code, 287 obey
// invalid = lost + 0x301 and 46 older ones do not. The lists' rows that stand in one list only are not shipped, so the
// table here holds a part of these: never more of either sort, and the exceptions that every list has.
TEST_CASE("the twins of lost communication and invalid data follow the published rule, with its published exceptions") {
  std::map<std::string, std::uint32_t> lost;
  const auto role = [](const GenericCode& row) {
    const bool first = row.subject != "body-control" && (row.qualifier == "a" || row.qualifier == "1");
    return std::string(row.subject) + "/" + (first ? "" : std::string(row.qualifier));
  };
  for (const GenericCode& row : generic_codes())
    if (row.kind == "lost-communication") lost[role(row)] = row.number;
  int regular = 0;
  int exceptions = 0;
  for (const GenericCode& row : generic_codes()) {
    const auto twin = row.kind == "invalid-data" ? lost.find(role(row)) : lost.end();
    if (twin != lost.end()) (row.number == twin->second + 0x301 ? regular : exceptions) += 1;
  }
  CHECK(regular == 239);
  CHECK(regular <= 287);
  CHECK(exceptions == 36);
  CHECK(exceptions <= 46);
}

TEST_CASE("named twins agree, the regular ones and the exceptions") {
  const auto same = [](std::string_view lost, std::string_view invalid) {
    const CodeMeaning a = meaning_of(*parse_code(lost));
    const CodeMeaning b = meaning_of(*parse_code(invalid));
    return a.kind == CodeKind::lost_communication && b.kind == CodeKind::invalid_data && a.subject == b.subject &&
           match(b, a.subject) == RoleMatch::exact;
  };
  CHECK(same("U0100", "U0401"));
  CHECK(same("U0146", "U0447"));
  CHECK(same("U0199", "U049A"));
  CHECK(same("U0265", "U0566"));
  CHECK(same("U0121", "U0415"));
  CHECK(same("U0140", "U0422"));
  CHECK(same("U0155", "U0423"));
  CHECK(same("U0126", "U0428"));
}

// One published service table pairs these types with these codes; another shows U0401-82, U0401-83, U0416-81.
TEST_CASE("published pairs of code and failure type get the meaning that their page gives them") {
  CHECK(kind("U0074-88") == CodeKind::bus_off);
  for (const char* code : {"U0100-87", "U0101-87", "U0125-87", "U0126-87", "U0151-87"})
    CHECK_MESSAGE(kind(code) == CodeKind::lost_communication, code);
  for (const char* code : {"U0401-82", "U0401-83", "U0416-00", "U0416-08", "U0416-81"})
    CHECK_MESSAGE(kind(code) == CodeKind::invalid_data, code);
}

// Public lists: each bus has nine codes in a fixed order, from these first numbers; bus off A to G is U0073 to U0079.
TEST_CASE("bus families begin where the public lists say and keep their order") {
  const char* order[] = {"general",   "performance", "plus-open",
                         "plus-low",  "plus-high",   "minus-open",
                         "minus-low", "minus-high",  "minus-shorted-to-plus"};
  const std::pair<const char*, const char*> families[] = {{"U0001", "can-high-speed"}, {"U0028", "bus-a"},
                                                          {"U0037", "bus-b"},          {"U0046", "bus-c"},
                                                          {"U0055", "bus-d"},          {"U0064", "bus-e"}};
  for (const auto& [first, subject] : families) {
    // The numbers run on in decimal: U0028 to U0036.
    int number = std::stoi(std::string(first).substr(1));
    for (const char* qualifier : order) {
      const std::string code = "U00" + std::string(number < 10 ? "0" : "") + std::to_string(number);
      const CodeMeaning meaning = meaning_of(*parse_code(code));
      CHECK_MESSAGE(meaning.subject == subject, code);
      CHECK_MESSAGE(meaning.qualifier == qualifier, code);
      ++number;
    }
  }
  for (int i = 0; i < 7; ++i) {
    const CodeMeaning off = meaning_of(*parse_code("U00" + std::to_string(73 + i)));
    CHECK(off.kind == CodeKind::bus_off);
    CHECK(off.subject == std::string("bus-") + static_cast<char>('a' + i));
  }
}
