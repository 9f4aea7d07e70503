// See case_guide.hpp. Order: what is off comes back in or out first, then the check, then repair, scan and close.
// Tests: tests/casefile/guide.cpp.
#include <algorithm>
#include <whichwire/case_guide.hpp>

#include "scan/fold.hpp"

namespace whichwire {
namespace {

WorkKind puts_back(WorkKind off) {
  if (off == WorkKind::fuse_out) return WorkKind::fuse_in;
  return off == WorkKind::jumper ? WorkKind::jumper_off : WorkKind::replug;
}

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) return "";
  return std::string(text.substr(begin, text.find_last_not_of(" \t\r") - begin + 1));
}

bool is_yes(const std::string& typed) {
  const std::string word = folded_key(typed);
  return word.empty() || word == "yes" || word == "y" || word == "done" || word == "ok";
}

/// A repair follows where one is proven, or where nothing that is left tells more.
GuideQuestion after_the_checks(const Assessment& assessment) {
  using About = GuideQuestion::About;
  const bool to_do = assessment.decision.standing == Standing::proven ||
                     assessment.decision.standing == Standing::probable ||
                     assessment.next.why == NextCheck::Why::nothing_separates;
  const bool stop = assessment.decision.standing == Standing::refer ||
                    assessment.decision.standing == Standing::not_communication ||
                    assessment.decision.standing == Standing::comes_and_goes || assessment.decision.repair.empty();
  if (stop || !to_do) return {About::scan, "", {}};
  const std::string& repair = assessment.decision.repair;
  return {About::repair, repair, repair.starts_with("configure ") ? WorkKind::programmed : WorkKind::replaced};
}

CaseReading reading_for(const NextCheck& next) {
  const Check& check = *next.check;
  CaseReading made;
  made.place = place_of(check);
  made.check = check.id;
  const auto& modes = case_modes();
  if (std::find(modes.begin(), modes.end(), check.mode) != modes.end()) made.mode = check.mode;
  made.key = check.key;
  if (check.mode == "ohms") made.battery_connected = false;
  return made;
}

/// Outcomes whose range holds the value.
std::vector<std::size_t> outcomes_with(const Check& check, double value) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < check.expect.size(); ++i) {
    const Expectation& expect = check.expect[i];
    if (!expect.low && !expect.high) continue;
    if (value >= expect.low.value_or(value) && value <= expect.high.value_or(value)) all.push_back(i);
  }
  return all;
}

std::string letters_of(const Check& check) {
  std::string all;
  for (std::size_t i = 0; i < check.expect.size(); ++i) {
    all += i == 0 ? "" : i + 1 == check.expect.size() ? " or " : ", ";
    all += static_cast<char>('a' + i);
  }
  return all;
}

bool shown_by_meter(Reading::Kind kind) {
  return kind == Reading::Kind::number || kind == Reading::Kind::ohms || kind == Reading::Kind::volts ||
         kind == Reading::Kind::drop;
}

GuideAnswer with_outcome(CaseReading made, const Check& check, std::size_t outcome, const std::string& typed) {
  made.outcome = check.expect[outcome].name;
  const bool letter = typed.size() == 1;
  made.reading = letter ? check.expect[outcome].outcome : typed;
  return {made, ""};
}

GuideAnswer by_outcome(const NextCheck& next, const std::string& typed) {
  const Check& check = *next.check;
  if (const auto outcome = outcome_meant(check, typed)) return with_outcome(reading_for(next), check, *outcome, typed);
  const ReadingResult read = read_reading(typed);
  const bool number = read.reading && shown_by_meter(read.reading->kind);
  if (number) {
    const std::vector<std::size_t> fits = outcomes_with(check, read.reading->value);
    if (fits.size() == 1) return with_outcome(reading_for(next), check, fits.front(), typed);
    CaseReading made = reading_for(next);
    made.reading = typed;
    if (check.mode == "volts-loaded") return {made, ""};  // weighed as the lower of the contacts
  }
  if (read.reading && read.reading->kind == Reading::Kind::seen) {
    const std::size_t outcome = read.reading->seen == Reading::Seen::nothing ? 0 : 1;
    return with_outcome(reading_for(next), check, std::min(outcome, check.expect.size() - 1), typed);
  }
  return {std::nullopt, "Type " + letters_of(check) + ", or its words."};
}

GuideAnswer by_value(const NextCheck& next, const std::string& typed) {
  const ReadingResult read = read_reading(typed);
  if (!read.reading) {
    if (const auto outcome = outcome_meant(*next.check, typed))
      return with_outcome(reading_for(next), *next.check, *outcome, typed);
    return {std::nullopt, "'" + typed + "' is no reading. Type what the meter shows, as `12.4 V`, `59.8` or `OL`."};
  }
  const bool lamp = read.reading->kind == Reading::Kind::lamp;
  if (next.measurement->kind == Reading::Kind::lamp && !lamp)
    return {std::nullopt, "Was the lamp bright, dim or dark?"};
  if (!lamp && !shown_by_meter(read.reading->kind)) return {std::nullopt, "Type what the meter shows, with its unit."};
  CaseReading made = reading_for(next);
  made.reading = typed;
  return {made, ""};
}

}  // namespace

GuideQuestion question_of(const CaseState& state) {
  using About = GuideQuestion::About;
  if (state.stage == CaseStage::closed) return {};
  if (!state.put_back.empty())
    return {About::put_back, state.put_back.front().what, puts_back(state.put_back.front().kind)};
  switch (state.stage) {
    case CaseStage::scan_first:
    case CaseStage::scan_again:
      return {About::scan, "", {}};
    case CaseStage::whole:
      return {About::close, "", {}};
    default:
      break;
  }
  if (!state.take_off.empty()) return {About::take_off, state.take_off.front(), WorkKind::unplug};
  const Assessment& assessment = state.reasoning->assessment;
  if (assessment.next.by_scan()) return {About::scan, "", {}};
  return assessment.next.check ? GuideQuestion{About::check, assessment.next.check->id, {}}
                               : after_the_checks(assessment);
}

GuideAnswer answer_to(const GuideQuestion& question, const CaseState& state, std::string_view line) {
  using About = GuideQuestion::About;
  const std::string typed = trimmed(line);
  switch (question.about) {
    case About::put_back:
    case About::take_off:
      if (!is_yes(typed)) return {std::nullopt, "Press Enter when it is done."};
      return {CaseWork{question.work, question.what, ""}, ""};
    case About::repair:
      return {CaseWork{question.work, typed.empty() ? question.what : typed, ""}, ""};
    case About::close:
      if (typed.empty() || !is_yes(typed)) return {std::nullopt, "Type yes to close the case, or quit."};
      return {CaseClose{}, ""};
    case About::check: {
      const NextCheck& next = state.reasoning->assessment.next;
      if (typed.empty()) return {std::nullopt, "Type what you found, or ? for help."};
      return answered_by_value(next) ? by_value(next, typed) : by_outcome(next, typed);
    }
    default:
      return {std::nullopt, ""};
  }
}

CaseReading put_aside(const Check& check) {
  CaseReading made;
  made.place = place_of(check);
  made.check = check.id;
  made.reading = "could not be done";
  made.outcome = not_done;
  return made;
}

bool answered_by_value(const NextCheck& next) { return next.measurement.has_value(); }

std::string place_of(const Check& check) {
  if (check.part.empty()) return "vehicle";
  const bool one_pin = !check.pin.empty() && check.pin.find(' ') == std::string::npos;
  return one_pin ? check.part + "/" + check.pin : check.part;
}

}  // namespace whichwire
