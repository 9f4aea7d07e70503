// The words of scan summaries.
#include "scan/phrases.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "scan/fold.hpp"
#include "scan/names.hpp"
#include "scan/table.hpp"
#include "scan/van.hpp"

using namespace whichwire;

namespace whichwire::data {
extern const std::string_view scan_words;
}

TEST_CASE("every row of the words has a known sense, and no phrase has two") {
  std::map<std::string, std::string_view> senses;
  std::set<std::string_view> used;
  std::size_t rows = 0;
  for (const auto& row : rows_of<2>(data::scan_words)) {
    const std::string_view sense = row[0];
    const std::string_view phrase = row[1];
    CAPTURE(phrase);
    ++rows;
    const std::string key = folded_key(phrase);
    REQUIRE(sense_of(key).has_value());
    REQUIRE(static_cast<std::size_t>(*sense_of(key)) <= static_cast<std::size_t>(Sense::noise));
    CHECK(senses.try_emplace(key, sense).first->second == sense);
    used.insert(sense);
    std::size_t words = 1;
    for (const char c : phrase) words += c == ' ' ? 1U : 0U;
    CHECK(words <= most_phrase_words);
  }
  CHECK(rows > 400);
  CHECK(used.size() == static_cast<std::size_t>(Sense::noise) + 1);
}

TEST_CASE("phrases are found whatever their spacing, and the German ones too") {
  CHECK(sense_of(folded_key("No Response")) == Sense::no);
  CHECK(sense_of(folded_key("timed-out")) == Sense::time_out);
  CHECK(sense_of(folded_key("nicht verbaut")) == Sense::not_fitted);
  CHECK(sense_of(folded_key("Zündung ein")) == Sense::key_run);
  CHECK(sense_of(folded_key("keine Botschaft vom")) == Sense::misses);
  CHECK_FALSE(sense_of("nosuchphrase").has_value());
}

TEST_CASE("trade names of roles lead to roles that exist") {
  const std::string table = test::file_text(std::filesystem::path(WHICHWIRE_SOURCE_DIR) / "lib/scan/role-names.csv");
  const auto rows = rows_of<2>(table);
  CHECK(rows.size() > 40);
  for (const auto& row : rows) {
    const std::string_view role = row[0];
    CHECK_MESSAGE(std::ranges::binary_search(known_roles(), role), role);
    CHECK_FALSE(row[1].empty());
  }
}
