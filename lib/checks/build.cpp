// See build.hpp. Tests: tests/checks/plan.cpp.
#include "checks/build.hpp"

#include <algorithm>
#include <charconv>

namespace whichwire {
namespace {

/// A bound of outcomes.csv: a number, `b+0.3` (from the battery, if its volts are known), or nothing.
std::optional<double> bound_of(std::string_view text, const Scan& scan) {
  double base = 0;
  if (text.starts_with('b')) {
    if (!scan.battery_volts) return std::nullopt;
    base = *scan.battery_volts;
    text.remove_prefix(1);
    if (text.starts_with('+')) text.remove_prefix(1);
  }
  double value = 0;
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc()) return std::nullopt;
  return base + value;
}

Expectation expectation_of(const OutcomeKind& row, const Fields& fields, const Scan& scan) {
  return {fill(row.label, fields), bound_of(row.low, scan), bound_of(row.high, scan), fill(row.means, fields),
          row.outcome};
}

std::optional<KeyState> key_of(const CheckKind& kind, const Site& site, const Network& network) {
  if (kind.key == "off") return KeyState::off;
  if (kind.key == "run") return KeyState::run;
  if (kind.key == "fed") return key_for(network, site.feed.value_or(nowhere));
  return std::nullopt;
}

bool has_word(std::string_view words, std::string_view word) {
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    if (words.substr(0, end) == word) return true;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return false;
}

std::vector<std::string> caution_keys(const CheckKind& kind, const Site& site) {
  std::vector<std::string> keys = {"what:" + kind.what, "mode:" + kind.mode, "always"};
  for (const std::string& hazard : site.place.hazards) keys.push_back("hazard:" + hazard);
  return keys;
}

/// `B-7` is pin 7 of connector B.
std::string connector_of(const std::string& pin) {
  const std::size_t dash = pin.find('-');
  return dash == std::string::npos || pin.find(' ') != std::string::npos ? "" : pin.substr(0, dash);
}

}  // namespace

bool refused(const std::string& hazard) { return hazard == "restraint" || hazard == "high-voltage"; }

std::string in_brackets(const std::string& text) { return text.empty() ? "" : " (" + text + ")"; }

KeyState key_for(const Network& network, std::size_t feed) {
  if (feed == nowhere) return KeyState::run;
  for (const KeyState key : {KeyState::off, KeyState::accessory, KeyState::run, KeyState::start}) {
    if (network.feeds.at(feed).live[static_cast<std::size_t>(key)]) return key;
  }
  return KeyState::run;
}

std::vector<std::string> cautions_for(const std::vector<std::string>& keys) {
  std::vector<std::string> texts;
  for (const Caution& row : knowledge().cautions) {
    const auto belongs = [&](const std::string& key) { return has_word(row.belongs_to, key); };
    if (std::any_of(keys.begin(), keys.end(), belongs)) texts.push_back(row.text);
  }
  return texts;
}

Candidate build(const Job& job, std::string_view what, const Site& site, Fields fields, std::string id,
                std::string_view outcomes) {
  const CheckKind& kind = knowledge().check(what);
  fields.insert(fields.end(), {{"part", site.part}, {"pin", site.pin}, {"wire", in_brackets(site.wire)}});
  Candidate made;
  made.kind = &kind;
  made.place = site.pin.empty() ? site.part : site.part + "/" + site.pin;
  made.hazards = site.place.hazards;
  Check& check = made.check;
  check.id = std::move(id);
  check.measure = fill(kind.measure, fields);
  check.part = site.part;
  check.connector = connector_of(site.pin);
  check.pin = site.pin;
  check.wire = site.wire;
  check.where = site.place.where;
  check.mode = kind.mode;
  check.key = key_of(kind, site, job.network);
  check.minutes = kind.minutes + site.place.minutes.value_or(kind.reach);
  check.cautions = cautions_for(caution_keys(kind, site));
  for (const OutcomeKind& row : knowledge().outcomes_of(outcomes.empty() ? what : outcomes)) {
    check.expect.push_back(expectation_of(row, fields, job.scan));
    made.outcomes.push_back(row.outcome);
  }
  return made;
}

}  // namespace whichwire
