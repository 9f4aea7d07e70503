#include "fleet/row.hpp"

#include <algorithm>
#include <array>

#include "network/shape.hpp"
#include "network/tree.hpp"

namespace whichwire {
namespace {

using json::Field;
using json::Shape;
using json::Value;
using Kind = Shape::Kind;
using std::string_view;

constexpr Shape name{.kind = Kind::text, .most = 5'000};
constexpr Shape sentence{.kind = Kind::text, .most = 5'000};
constexpr Shape names{.kind = Kind::list, .most = 10'000, .each = &name};
constexpr Shape sentences{.kind = Kind::list, .most = 10'000, .each = &sentence};
constexpr Shape share{.kind = Kind::number, .low = 0, .high = 1};
constexpr Shape minutes{.kind = Kind::number, .low = 0, .high = 100'000};

constexpr Field suspected_fields[] = {{"probability", &share, true}, {"faults", &names, true}};
constexpr Shape suspected{.kind = Kind::record, .fields = suspected_fields};
constexpr Shape all_suspected{.kind = Kind::list, .most = 1'000, .each = &suspected};
constexpr Field check_fields[] = {
    {"id", &name, true}, {"measure", &sentence, true}, {"minutes", &minutes, true}, {"cautions", &sentences, true}};
constexpr Shape check{.kind = Kind::record, .fields = check_fields};

constexpr string_view format_words[] = {fleet_row_format};
constexpr Shape format{.kind = Kind::word, .words = format_words};
constexpr string_view match_words[] = {"given", "only-one", "vehicle", "best-fit", "best-of-several"};
constexpr Shape match{.kind = Kind::word, .words = match_words};
constexpr string_view class_words[] = {"module",    "segment",      "bus",     "gateway", "supply",
                                       "connector", "intermittent", "several", "none",    "contradictory"};
constexpr Shape verdict_class{.kind = Kind::word, .words = class_words};
constexpr string_view error_or_finding[] = {"error", "class"};
constexpr Field row_fields[] = {{"format", &format, true},
                                {"scan", &name, true},
                                {"unit", &name},
                                {"error", &sentence},
                                {"network", &name},
                                {"matched", &match},
                                {"class", &verdict_class},
                                {"parts", &names},
                                {"probability", &share},
                                {"headline", &sentence},
                                {"headline_probability", &share},
                                {"fault", &share},
                                {"silent", &names},
                                {"check", &check},
                                {"doubts", &sentences},
                                {"outside", &share},
                                {"suspected", &all_suspected}};
constexpr Shape row{.kind = Kind::record, .fields = row_fields, .one_of = error_or_finding};

/// The value of an enumeration that counts from 0 in the order of its words.
template <class Word, std::size_t count>
Word word_in(const Value& object, string_view key, const string_view (&words)[count]) {
  const auto found = std::ranges::find(words, string_view(json::text_in(object, key)));
  return static_cast<Word>(found == std::end(words) ? 0 : found - std::begin(words));
}

UnitFinding finding_in(const Value& root) {
  UnitFinding finding;
  finding.error = json::text_in(root, "error");
  finding.network = json::text_in(root, "network");
  finding.matched = word_in<MatchedBy>(root, "matched", match_words);
  finding.verdict = {word_in<VerdictClass>(root, "class", class_words), json::texts_in(root, "parts"),
                     json::number_in(root, "probability").value_or(0), json::text_in(root, "headline"),
                     json::number_in(root, "headline_probability").value_or(0)};
  finding.fault = json::number_in(root, "fault").value_or(0);
  finding.silent = json::texts_in(root, "silent");
  if (const Value* const first = json::find(root, "check"); first != nullptr)
    finding.check = {json::text_in(*first, "id"), json::text_in(*first, "measure"),
                     json::number_in(*first, "minutes").value_or(0), json::texts_in(*first, "cautions")};
  finding.doubts = json::texts_in(root, "doubts");
  finding.outside = json::number_in(root, "outside").value_or(0);
  for (const Value& one : json::items_in(root, "suspected"))
    finding.suspected.push_back({json::number_in(one, "probability").value_or(0), json::texts_in(one, "faults")});
  return finding;
}

}  // namespace

bool is_fleet_row(std::string_view text) {
  constexpr std::size_t early = 100;  // it is the first member of what we write
  return text.substr(0, early).find(fleet_row_format) != std::string_view::npos;
}

FleetRow read_fleet_row(std::string_view text, const std::string& place) {
  json::Complaints complaints;
  const std::optional<Value> root = json::parse(text, 0, complaints);
  if (root) json::check_shape(*root, row, {}, json::Extent::whole, complaints);
  UnitFinding finding;
  FleetRow made{place, "", nullptr};
  if (complaints.empty()) {
    finding = finding_in(*root);
    made.scan = json::text_in(*root, "scan");
    made.unit = json::text_in(*root, "unit");
  } else {
    const Mistake first = complaints.mistakes({{place, text}}).front();
    finding.error = "no row of a fleet: " + (first.path.empty() ? "" : first.path + ": ") + first.message;
  }
  made.finding = std::make_shared<const UnitFinding>(std::move(finding));
  return made;
}

}  // namespace whichwire
