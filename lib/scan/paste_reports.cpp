// What the lines of a pasted text report of modules, taken into the scan. Tested as paste.hpp says.
#include <algorithm>
#include <utility>

#include "scan/accused.hpp"
#include "scan/paste.hpp"
#include "scan/pasted_words.hpp"

namespace whichwire {

namespace {

bool same(const Who& a, const Who& b) { return a.kind == b.kind && a.module == b.module && a.name == b.name; }

}  // namespace

/// `no messages from the engine computer` below a module, or below a code as its text.
std::string Paste::missed_by_speaker(const LineMeaning& meaning) {
  if (meaning.missed.empty() || !speaking() || who_.kind == Who::Kind::ambiguous) return {};
  if (code_just_before() && last_code().text.empty()) {
    CodeSeen& code = last_code();
    const std::size_t reporter = who_.kind == Who::Kind::module ? who_.module : nowhere;
    const bool told = accused_by(network_, reporter, code).kind != CodeKind::other;
    if (!told && meaning.missed[0] != nowhere) code.misses = network_.modules[meaning.missed[0]].id;
    if (code.state == CodeState::unknown) code.state = meaning.missed_state;
    code.text = kept(meaning.words, 300);
    last_code_line_ = at_;
    return words_for(code, reporter, network_);
  }
  Report report{who_, {}, false, {}};
  for (const std::size_t module : meaning.missed) {
    CodeSeen sentence;
    if (module != nowhere) sentence.misses = network_.modules[module].id;
    sentence.state = meaning.missed_state;
    sentence.text = std::string(meaning.words);
    report.codes.push_back(std::move(sentence));
  }
  return take(std::move(report), meaning);
}

/// Takes what a line reports of one module, and says so.
std::string Paste::take(Report report, const LineMeaning& meaning) {
  if (report.who.kind == Who::Kind::speaking && !meaning.head.empty() && rows_ == lines_[at_].text.indented) {
    report.who.kind = Who::Kind::stranger;  // it stands where the names of the lines before stand
    report.who.name = std::string(meaning.head);
  }
  const bool named = report.who.kind != Who::Kind::speaking;
  const bool row = report.answer || !report.codes.empty();
  if (named) rows_ = row ? std::optional(lines_[at_].text.indented) : std::nullopt;
  if (named && state_of_one_module_ && !same(report.who, who_)) heading_state_.reset();
  if (!named) report.who = who_;
  if (report.who.kind == Who::Kind::speaking) return wait(report);
  if (report.who.kind == Who::Kind::ambiguous) {
    doubt_ = LineDoubt::not_taken;
    who_ = report.who;
    last_code_ = {};
    return words_for(report, report.who, network_);
  }
  if (named && report.who.in_part && doubt_ == LineDoubt::none) doubt_ = LineDoubt::named_in_part;
  const std::size_t entry = collected_.entry_of(report.who);
  if (named && !report.answer && report.codes.empty() && heading_answer_) {
    report.answer = heading_answer_;
    report.answer_said = true;
  } else if (report.answer && report.answer != heading_answer_) {
    heading_answer_.reset();
  }
  if (named && codes_first_ && meaning.reports.size() == 1) take_waiting(report);
  std::string otherwise = report.answer && report.answer_said
                              ? collected_.answer(entry, *report.answer, report.who.by_role)
                              : std::string();
  append_words(otherwise, take_codes(entry, report));
  last_code_beside_name_ = named;
  names_lead_ = names_lead_ || (named && !report.codes.empty() && !meaning.codes_lead && !codes_first_);
  who_ = report.who;
  who_.in_part = false;  // said once
  std::string words = words_for(report, report.who, network_);
  append_words(words, otherwise);
  return words;
}

/// Returns what an earlier line said against there being codes.
std::string Paste::take_codes(std::size_t entry, Report& report) {
  for (CodeSeen& code : report.codes) {
    state_of_heading(code);
    code.text = kept(code.text, 300);
    last_code_ = collected_.code(entry, code);
    last_code_line_ = at_;
    last_code_indent_ = lines_[at_].text.indent;
  }
  const bool silent = !report.codes.empty() && scan().modules[entry].answer == Answer::no;
  return silent ? "an earlier line says: no answer" : "";
}

void Paste::state_of_heading(CodeSeen& code) const {
  if (code.state == CodeState::unknown && !code.status && heading_state_) code.state = *heading_state_;
}

/// Codes before any module: they belong to the next one where the text is so ordered, else to nobody.
std::string Paste::wait(Report& report) {
  if (!codes_first_) {
    orphans_ += report.codes.size();
    doubt_ = LineDoubt::not_taken;
    return {};
  }
  std::string words;
  for (CodeSeen& code : report.codes) {
    state_of_heading(code);
    append_words(words, words_for(code, nowhere, network_));
    waiting_.push_back(std::move(code));
  }
  return words + ", of the module named next";
}

/// Not where the line has codes of its own: those above are then somebody else's.
void Paste::take_waiting(Report& report) {
  if (!report.codes.empty()) orphans_ += std::exchange(waiting_, {}).size();
  report.codes.insert(report.codes.begin(), std::make_move_iterator(waiting_.begin()),
                      std::make_move_iterator(waiting_.end()));
  waiting_.clear();
}

/// After several modules in one line, or one that stands behind its codes, nobody in particular is being spoken of;
/// but the last one's codes may run on.
void Paste::settle_speaker(const LineMeaning& meaning) {
  const auto named = std::ranges::count_if(meaning.reports,
                                           [](const Report& report) { return report.who.kind != Who::Kind::speaking; });
  if (named == 0) return;
  if (codes_first_ || meaning.codes_lead) {
    who_ = {};
  } else if (named > 1 && meaning.reports.back().codes.empty()) {
    who_ = {};
    last_code_ = {};
  }
}

}  // namespace whichwire
