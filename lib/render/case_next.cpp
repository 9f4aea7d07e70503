// `case next`: what the readings meant, what is likely now, the result so far, and the one thing to do next; as a page
// and as `whichwire.case-next.v1`. Tests: tests/cli/case_next.cpp.
#include <algorithm>
#include <cmath>
#include <whichwire/case_guide.hpp>

#include "render/case_reasoning.hpp"
#include "render/check_words.hpp"
#include "render/json.hpp"

namespace whichwire {

namespace {

using namespace render;

constexpr std::size_t most_repairs = 5;
constexpr double least_repair = 0.01;

const Network& network_of(const Case& job) { return job.start().network; }

void say_readings(Page& page, const Case& job, const CaseReasoning& reasoning) {
  if (reasoning.answers.empty()) return;
  page.heading("What the readings said");
  for (const CaseAnswer& answer : reasoning.answers) {
    const std::string mark = std::to_string(answer.entry) + "  ";
    const auto& made = std::get<CaseReading>(job.entries[answer.entry - 1].contents);
    page.text(2, mark, made.place + ": " + made.reading);
    const bool asked_again = answer.weighed.doubtful && !answer.weighed.counted;
    for (const std::string& text : meaning_of(network_of(job), reasoning, answer))
      page.text(2 + mark.size(), asked_again ? "! " : "- ", text);
  }
}

void say_likely(Page& page, const Case& job, const Assessment& assessment) {
  page.heading("Likely now");
  double rest = 1;
  std::size_t shown = 0;
  for (const Repair& repair : assessment.repairs) {
    if (shown == most_repairs || repair.probability.low < least_repair) break;
    page.text(2, percent(repair.probability.low) + "  ", repair_phrase(network_of(job), repair));
    rest -= repair.probability.low;
    ++shown;
  }
  if (rest > least_repair) page.text(2, percent(rest) + "  ", "all others together");
}

void say_result(Page& page, const Case& job, const Assessment& assessment) {
  page.heading("Result so far");
  page.text(2, result_phrase(network_of(job), assessment) + ".");
  const std::vector<std::string> missing = missing_phrases(assessment);
  if (!missing.empty()) page.text(2, "Still missing:");
  for (const std::string& text : missing) page.text(4, "- ", text);
  const Standing standing = assessment.decision.standing;
  const bool to_weigh_up =
      assessment.next.why == NextCheck::Why::tells_most || assessment.next.why == NextCheck::Why::once_more;
  if (standing == Standing::probable && to_weigh_up && !assessment.decision.worth_measuring)
    page.text(2, "Another check costs more time than a wrong guess would.");
}

void say_expected(Page& page, const NextCheck& next) {
  const Check& check = *next.check;
  const std::string good = if_good_phrase(next);
  if (!good.empty()) page.text(2, "If good: ", good);
  for (const Expectation& expect : check.expect) {
    // What the meter is predicted to show stands above; the table's range would say it twice.
    const bool first = &expect == &check.expect.front();
    const std::string label = first && !good.empty() ? expect.outcome : outcome_phrase(expect, check.mode);
    page.text(2, "= ", label + ": " + expect.means);
  }
}

void say_check(Page& page, const Case& job, const CaseState& state) {
  const NextCheck& next = state.reasoning->assessment.next;
  if (const std::string why = why_phrase(network_of(job), *state.reasoning); !why.empty()) page.text(2, why);
  page.text(2, next.check->measure + ".");
  say_how(page, *next.check);
  if (next.by_scan()) return page.text(2, "Note it with: ", "case scan " + job.name + " FILE");
  say_expected(page, next);
  page.text(
      2, "Note it with: ",
      "case reading " + job.name + " \"" + place_of(*next.check) + "\" READING --check \"" + next.check->id + "\"");
}

std::string stage_phrase(CaseStage stage) {
  switch (stage) {
    case CaseStage::scan_first:
      return "Ask every module with the scan tool and add the scan: `case scan`.";
    case CaseStage::scan_again:
      return "Everything back in, codes saved and cleared, then scan again: `case scan`. The scan proves the repair.";
    case CaseStage::whole:
      return "The scan after the repair shows no fault of the network. Try what the customer complained of, then "
             "`case close`.";
    case CaseStage::closed:
      return "Nothing: the case is closed. `case undo` opens it again.";
    case CaseStage::measuring:
      break;
  }
  return "";
}

void say_next(Page& page, const Case& job, const CaseState& state) {
  page.heading("Next");
  for (const std::string& text : before_check_phrases(network_of(job), state)) page.text(2, "! ", text);
  if (state.stage != CaseStage::measuring) return page.text(2, stage_phrase(state.stage));
  if (state.reasoning->assessment.next.check) return say_check(page, job, state);
  for (const std::string& text : no_check_phrases(network_of(job), state)) {
    const bool item = text.starts_with("- ");
    page.text(item ? 4 : 2, item ? "- " : "", item ? text.substr(2) : text);
  }
}

void say_refused(Page& page, const Assessment& assessment) {
  if (assessment.refused.empty()) return;
  page.heading("Do not measure");
  for (const Refused& refused : assessment.refused) page.text(2, "! ", refused.what + ": " + refused.why);
}

Json json_of_answer(const Case& job, const CaseReasoning& reasoning, const CaseAnswer& answer) {
  const Weighed& weighed = answer.weighed;
  Json json = {{"entry", answer.entry},
               {"check", answer.check},
               {"understood", weighed.understood},
               {"doubtful", weighed.doubtful},
               {"counted", weighed.counted},
               {"good", weighed.good},
               {"bits", rounded(weighed.bits)},
               {"means", meaning_of(network_of(job), reasoning, answer)}};
  if (weighed.counted)
    json["moved"] = {{"repair", weighed.shift.repair},
                     {"before", rounded(weighed.shift.before)},
                     {"after", rounded(weighed.shift.after)}};
  return json;
}

Json json_of_repair(const Network& network, const Repair& repair) {
  return {{"repair", repair.what},
          {"phrase", repair_phrase(network, repair)},
          {"probability", rounded(repair.probability.low)},
          {"at_most", rounded(std::min(repair.probability.high, 1.0))},
          {"faults", repair.faults},
          {"comes_and_goes", repair.passing}};
}

Json json_of_decision(const Case& job, const Assessment& assessment) {
  Json ruled_out = Json::array();
  for (const RuleOut& item : assessment.decision.ruled_out)
    ruled_out.push_back({{"what", item.what}, {"by", item.by.empty() ? "" : ticked_by(job, item.by)}});
  return {{"standing", word_for(assessment.decision.standing)},
          {"repair", assessment.decision.repair},
          {"probability", rounded(assessment.decision.probability.low)},
          {"says", result_phrase(network_of(job), assessment)},
          {"missing", assessment.decision.missing},
          {"ruled_out", std::move(ruled_out)},
          {"loss_minutes", rounded(assessment.decision.loss_minutes)},
          {"worth_measuring", assessment.decision.worth_measuring}};
}

std::string_view word_for_why(NextCheck::Why why) {
  switch (why) {
    case NextCheck::Why::tells_most:
      return "tells most";
    case NextCheck::Why::again:
      return "again";
    case NextCheck::Why::once_more:
      return "once more";
    case NextCheck::Why::rules_out:
      return "rules out";
    case NextCheck::Why::confirms:
      return "confirms";
    case NextCheck::Why::scan_again:
      return "too much to weigh";
    case NextCheck::Why::hand_in:
      return "hand in";
    case NextCheck::Why::none_needed:
      return "none needed";
    case NextCheck::Why::nothing_separates:
      return "nothing separates";
  }
  return "";
}

Json json_of_next(const CaseState& state) {
  const NextCheck& next = state.reasoning->assessment.next;
  Json json = {{"why", word_for_why(next.why)}};
  if (next.check) json["check"] = render::json_of(*next.check);
  if (next.if_good && std::isfinite(next.if_good->high))
    json["if_good"] = {{"low", rounded(next.if_good->low)}, {"high", rounded(next.if_good->high)}};
  if (next.exact) json["minutes_to_the_end"] = rounded(next.minutes);
  if (!next.together.empty()) json["together"] = next.together;
  return json;
}

std::string_view word_for_stage(CaseStage stage) {
  constexpr std::string_view words[] = {"scan first", "measuring", "scan again", "whole", "closed"};
  return words[static_cast<std::size_t>(stage)];
}

}  // namespace

std::string next_of(const Case& job, const CaseState& state, const Look& look) {
  Page page(look);
  page.text(0, vehicle_phrase(job));
  if (state.reasoning) {
    say_readings(page, job, *state.reasoning);
    say_likely(page, job, state.reasoning->assessment);
    if (state.stage == CaseStage::measuring) say_result(page, job, state.reasoning->assessment);
    say_refused(page, state.reasoning->assessment);
  }
  say_next(page, job, state);
  return page.take();
}

std::string json_of(const Case& job, const CaseState& state) {
  Json put_back = Json::array();
  for (const OffNow& off : state.put_back) put_back.push_back(off.what);
  Json all = {{"format", "whichwire.case-next.v1"},
              {"case", job.name},
              {"stage", word_for_stage(state.stage)},
              {"put_back", std::move(put_back)},
              {"take_off", state.take_off}};
  if (!state.reasoning) return dumped(all);
  const CaseReasoning& reasoning = *state.reasoning;
  Json readings = Json::array(), repairs = Json::array(), others = Json::array(), refused = Json::array();
  for (const CaseAnswer& answer : reasoning.answers) readings.push_back(json_of_answer(job, reasoning, answer));
  for (const Repair& repair : reasoning.assessment.repairs) repairs.push_back(json_of_repair(network_of(job), repair));
  for (const Check& check : reasoning.assessment.others) others.push_back(check.id);
  for (const Refused& one : reasoning.assessment.refused) refused.push_back({{"what", one.what}, {"why", one.why}});
  all["scan"] = reasoning.entry;
  all["readings"] = std::move(readings);
  all["repairs"] = std::move(repairs);
  all["outside"] = std::ceil(reasoning.assessment.outside * 1e6) / 1e6;  // a bound, never rounded down
  all["result"] = json_of_decision(job, reasoning.assessment);
  if (state.stage == CaseStage::measuring) all["next"] = json_of_next(state);
  all["others"] = std::move(others);
  all["refused"] = std::move(refused);
  return dumped(all);
}

}  // namespace whichwire
