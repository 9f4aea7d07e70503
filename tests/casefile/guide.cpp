// What the guide asks at each stage of a job, and what it makes of what is typed.
#include <whichwire/case_guide.hpp>

#include "casefile/jobs.hpp"

namespace whichwire::test {
namespace {

using About = GuideQuestion::About;

/// A state in which this check is next.
CaseState with_check(const Check& check) {
  CaseState state;
  state.stage = CaseStage::measuring;
  state.reasoning.emplace();
  state.reasoning->assessment.next.why = NextCheck::Why::tells_most;
  state.reasoning->assessment.next.check = check;
  return state;
}

Check fuse() {
  Check check;
  check.id = "feed:F3";
  check.part = "F3";
  check.mode = "volts-loaded";
  check.key = KeyState::run;
  check.expect = {{"good", {}, {}, "", "good"},
                  {"one contact dead", 0.0, 2.0, "", "one-side"},
                  {"both contacts dead", 0.0, 2.0, "", "both-sides"}};
  return check;
}

CaseReading reading_of(const GuideAnswer& answer) {
  REQUIRE(answer.entry.has_value());
  return std::get<CaseReading>(*answer.entry);
}

}  // namespace

TEST_CASE("what is off comes back before anything else is asked, and what a check needs off goes off first") {
  CaseState state = with_check(fuse());
  CHECK(question_of(state).about == About::check);
  state.take_off = {"ECM"};
  CHECK(question_of(state).about == About::take_off);
  CHECK(question_of(state).work == WorkKind::unplug);
  state.put_back = {{WorkKind::fuse_out, "F4", "2026-03-02T09:00:00Z", 3}};
  CHECK(question_of(state).about == About::put_back);
  CHECK(question_of(state).what == "F4");
  CHECK(question_of(state).work == WorkKind::fuse_in);
  const GuideAnswer enter = answer_to(question_of(state), state, "");
  REQUIRE(enter.entry.has_value());
  CHECK(std::get<CaseWork>(*enter.entry).kind == WorkKind::fuse_in);
  CHECK(answer_to(question_of(state), state, "not yet").error == "Press Enter when it is done.");
}

TEST_CASE("an answer to a fuse is a letter, its words, or what the meter shows; anything else writes nothing") {
  const CaseState state = with_check(fuse());
  const GuideQuestion question = question_of(state);
  const CaseReading letter = reading_of(answer_to(question, state, " b "));
  CHECK(letter.outcome == "one-side");
  CHECK(letter.reading == "one contact dead");
  CHECK(letter.place == "F3");
  CHECK(letter.check == "feed:F3");
  CHECK(letter.key == KeyState::run);
  CHECK(reading_of(answer_to(question, state, "both contacts")).outcome == "both-sides");
  const CaseReading value = reading_of(answer_to(question, state, "12.4 V"));
  CHECK(value.outcome == "");
  CHECK(value.reading == "12.4 V");
  CHECK(answer_to(question, state, "purple").error == "Type a, b or c, or its words.");
  CHECK_FALSE(answer_to(question, state, "").entry.has_value());
}

TEST_CASE("a check that cannot be done is put aside by name") {
  const auto made = put_aside(fuse());
  CHECK(made.check == "feed:F3");
  CHECK(made.outcome == not_done);
}

TEST_CASE("a proven repair is asked for, programming where that is the repair; then the scan; then the close") {
  CaseState state = with_check(fuse());
  state.reasoning->assessment.next = {};
  state.reasoning->assessment.next.why = NextCheck::Why::none_needed;
  Decision& decision = state.reasoning->assessment.decision;
  decision.standing = Standing::proven;
  decision.repair = "F3";
  CHECK(question_of(state).about == About::repair);
  CHECK(question_of(state).work == WorkKind::replaced);
  decision.repair = "configure ECM";
  CHECK(question_of(state).work == WorkKind::programmed);
  decision.standing = Standing::refer;
  CHECK(question_of(state).about == About::scan);
  state.stage = CaseStage::scan_again;
  CHECK(question_of(state).about == About::scan);
  state.stage = CaseStage::whole;
  CHECK(question_of(state).about == About::close);
  CHECK_FALSE(answer_to(question_of(state), state, "perhaps").entry.has_value());
  CHECK(answer_to(question_of(state), state, "yes").entry.has_value());
  state.stage = CaseStage::closed;
  CHECK(question_of(state).about == About::nothing);
}

TEST_CASE("where old codes are to be cleared the scan after it is asked for, not whether any came back") {
  CaseState state = with_check(fuse());
  state.reasoning->assessment.next.why = NextCheck::Why::scan_again;
  CHECK(question_of(state).about == About::scan);
}

}  // namespace whichwire::test
