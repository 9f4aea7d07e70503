// Of whom a line speaks, and how they answer. Tested in tests/scan/pasted_scan.cpp.
#include <algorithm>

#include "scan/line_work.hpp"
#include "scan/said.hpp"
#include "scan/stranger.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

/// The element that names the same module first.
std::size_t named_first(const LineWork& work, std::size_t i) {
  while (work.parts[i] == LinePart::same) {
    do --i;
    while (!work.elements[i].is(Kind::module));
  }
  return i;
}

bool has_codes(const LineWork& work, std::size_t report) {
  return std::ranges::any_of(work.codes, [&](const auto& code) { return work.holder(code.element) == report; });
}

Who::Kind who_kind(const LineElement& element) {
  if (element.hits.empty() || element.rival) return Who::Kind::stranger;
  return element.hits.size() == 1 ? Who::Kind::module : Who::Kind::ambiguous;
}

/// A silent module has no codes, so such words beside a code are words of its text; and an answer does not stand among
/// the words of a text.
bool word_of_a_text(const LineWork& work, std::size_t i) {
  if (!work.code_before(i)) return false;
  const auto answer = answer_said(work.elements[i]);
  if (answer == Answer::yes && !work.elements[i].is(Kind::count))
    return !parted_before(work.word(i)) && !work.is_code(i - 1) && work.parts[i - 1] != LinePart::subject;
  const std::size_t whose = work.subject_before(i);
  return answer != Answer::refused && (whose == nowhere || has_codes(work, whose));
}

bool speaks_of_messages(const LineWork& work, std::size_t i) {
  const bool missing = work.elements[i].says(Sense::missing) || work.elements[i].says(Sense::time_out);
  return missing && std::ranges::any_of(
                        work.parts, [](LinePart part) { return part == LinePart::missed || part == LinePart::sender; });
}

/// `no answer from ECM` is the tester's own word, unless ECM is one whom a reporter misses.
bool of_a_reporter(const LineWork& work, std::size_t i) {
  if (!work.elements[i].says(Sense::no_answer_from)) return false;
  for (std::size_t k = i + 1; k < work.elements.size(); ++k)
    if (work.elements[k].is(Kind::module)) return work.parts[k] != LinePart::subject;
  return work.code_before(i);
}

/// `Okay so ECM is dead`: a word to begin with.
bool only_begins(const LineWork& work, std::size_t i) {
  const std::size_t next = i + 1;
  return i == 0 && work.elements[i].says(Sense::weak_yes) && next < work.elements.size() &&
         is_unknown_word(work.elements[next]) && !parted_before(work.word(next));
}

/// The elements that say how somebody answers.
std::vector<std::size_t> answers_in(const LineWork& work) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    const LineElement& element = work.elements[i];
    const bool a_state =
        state_said(element, true) && (work.code_before(i) || !work.codes.empty() || work.subjects.empty());
    if (!answer_said(element) || a_state || only_begins(work, i) || speaks_of_messages(work, i) ||
        word_of_a_text(work, i) || of_a_reporter(work, i))
      continue;
    found.push_back(i);
  }
  return found;
}

void set_answer(LineWork& work, std::size_t report, std::size_t i) {
  const LineElement& element = work.elements[i];
  std::optional<Answer>& said = work.meaning.reports[report].answer;
  const Answer answer = *answer_said(element);
  work.used[i] = true;
  work.meaning.reports[report].answer_said = true;
  // All of them say that nothing came back; one says why.
  const bool locked_out =
      std::ranges::any_of(work.elements, [](const LineElement& one) { return one.says(Sense::behind_gateway); });
  if (answer == Answer::no && (said == Answer::not_fitted || locked_out)) return;
  if (!said || !said_weakly(element)) said = answer;
}

/// `abs no comms`: the answer that stands behind the module in its own clause, with none before; `nowhere`: none.
std::size_t answer_behind(const LineWork& work, const LineWork::Subject& subject,
                          const std::vector<std::size_t>& answers) {
  const auto among = [&](std::size_t i) { return std::ranges::find(answers, i) != answers.end(); };
  for (std::size_t i = subject.element; i > 0 && !ends_clause(work, i); --i)
    if (among(i - 1)) return nowhere;
  for (std::size_t i = subject.element + 1; i < work.elements.size() && !ends_clause(work, i); ++i) {
    if (among(i)) return i;
    if (work.elements[i].is(Kind::module) && work.parts[i] == LinePart::subject) return nowhere;
  }
  return nowhere;
}

/// `power ok at ABS`: it has something of its own before it in its clause, and no list behind it.
bool of_something_else(const LineWork& work, std::size_t i) {
  const std::size_t next = i + 1;
  const bool leads = next < work.elements.size() && parted_before(work.word(next)) && !ends_clause(work, next);
  for (std::size_t k = i; k > 0 && !leads && !ends_clause(work, k); --k) {
    if (is_unknown_word(work.elements[k - 1])) return true;
    if (!says_nothing(work.elements[k - 1])) break;
  }
  return false;
}

/// `Not fitted: TCM, HVAC`: the last answer before a module is its, unless one of its own stands behind it.
void answers_first(LineWork& work, const std::vector<std::size_t>& answers) {
  for (const LineWork::Subject& subject : work.subjects) {
    const std::size_t own = answer_behind(work, subject, answers);
    std::size_t before = nowhere;
    for (const std::size_t i : answers)
      if (i < subject.element && !of_something_else(work, i)) before = i;
    const bool locked_out = before != nowhere && work.elements[before].says(Sense::behind_gateway);
    if (own != nowhere) set_answer(work, subject.report, own);
    if (before != nowhere && (own == nowhere || locked_out)) set_answer(work, subject.report, before);
  }
  for (const std::size_t i : answers)
    if (!work.used[i] && i > work.subjects.back().element) set_answer(work, work.subject_before(i), i);
}

/// Codes and a further module stand between the subject and the answer, so the answer is the further one's.
bool cut_off(const LineWork& work, const LineWork::Subject& subject, std::size_t answer) {
  const auto between = [&](std::size_t element, std::size_t end) { return element > subject.element && element < end; };
  return std::ranges::any_of(work.subjects, [&](const LineWork::Subject& other) {
    return between(other.element, answer) &&
           std::ranges::any_of(work.codes, [&](const auto& code) { return between(code.element, other.element); });
  });
}

/// `ECM, TCM: no response`, `ECM ok, TCM silent`.
void answers_last(LineWork& work, const std::vector<std::size_t>& answers) {
  std::size_t from = 0;
  for (const std::size_t i : answers) {
    bool fresh = false;
    const bool of_next = work.elements[i].says(Sense::no_answer_from) && work.subject_after(i) != nowhere;
    if (of_next) set_answer(work, work.subject_after(i), i);
    for (const LineWork::Subject& subject : work.subjects) {
      if (of_next) break;
      if (subject.element < from || subject.element > i || cut_off(work, subject, i)) continue;
      set_answer(work, subject.report, i);
      fresh = true;
    }
    if (!fresh && !of_next) set_answer(work, work.subject_before(i), i);
    from = i;
  }
}

/// `Steering column module (SCM)`: the short name behind the long one.
bool bracketed_id(const LineWork& work, std::size_t i) {
  if (i >= work.elements.size() || !is_unknown_word(work.elements[i])) return false;
  const std::size_t next = work.elements[i].last + 1;
  const std::string& behind = next < work.line.words.size() ? work.line.words[next].gap : work.line.tail;
  return work.word(i).capitals && work.word(i).gap.ends_with('(') && behind.starts_with(')');
}

/// A sentence or a list of its own begins at the element.
bool begins_anew(const LineWork& work, std::size_t i) {
  return work.word(i).ends_cell_before() || work.word(i).gap.find(". ") != std::string::npos;
}

bool may_be_a_name(const LineElement& e) {
  return e.is(Kind::unknown) || e.is(Kind::number) || e.is(Kind::function) || e.says(Sense::heading);
}

}  // namespace

bool ends_clause(const LineWork& work, std::size_t i) {
  const Word& word = work.word(i);
  return word.ends_cell_before() || word.gap.find_first_of(",;/") != std::string::npos ||
         word.gap.find(". ") != std::string::npos;
}

void find_subjects(LineWork& work) {
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    const LineElement& element = work.elements[i];
    if (!element.is(Kind::module)) continue;
    work.used[i] = work.parts[named_first(work, i)] == LinePart::subject;
    if (work.parts[i] != LinePart::subject) continue;
    Who who;
    who.name = std::string(work.raw(i));
    for (const NameHit& hit : element.hits) who.may.push_back(hit.module);
    if (who.may.size() == 1) who.module = who.may[0];
    const NameKind called = element.hits.empty() ? NameKind::id : element.hits[0].kind;
    who.in_part = called == NameKind::part;
    who.by_role = called == NameKind::role || who.in_part;
    who.kind = who_kind(element);
    work.subjects.push_back({i, work.meaning.reports.size()});
    work.meaning.reports.push_back({std::move(who), {}, false, {}});
  }
}

void find_stranger(LineWork& work) {
  const LineMeaning& meaning = work.meaning;
  const bool facts = meaning.key || meaning.battery || meaning.own_battery || !meaning.unit.empty();
  const bool sentence = std::ranges::any_of(
      work.parts, [](LinePart part) { return part == LinePart::missed || part == LinePart::sender; });
  if (!work.subjects.empty() || facts || sentence) return;
  SaidBeside beside;
  beside.code = !work.codes.empty();
  for (const LineElement& element : work.elements) {
    if (!answer_said(element) || (state_said(element, true) && beside.code)) continue;
    (said_weakly(element) ? beside.weak_answer : beside.answer) = true;
  }
  const auto stranger = stranger_in(work.line, work.elements, beside);
  if (!stranger) {
    if (const auto head = head_before_code(work.line, work.elements))
      work.meaning.head = work.line.closed_slice(work.elements[head->first].first, work.elements[head->last].last);
    return;
  }
  const std::size_t last = stranger->last + (bracketed_id(work, stranger->last + 1) ? 1 : 0);
  Who who;
  who.kind = Who::Kind::stranger;
  who.name = std::string(work.line.closed_slice(work.elements[stranger->first].first, work.elements[last].last));
  for (std::size_t i = stranger->first; i <= last; ++i) work.used[i] = true;
  work.subjects.push_back({stranger->first, meaning.reports.size()});
  work.meaning.reports.push_back({std::move(who), {}, false, {}});
}

void find_further_strangers(LineWork& work) {
  const bool modules = !work.subjects.empty();
  for (std::size_t code = 0; code < work.elements.size() && modules; ++code) {
    if (!work.is_code(code)) continue;
    std::size_t first = code;
    while (first > 0 && !begins_anew(work, first) && may_be_a_name(work.elements[first - 1])) --first;
    const bool behind = first < code && first > 0 && begins_anew(work, first) && work.subject_before(first) != nowhere;
    const auto words = work.elements.begin() + static_cast<std::ptrdiff_t>(first);
    if (!behind || std::none_of(words, work.elements.begin() + static_cast<std::ptrdiff_t>(code), is_unknown_word))
      continue;
    Who who;
    who.kind = Who::Kind::stranger;
    who.name = std::string(work.line.closed_slice(work.elements[first].first, work.elements[code - 1].last));
    for (std::size_t i = first; i < code; ++i) work.used[i] = true;
    work.subjects.push_back({first, work.meaning.reports.size()});
    work.meaning.reports.push_back({std::move(who), {}, false, {}});
  }
  std::ranges::sort(work.subjects, {}, &LineWork::Subject::element);
}

void assign_answers(LineWork& work) {
  const std::vector<std::size_t> answers = answers_in(work);
  if (answers.empty()) return;
  if (work.subjects.empty()) {
    const LineElement& last = work.elements[answers.back()];
    work.meaning.answer = answer_said(last);
    work.meaning.answer_firm = !said_weakly(last);
    work.meaning.answer_by_codes = last.is(Kind::count) || last.says(Sense::no_codes);
    for (const std::size_t i : answers) work.used[i] = true;
  } else if (answers.front() < work.subjects.front().element) {
    answers_first(work, answers);
  } else {
    answers_last(work, answers);
  }
}

}  // namespace whichwire
