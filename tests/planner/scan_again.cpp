// Old codes are cleared before much is measured: what returns is current. The rule (common practice, no source): save
// all codes, clear them, run the vehicle, scan again, and follow only what returns. All on the invented Hollin Moor.
#include <algorithm>

#include "workshop.hpp"

namespace whichwire::test {
namespace {

struct OldCodes : Workshop {
  using Workshop::Workshop;
  /// Not ranked anew, where so small a network would leave nothing outside.
  void replan() {
    PlannerNumbers numbers = default_planner_numbers();
    REQUIRE(set_number(numbers, "rank-anew", 100));
    plan(numbers);
  }
};

/// A silent engine controller that another module misses; so much was left unweighed for each part that was weighed.
OldCodes job_with(CodeState state, double outside) {
  OldCodes job({"open DRV-4"});
  CodeSeen code;
  code.misses = "ECM";
  code.text = "no messages from ECM";
  code.state = state;
  const auto answering =
      std::ranges::find_if(job.scan.modules, [](const ModuleSeen& seen) { return seen.answer == Answer::yes; });
  REQUIRE(answering != job.scan.modules.end());
  for (ModuleSeen& seen : job.scan.modules) seen.codes.clear();
  answering->codes = {code};
  job.leave_outside(outside);
  job.replan();
  return job;
}

NextCheck::Why why(CodeState state, double outside) { return job_with(state, outside).assess().next.why; }

}  // namespace

TEST_CASE("where old codes left more unweighed than was weighed, they are cleared before anything is measured") {
  const Assessment now = job_with(CodeState::history, 3).assess();
  INFO(told(now));
  CHECK(now.next.why == NextCheck::Why::scan_again);
  REQUIRE(now.next.check);
  CHECK(now.next.check->id == "rescan");
  const auto& cautions = now.next.check->cautions;
  CHECK(
      std::ranges::any_of(cautions, [](const std::string& text) { return text.starts_with("Save the codes first"); }));
  REQUIRE(now.decision.missing.size() == 1);
  CHECK(now.decision.missing.front().starts_with("a scan after all codes were saved and cleared"));
}

TEST_CASE("a code whose state is not told may be old") {
  CHECK(why(CodeState::unknown, 3) == NextCheck::Why::scan_again);
}

TEST_CASE("codes that are all current are not cleared for that") {
  const Assessment now = job_with(CodeState::current, 3).assess();
  CHECK(now.next.why != NextCheck::Why::scan_again);
  REQUIRE(now.decision.missing.size() == 1);
  CHECK(now.decision.missing.front().starts_with("a scan with every silent module asked once more"));
}

TEST_CASE("a few old codes among many that are current are not cleared for that") {
  OldCodes job = job_with(CodeState::history, 3);
  const auto seen = std::ranges::find_if(job.scan.modules, [](const ModuleSeen& one) { return !one.codes.empty(); });
  CodeSeen current = seen->codes.front();
  current.state = CodeState::current;
  seen->codes.insert(seen->codes.end(), 4, current);
  job.replan();
  CHECK(job.assess().next.why == NextCheck::Why::scan_again);  // one of five
  seen->codes.push_back(current);
  job.replan();
  CHECK(job.assess().next.why != NextCheck::Why::scan_again);
}

TEST_CASE("where little was left unweighed a check that tells most comes first") {
  CHECK(why(CodeState::history, 0.01) == NextCheck::Why::tells_most);
}

TEST_CASE("who says that codes came back is asked for that scan, and not told to clear them again") {
  for (const CodeState state : {CodeState::history, CodeState::current}) {
    OldCodes job = job_with(state, 3);
    job.say("rescan", "back");
    Assessment now = job.assess();
    INFO(told(now));
    CHECK(now.next.why == NextCheck::Why::hand_in);
    REQUIRE(now.next.check);
    CHECK(now.next.check->measure.starts_with("Add the scan taken after clearing"));
    REQUIRE(now.decision.missing.size() == 1);
    CHECK(now.decision.missing.front().starts_with("the scan taken after clearing"));
    job.taken.insert(job.taken.begin(), not_scanned_once_more());
    now = job.assess();
    CHECK_FALSE(now.next.by_scan());
    CHECK(now.decision.missing.front().starts_with("a scan with every silent module asked once more"));
  }
}

TEST_CASE("who has no scan of the codes that came back goes on without it") {
  OldCodes job = job_with(CodeState::history, 3);
  job.say("rescan", "back");
  job.say("rescan", std::string(not_done));
  CHECK_FALSE(job.assess().next.by_scan());
}

TEST_CASE("where little was left unweighed codes that came back do not call for their scan") {
  OldCodes job = job_with(CodeState::history, 0.01);
  job.say("rescan", "back");
  CHECK_FALSE(job.assess().next.by_scan());
}

TEST_CASE("where no check is left the scan after clearing is asked for, though codes are current, but only once") {
  OldCodes job = job_with(CodeState::current, 0.5);
  Assessment now = job.assess();
  for (; !now.next.by_scan(); now = job.assess()) {
    INFO(told(now));
    REQUIRE(now.next.check);
    const std::string& id = now.next.check->id;
    job.say(id, id == "rescan" ? "back" : std::string(not_done));
  }
  CHECK(now.next.why == NextCheck::Why::hand_in);
  CHECK(job.taken.size() > 3);
  CHECK(now.decision.missing.front().starts_with("the scan taken after clearing"));
  job.taken.insert(job.taken.begin(), not_scanned_once_more());
  now = job.assess();
  CHECK_FALSE(now.next.check);
  CHECK(now.decision.missing.front().starts_with("a scan with every silent module asked once more"));
}

}  // namespace whichwire::test
