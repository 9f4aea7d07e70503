#include "scan/line_meaning.hpp"

#include <algorithm>

#include "scan/line_work.hpp"

namespace whichwire {

namespace {

bool telling(const LineMeaning& meaning) {
  return !meaning.reports.empty() || meaning.answer || meaning.state || meaning.status || meaning.volts ||
         !meaning.missed.empty() || meaning.battery || meaning.key || meaning.own_battery || !meaning.unit.empty() ||
         !meaning.taken.empty() || !meaning.functions.empty() || meaning.many;
}

}  // namespace

LineWork::LineWork(const TextLine& text, const Parts& sorted, const Network& vehicle)
    : line(text), elements(sorted.elements), parts(sorted.parts), network(vehicle), used(elements.size(), false) {
  if (!line.words.empty()) meaning.words = line.closed_slice(0, line.words.size() - 1);
}

std::size_t LineWork::subject_before(std::size_t i) const {
  std::size_t found = nowhere;
  for (const Subject& subject : subjects)
    if (subject.element < i) found = subject.report;
  return found;
}

std::size_t LineWork::subject_after(std::size_t i) const {
  const auto after = std::ranges::find_if(subjects, [&](const Subject& subject) { return subject.element > i; });
  return after == subjects.end() ? nowhere : after->report;
}

std::size_t LineWork::holder(std::size_t i) const {
  const std::size_t after = codes_lead() ? subject_after(i) : nowhere;
  return after != nowhere ? after : subject_before(i);
}

LineWork::CodePlace* LineWork::code_near(std::size_t i) {
  CodePlace* near = nullptr;
  for (CodePlace& place : codes)
    if (place.element < i || near == nullptr) near = &place;
  return near;
}

LineMeaning meaning_of_line(const TextLine& line, const Parts& parts, const Network& network,
                            std::optional<bool> functions_work) {
  LineWork work(line, parts, network);
  find_subjects(work);
  find_codes(work);
  find_facts(work);
  find_stranger(work);
  find_further_strangers(work);
  assign_answers(work);
  assign_codes(work);
  assign_states(work);
  assign_bytes_and_volts(work);
  assign_sentences(work);
  assign_texts(work);
  find_groups(work);
  find_functions(work, functions_work);
  find_headings(work);
  collect_leftovers(work);
  work.meaning.codes_lead = work.codes_lead();
  work.meaning.telling = telling(work.meaning);
  return std::move(work.meaning);
}

}  // namespace whichwire
