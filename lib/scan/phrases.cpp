#include "scan/phrases.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_map>

#include "scan/fold.hpp"
#include "scan/table.hpp"

namespace whichwire {

namespace data {
extern const std::string_view scan_words;
}

namespace {

// In the order of `Sense`.
constexpr std::array<std::string_view, 52> senses{"yes",
                                                  "weak-yes",
                                                  "no-codes",
                                                  "no",
                                                  "time-out",
                                                  "refused",
                                                  "locked",
                                                  "not-fitted",
                                                  "not-present",
                                                  "fitted",
                                                  "not-reachable",
                                                  "behind-gateway",
                                                  "not-polled",
                                                  "present",
                                                  "bare-yes",
                                                  "bare-no",
                                                  "current",
                                                  "pending",
                                                  "history",
                                                  "unknown-state",
                                                  "not-tested",
                                                  "misses",
                                                  "no-answer-from",
                                                  "messages-from",
                                                  "bad-data",
                                                  "messages-missing",
                                                  "missing",
                                                  "stored-in",
                                                  "all-others",
                                                  "all-of",
                                                  "works",
                                                  "fails",
                                                  "key-run",
                                                  "key-off",
                                                  "key-accessory",
                                                  "key-start",
                                                  "battery",
                                                  "own-battery",
                                                  "unit",
                                                  "taken",
                                                  "printed",
                                                  "page",
                                                  "of",
                                                  "and",
                                                  "status-byte",
                                                  "volts-at",
                                                  "codes",
                                                  "address",
                                                  "failure-type",
                                                  "spn",
                                                  "fmi",
                                                  "heading"};
static_assert(senses.size() == static_cast<std::size_t>(Sense::noise));

Sense sense_named(std::string_view word) {
  return static_cast<Sense>(std::ranges::find(senses, word) - senses.begin());
}

}  // namespace

std::optional<Sense> sense_of(const std::string& key) {
  static const std::unordered_map<std::string, Sense> phrases = [] {
    std::unordered_map<std::string, Sense> all;
    for (const auto& [sense, phrase] : rows_of<2>(data::scan_words))
      all.try_emplace(folded_key(phrase), sense_named(sense));
    return all;
  }();
  const auto found = phrases.find(key);
  return found == phrases.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace whichwire
