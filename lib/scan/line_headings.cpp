// A line that stands for several modules or above several lines, and what is left over of any line.
// Tested in tests/scan/pasted_scan.cpp.
#include <algorithm>

#include "scan/line_work.hpp"
#include "scan/said.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

/// `All other modules answer`: the verb is a heading's word elsewhere.
bool ends_in_answer(const LineWork& work) {
  return work.line.words.back().text == "answer" || work.line.words.back().text == "reply";
}

void find_many(LineWork& work) {
  if (!work.subjects.empty() || !work.codes.empty()) return;
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    const LineElement& element = work.elements[i];
    if (!element.says(Sense::all_others) && !element.says(Sense::all_of)) continue;
    std::optional<Answer> answer = work.meaning.answer;
    if (!answer && ends_in_answer(work)) answer = Answer::yes;
    if (!answer) return;
    work.meaning.many = LineMeaning::Many{*answer, work.meaning.bus};
    work.meaning.answer.reset();
    work.used[i] = true;
    return;
  }
}

bool names_a_column(const LineElement& e) {
  return e.says(Sense::spn) || e.says(Sense::fmi) || e.says(Sense::failure_type) || e.says(Sense::taken) ||
         e.says(Sense::unit) || e.says(Sense::printed) || (says_nothing(e) && !e.says(Sense::noise));
}

/// Words that lead to something: without it they are no loss.
bool leads_to_something(const LineElement& e) {
  return e.says(Sense::stored_in) || e.says(Sense::fitted) || e.says(Sense::volts_at) || e.says(Sense::taken) ||
         e.says(Sense::printed) || e.says(Sense::unit);
}

bool left_over(const LineWork& work, std::size_t i) {
  const LineElement& element = work.elements[i];
  const bool enumerates = i == 0 && element.is(Kind::number);
  const bool harmless = element.is(Kind::sense) && (says_nothing(element) || leads_to_something(element));
  return !work.used[i] && !enumerates && !harmless;
}

/// `Module scan V-117`: a heading with a name in it.
void find_title(LineWork& work) {
  std::size_t headings = 0;
  std::size_t others = 0;
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    if (work.used[i]) continue;
    const LineElement& element = work.elements[i];
    if (element.says(Sense::heading))
      headings += element.last + 1 - element.first;
    else if (!says_nothing(element))
      ++others;
  }
  work.meaning.title = headings >= 2 && headings >= others && work.elements.front().says(Sense::heading);
}

/// A clause with an answer, or a whole item of a list of those who answer alike, in a line of modules.
bool lost_name(const LineWork& work, std::size_t first, std::size_t last) {
  if (work.subjects.empty() || !work.codes.empty()) return false;
  std::size_t end = last + 1;
  while (end < work.elements.size() && !ends_clause(work, end)) ++end;
  while (first > 0 && !ends_clause(work, first) && !work.word(first).after(':')) --first;
  const bool answered = std::any_of(work.elements.begin() + static_cast<std::ptrdiff_t>(first),
                                    work.elements.begin() + static_cast<std::ptrdiff_t>(end),
                                    [](const LineElement& e) { return answer_said(e).has_value(); });
  if (work.word(first).ends_cell_before() && !answered) return false;  // a remark in a column of its own
  const auto begin = work.elements.begin();
  return std::all_of(begin + static_cast<std::ptrdiff_t>(first), begin + static_cast<std::ptrdiff_t>(end),
                     [](const LineElement& e) {
                       return is_unknown_word(e) || e.is(Kind::function) || says_nothing(e) || answer_said(e);
                     });
}

}  // namespace

void find_groups(LineWork& work) {
  for (std::size_t i = 0; i < work.elements.size() && work.codes.empty(); ++i) {
    if (!work.elements[i].is(Kind::bus)) continue;
    if (work.meaning.bus == nowhere) work.meaning.bus = work.elements[i].index;
    work.used[i] = true;
  }
  find_many(work);
}

void find_headings(LineWork& work) {
  find_title(work);
  if (!work.subjects.empty() || !work.codes.empty() || !work.meaning.missed.empty()) return;
  const bool bus_led =
      !work.elements.empty() && work.elements.front().is(Kind::bus) && work.line.tail.find(':') != std::string::npos;
  for (std::size_t i = 0; i < work.elements.size() && !bus_led; ++i)
    if (!work.used[i] &&
        (is_unknown_word(work.elements[i]) || work.elements[i].is(Kind::module) || work.elements[i].is(Kind::function)))
      return;
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    const auto state = state_said(work.elements[i], false);
    if (!state) continue;
    work.meaning.state = state;
    work.used[i] = true;
  }
  work.meaning.heading = work.meaning.bus != nowhere || std::ranges::any_of(work.elements, names_a_column);
  if (!work.meaning.heading) return;
  for (std::size_t i = 0; i < work.elements.size(); ++i)
    work.used[i] = work.used[i] || work.elements[i].is(Kind::sense);
}

void collect_leftovers(LineWork& work) {
  std::string& leftover = work.meaning.leftover;
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    if (!left_over(work, i)) continue;
    std::size_t last = i;
    while (last + 1 < work.elements.size() && left_over(work, last + 1)) ++last;
    const bool verdict = work.elements[i].says(Sense::fails) || work.elements[i].says(Sense::works);
    work.meaning.lost_name = work.meaning.lost_name || (verdict && !work.subjects.empty() && work.codes.empty());
    const bool name = is_unknown_word(work.elements[i]) || work.elements[i].is(Kind::function);
    work.meaning.lost_name = work.meaning.lost_name || (name && lost_name(work, i, last));
    if (!leftover.empty()) leftover += " … ";
    leftover += work.line.slice(work.elements[i].first, work.elements[last].last);
    i = last;
  }
}

}  // namespace whichwire
