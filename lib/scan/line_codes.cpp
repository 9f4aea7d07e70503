// Which module each code of a line belongs to, in which state it is, and what stands beside it.
// Tested in tests/scan/pasted_scan.cpp.
#include <algorithm>

#include "scan/line_work.hpp"
#include "scan/said.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

/// The report of whoever was spoken of before this line.
std::size_t report_of_speaker(LineMeaning& meaning) {
  for (std::size_t i = 0; i < meaning.reports.size(); ++i)
    if (meaning.reports[i].who.kind == Who::Kind::speaking) return i;
  meaning.reports.push_back({});
  return meaning.reports.size() - 1;
}

void put_state(LineWork& work, LineWork::CodePlace& place, CodeState state) {
  CodeState& now = work.seen(place).state;
  if (!place.stated || weight_of(state) > weight_of(now)) now = state;
  place.stated = true;
}

void take_status(LineWork& work, std::size_t i) {
  const auto byte = static_cast<std::uint8_t>(work.elements[i].value);
  work.used[i] = true;
  if (work.codes.empty()) {
    work.meaning.status = byte;
    return;
  }
  LineWork::CodePlace& place = *work.code_near(i);
  work.seen(place).status = byte;
  if (!place.stated) work.seen(place).state = state_of_status(byte);
}

/// A supply in a snapshot stands in a column or brackets of its own, or behind a word for it; `5 V` inside a text is
/// the name of a part.
void take_volts(LineWork& work, std::size_t i) {
  const double value = work.elements[i].value;
  if (work.codes.empty()) {
    if (!work.used[i]) work.meaning.volts = value;
    work.used[i] = true;
    return;
  }
  const LineElement* before = i > 0 ? &work.elements[i - 1] : nullptr;
  const bool named = before != nullptr &&
                     (before->says(Sense::battery) || before->says(Sense::volts_at) || before->says(Sense::stored_in));
  if (!named && before != nullptr && !parted_before(work.word(i)) && !work.word(i).after('@')) return;
  work.used[i] = true;
  work.seen(*work.code_near(i)).volts = value;
}

}  // namespace

void find_codes(LineWork& work) {
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    if (!work.is_code(i)) continue;
    const LineElement& element = work.elements[i];
    LineWork::CodePlace place;
    place.element = i;
    if (element.is(Kind::code)) place.seen.code = element.code;
    place.seen.written = element.is(Kind::code) ? text_of(element.code) : element.text;
    work.used[i] = true;
    work.codes.push_back(std::move(place));
  }
}

void assign_codes(LineWork& work) {
  for (LineWork::CodePlace& place : work.codes) {
    place.report = work.holder(place.element);
    if (place.report == nowhere) place.report = report_of_speaker(work.meaning);
    Report& report = work.meaning.reports[place.report];
    if (!report.answer && report.who.kind != Who::Kind::speaking) report.answer = Answer::yes;
    place.code = report.codes.size();
    report.codes.push_back(place.seen);
  }
}

void assign_states(LineWork& work) {
  if (work.codes.empty()) return;
  std::vector<std::size_t> states;
  for (std::size_t i = 0; i < work.elements.size(); ++i)
    if (!work.used[i] && state_said(work.elements[i], work.code_before(i))) states.push_back(i);
  const bool lead = !states.empty() && states.front() < work.codes.front().element;
  std::size_t from = 0;
  for (std::size_t k = 0; k < states.size(); ++k) {
    const std::size_t i = states[k];
    const std::size_t next = k + 1 < states.size() ? states[k + 1] : work.elements.size();
    const CodeState state = *state_said(work.elements[i], work.code_before(i));
    work.used[i] = true;
    bool fresh = false;
    for (LineWork::CodePlace& place : work.codes) {
      const std::size_t at = place.element;
      if (lead ? at < i || at > next : at < from || at > i) continue;
      put_state(work, place, state);
      fresh = true;
    }
    if (!fresh && !lead) put_state(work, *work.code_near(i), state);
    from = i;
  }
}

void assign_bytes_and_volts(LineWork& work) {
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    if (work.elements[i].is(Kind::status)) take_status(work, i);
    if (work.elements[i].is(Kind::volts)) take_volts(work, i);
  }
}

}  // namespace whichwire
