// Sentences about a module that is missed, and the words beside a code. Tested in tests/scan/pasted_scan.cpp.
#include <algorithm>

#include "scan/accused.hpp"
#include "scan/line_work.hpp"
#include "scan/said.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

/// The code's own meaning comes first; where it has none, the sentence beside it tells who is missed.
void missed_by_code(LineWork& work, const LineWork::CodePlace& place, std::size_t module) {
  CodeSeen& code = work.seen(place);
  const Accused accused = accused_by(work.network, work.meaning.reports[place.report].who.module, code);
  if (accused.kind == CodeKind::other) code.misses = work.network.modules[module].id;
}

/// A sentence without a code, about the module at element `i`; `missed` is `nowhere` where it is heard.
void take_sentence(LineWork& work, std::size_t i, std::size_t missed) {
  for (std::size_t k = 0; k < work.elements.size(); ++k)
    if (work.parts[k] != LinePart::subject) work.used[k] = true;
  std::size_t reporter = work.subject_before(i);
  if (reporter == nowhere) reporter = work.subject_after(i);
  CodeState state = CodeState::unknown;
  for (const LineElement& element : work.elements)
    if (const auto also = state_said(element, true); also && weight_of(*also) > weight_of(state)) state = *also;
  if (reporter == nowhere) {
    work.meaning.missed.push_back(missed);
    work.meaning.missed_state = state;
    return;
  }
  CodeSeen said;
  said.state = state;
  if (missed != nowhere) said.misses = work.network.modules[missed].id;
  said.text = std::string(work.meaning.words);
  Report& report = work.meaning.reports[reporter];
  report.codes.push_back(std::move(said));
  if (!report.answer) report.answer = Answer::yes;
}

/// `U01`: a code that was cut off.
bool beginning_of_a_code(const LineElement& element) {
  const std::string& text = element.text;
  return text.size() >= 2 && text.size() < 5 && std::string_view("pcbu").find(text[0]) != std::string_view::npos &&
         text.find_first_not_of("0123456789abcdef", 1) == std::string::npos && text[1] <= '3';
}

bool may_be_text(const LineWork& work, std::size_t i) {
  const LineElement& element = work.elements[i];
  if (work.used[i]) return false;
  switch (element.kind) {
    case Kind::unknown:
      return !beginning_of_a_code(element);
    case Kind::number:
    case Kind::bus:
    case Kind::function:
    case Kind::volts:
    case Kind::module:
    case Kind::sense:
      return true;
    default:
      return false;
  }
}

bool worth_keeping(const LineElement& element) {
  const bool telling = element.is(Kind::sense) && !says_nothing(element) && !element.says(Sense::stored_in);
  return telling || element.is(Kind::module) || is_unknown_word(element);
}

/// Little words at the ends of a text; a letter (`ECM A`) and what may end a name (`system`) stay.
bool trimmed(const LineWork& work, std::size_t i) {
  const LineElement& element = work.elements[i];
  if (!element.is(Kind::sense) || !says_nothing(element)) return false;
  const bool little = element.says(Sense::noise) || element.says(Sense::and_) || element.says(Sense::of);
  return work.word(i).ends_cell_before() || (little && work.raw(i).size() > 1);
}

/// The words between two elements that belong to nothing else, as the code's text.
void take_text(LineWork& work, const LineWork::CodePlace& place, std::size_t from, std::size_t end) {
  std::string& text = work.seen(place).text;
  for (std::size_t i = from; i < end;) {
    std::size_t last = i;
    bool keep = false;
    for (; last < end && may_be_text(work, last); ++last) keep = worth_keeping(work.elements[last]) || keep;
    if (keep) {
      std::size_t first = i;
      std::size_t stop = last;
      while (first < stop && trimmed(work, first)) ++first;
      while (stop > first && trimmed(work, stop - 1)) --stop;
      if (!text.empty()) text += ' ';
      text += work.line.closed_slice(work.elements[first].first, work.elements[stop - 1].last);
      for (std::size_t k = i; k < last; ++k) work.used[k] = true;
    }
    i = std::max(last, i + 1);
  }
}

}  // namespace

void assign_sentences(LineWork& work) {
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    const bool missed = work.parts[i] == LinePart::missed;
    if ((!missed && work.parts[i] != LinePart::sender) || work.elements[i].hits.size() != 1) continue;
    const std::size_t module = work.elements[i].hits[0].module;
    if (work.codes.empty())
      take_sentence(work, i, missed ? module : nowhere);
    else if (missed)
      missed_by_code(work, *work.code_near(i), module);
  }
}

void assign_texts(LineWork& work) {
  if (work.codes.empty()) return;
  for (std::size_t k = 0; k < work.codes.size(); ++k) {
    const std::size_t end = k + 1 < work.codes.size() ? work.codes[k + 1].element : work.elements.size();
    take_text(work, work.codes[k], work.codes[k].element + 1, end);
  }
  const LineWork::CodePlace& first = work.codes.front();
  if (!work.seen(first).text.empty()) return;
  std::size_t from = 0;
  for (const LineWork::Subject& subject : work.subjects)
    if (subject.element < first.element) from = std::max(from, subject.element + 1);
  take_text(work, first, from, first.element);
}

}  // namespace whichwire
