// What a line tells of nobody: battery, key, unit, time, page; and what is left over. Tested in
// tests/scan/pasted_scan.cpp.
#include <algorithm>

#include "scan/line_work.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

std::optional<KeyState> key_said(const LineElement& element) {
  if (element.says(Sense::key_run)) return KeyState::run;
  if (element.says(Sense::key_off)) return KeyState::off;
  if (element.says(Sense::key_accessory)) return KeyState::accessory;
  if (element.says(Sense::key_start)) return KeyState::start;
  return std::nullopt;
}

/// A number with no unit behind it: `battery 12.4`, but not `battery 70 Ah` or `55 %`.
std::optional<double> volts_without_unit(const LineWork& work, std::size_t i) {
  const LineElement& element = work.elements[i];
  if (!element.is(Kind::number)) return std::nullopt;
  const std::size_t next = element.last + 1;
  const bool ends = next == work.line.words.size();
  const std::string& behind = ends ? work.line.tail : work.line.words[next].gap;
  const bool other_unit =
      behind.find('%') != std::string::npos || (!ends && !parted_before(work.line.words[next]) &&
                                                i + 1 < work.elements.size() && is_unknown_word(work.elements[i + 1]));
  const auto value = other_unit ? std::nullopt : decimal(work.word(i).text);
  return value && *value >= 5 && *value <= 60 ? value : std::nullopt;
}

/// The voltage behind a word for the battery, in a pinch without its unit; else one before it; else a whole number.
void find_battery(LineWork& work, std::size_t i) {
  const auto take = [&](std::size_t k, double value) {
    work.meaning.battery = value;
    work.used[i] = work.used[k] = true;
  };
  const auto unnamed = [&](std::size_t k) { return volts_without_unit(work, k); };
  for (std::size_t k = i + 1; k < work.elements.size(); ++k)
    if (work.elements[k].is(Kind::volts)) return take(k, work.elements[k].value);
  for (std::size_t k = i + 1; k < work.elements.size(); ++k)  // `the 12 volt battery at 12.6`
    if (unnamed(k) && work.word(k).text.find_first_of(".,") != std::string::npos) {
      for (std::size_t before = 0; before < i; ++before)
        if (work.elements[before].is(Kind::volts)) work.used[before] = true;
      return take(k, *unnamed(k));
    }
  for (std::size_t k = 0; k < i; ++k)
    if (work.elements[k].is(Kind::volts)) return take(k, work.elements[k].value);
  for (std::size_t k = i + 1; k < work.elements.size(); ++k)
    if (unnamed(k)) return take(k, *unnamed(k));
}

/// `supply 12.7 V` as a line of its own speaks of the whole scan; indented, or behind a code, it is a snapshot's.
bool supply_of_the_scan(const LineWork& work, std::size_t i) {
  return i == 0 && !work.line.indented && work.elements[i].says(Sense::volts_at) && work.word(i).text == "supply";
}

void find_page(LineWork& work, std::size_t i) {
  work.meaning.page = work.used[i] = true;
  for (std::size_t k = i + 1; k < work.elements.size(); ++k) {
    if (!work.elements[k].is(Kind::number) && !work.elements[k].says(Sense::of)) return;
    work.used[k] = true;
  }
}

/// `- 2 -`
void find_lone_page(LineWork& work) {
  const bool lone = work.elements.size() == 1 && work.elements[0].is(Kind::number) && work.word(0).text.size() < 4;
  if (!lone || !work.word(0).after('-') || work.line.tail.find('-') == std::string::npos) return;
  work.meaning.page = work.used[0] = true;
}

/// Dates and times; when the scan was taken, unless they belong to a printout, a module or a code.
void find_stamps(LineWork& work) {
  std::string stamps;
  bool printed = false;
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    printed = printed || work.elements[i].says(Sense::printed);
    if (!work.elements[i].is(Kind::stamp)) continue;
    work.used[i] = true;
    if (!stamps.empty()) stamps += ' ';
    stamps += work.raw(i);
  }
  if (stamps.empty()) return;
  work.meaning.stamp = true;
  if (!printed && !work.meaning.page && work.codes.empty() && work.subjects.empty()) work.meaning.taken = stamps;
}

/// `Unit V-117, …`: a short name with a figure in it and nothing else.
bool numbered(const LineWork& work, std::size_t i) {
  std::size_t words = 0;
  bool figure = false;
  for (std::size_t k = i; k < work.elements.size() && (k == i || !parted_before(work.word(k))); ++k, ++words) {
    const bool plain = work.elements[k].is(Kind::number) || work.elements[k].is(Kind::unknown);
    if (!plain) return false;
    figure = figure || work.word(k).text.find_first_of("0123456789") != std::string::npos;
  }
  return figure && words <= 3;
}

/// `Unit: V-117`: the rest of the column is the name, whatever it looks like.
void find_unit(LineWork& work) {
  for (std::size_t i = 0; i + 1 < work.elements.size(); ++i) {
    if (!work.elements[i].says(Sense::unit) || (i > 0 && !parted_before(work.word(i)))) continue;
    const Word& next = work.word(i + 1);
    const bool led = next.after(':') || next.after('=') || next.after('\t') || numbered(work, i + 1);
    const bool telling = work.elements[i + 1].is(Kind::sense) && !says_nothing(work.elements[i + 1]);
    if (!led || telling) continue;
    std::size_t last = i + 1;
    while (last + 1 < work.elements.size() && !parted_before(work.word(last + 1))) ++last;
    work.meaning.unit = std::string(work.line.slice(work.elements[i + 1].first, work.elements[last].last));
    for (std::size_t k = i; k <= last; ++k) work.used[k] = true;
    return;
  }
}

/// `T-18: key on, battery 12.5 V`, `Module scan T-18`: a letter or three, a dash and a number, apart from the rest.
void find_unit_in_heading(LineWork& work) {
  const bool facts = work.meaning.key || work.meaning.battery || work.meaning.stamp;
  if (work.elements.empty() || (!facts && !work.elements.front().says(Sense::heading))) return;
  for (std::size_t i = 0; i + 1 < work.elements.size(); ++i) {
    const Word& letters = work.word(i);
    const Word& number = work.word(i + 1);
    const bool led = i == 0 || says_nothing(work.elements[i - 1]);
    const bool ends = i + 2 == work.elements.size() || parted_before(work.word(i + 2));
    const bool unit = is_unknown_word(work.elements[i]) && letters.capitals && letters.text.size() <= 3 &&
                      work.elements[i + 1].is(Kind::number) && number.gap == "-";
    if (!led || !ends || !unit) continue;
    work.meaning.unit = std::string(work.raw(i)) + "-" + std::string(work.raw(i + 1));
    work.used[i] = work.used[i + 1] = true;
    return;
  }
}

}  // namespace

void find_facts(LineWork& work) {
  for (std::size_t i = 0; i < work.elements.size() && work.codes.empty(); ++i) {
    const LineElement& element = work.elements[i];
    if (const auto key = key_said(element)) {
      work.meaning.key = key;
      work.used[i] = true;
    }
    if (element.says(Sense::own_battery)) work.meaning.own_battery = work.used[i] = true;
    if (element.says(Sense::battery) || supply_of_the_scan(work, i)) find_battery(work, i);
    if (element.says(Sense::page)) find_page(work, i);
  }
  find_lone_page(work);
  find_stamps(work);
  if (!work.subjects.empty() || !work.codes.empty()) return;
  find_unit(work);
  if (work.meaning.unit.empty()) find_unit_in_heading(work);
}

}  // namespace whichwire
