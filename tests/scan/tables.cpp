// The compiled-in tables are whole: no row lost on the way, nothing that is not a row.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <whichwire/code.hpp>

#include "scan/code_tables.hpp"
#include "scan/generic_codes.hpp"
#include "scan/table.hpp"

using namespace whichwire;

TEST_CASE("cells end at commas, quotes keep a comma, comments and the heading are left out") {
  const auto rows = rows_of<3>("# remark, with comma\na,b,c\n1,\"x, y\",3\n\n# more\n4,,\n5");
  REQUIRE(rows.size() == 3);
  CHECK(rows[0][1] == "x, y");
  CHECK(rows[0][2] == "3");
  CHECK(rows[1][0] == "4");
  CHECK(rows[1][2].empty());
  CHECK(rows[2][0] == "5");
}

TEST_CASE("the table of generic codes has every row of high and medium confidence, once") {
  const auto& codes = generic_codes();
  CHECK(codes.size() == 772);
  std::set<std::uint32_t> numbers;
  for (const GenericCode& row : codes) {
    CHECK(numbers.insert(row.number).second);
    CHECK_FALSE(row.title.empty());
    CHECK_FALSE(row.subject.empty());
  }
  CHECK(find_generic_code(0x0100)->subject == "engine-control");
  CHECK(find_generic_code(0x1000) == nullptr);
}

TEST_CASE("every row of the generic table gets a kind, a title, an explanation and a standard") {
  for (const GenericCode& row : generic_codes()) {
    const CodeMeaning meaning = meaning_of({'U', row.number, std::nullopt});
    CHECK_MESSAGE(meaning.title == row.title, row.title);
    CHECK_MESSAGE(meaning.explanation.ends_with('.'), row.title);
    CHECK_MESSAGE(meaning.standard == "SAE J2012 / ISO 15031-6", row.title);
    const bool about_nothing = row.subject == "accessory-power";
    CHECK_MESSAGE((meaning.kind == CodeKind::other) == about_nothing, row.title);
  }
}

TEST_CASE("the other tables have all their rows") {
  CHECK(status_bits().size() == 8);
  CHECK(network_spns().size() == 20);
  CHECK(source_addresses().size() == 99);
  int types = 0;
  for (int byte = 0; byte < 256; ++byte) types += known_failure_type(static_cast<std::uint8_t>(byte)) ? 1 : 0;
  CHECK(types == 102);
  int modes = 0;
  for (std::uint8_t fmi = 0; fmi < 32; ++fmi) modes += failure_mode_of(fmi).words == "a reserved failure mode" ? 0 : 1;
  CHECK(modes == 23);
}

TEST_CASE("a failure type without a row is reserved or the maker's own") {
  CHECK(failure_type_of(0xA0).words == "a reserved failure type");
  CHECK(failure_type_of(0xF3).words == "the maker's own failure type");
  CHECK(failure_type_of(0xF3).effect == TypeEffect::unknown);
  CHECK(failure_type_of(0x87).effect == TypeEffect::missing);
}
