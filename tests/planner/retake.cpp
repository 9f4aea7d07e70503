// A reading that may have been a slip of the hand is taken once more before a part is condemned on it. The rule of the
// trade behind it (common practice, no source): measure twice before a part is ordered. All on the invented Hollin
// Moor.
#include "planner/retake.hpp"

#include "planner/numbers.hpp"
#include "workshop.hpp"

namespace whichwire::test {
namespace {

/// Fuse F11 or the feed pin behind it: the fuse was called good, and the pin is dead. Were that a slip, it is the fuse.
Workshop all_hangs_on_the_fuse() {
  Workshop job({"open F11"});
  for (Explanation& each : job.ranking.explanations) {
    const bool there = !each.faults.empty() && !each.faults[0].comes_and_goes;
    const std::string text = there ? text_of(job.network, each.faults[0]) : "";
    const double weight = text == "open F11"       ? 0.44
                          : text == "open ECM/A-3" ? 0.55
                                                   : 0.01 / static_cast<double>(job.ranking.explanations.size());
    each.probability = {weight, weight};
  }
  job.plan();
  job.say("feed:F11", "good");
  job.type("feed:ECM/A-3", "0.01 V");
  return job;
}

}  // namespace

TEST_CASE("a part is not proven while it may well hang on one slip of the probe: that reading is taken once more") {
  const Workshop job = all_hangs_on_the_fuse();
  const Assessment now = job.assess();
  INFO(told(now));
  REQUIRE(now.repairs.front().what == "ECM/A-3");
  CHECK(now.repairs.front().probability.low > number_of(default_planner_numbers(), "proven"));
  CHECK(now.decision.standing == Standing::probable);
  CHECK(now.decision.missing == std::vector<std::string>{"a second reading at F11"});
  CHECK(now.next.why == NextCheck::Why::once_more);
  REQUIRE(now.next.check.has_value());
  CHECK(now.next.check->id == "feed:F11");
}

TEST_CASE("a reading that came out alike twice carries the proof") {
  Workshop job = all_hangs_on_the_fuse();
  job.say("feed:F11", "good");
  const Assessment now = job.assess();
  INFO(told(now));
  CHECK(now.decision.standing == Standing::proven);
  CHECK(now.decision.repair == "ECM/A-3");
  CHECK(now.next.why == NextCheck::Why::none_needed);
}

TEST_CASE("a reading that was a slip condemns nothing: taken once more it shows the part that is at fault") {
  Workshop job = all_hangs_on_the_fuse();
  job.work();
  const Assessment now = job.assess();
  INFO(job.ids() << "; " << told(now));
  CHECK(now.decision.standing == Standing::proven);
  CHECK(now.decision.repair == "F11");
}

TEST_CASE("a fuse that was seen to be blown is not looked at once more: eyes do not slip off a terminal") {
  Workshop job({"open F11"});
  job.type("feed:ECM/A-3", "0.01 V");
  job.type("feed:F11", "seen broken");
  const Assessment now = job.assess();
  INFO(told(now));
  CHECK(now.decision.repair == "F11");
  CHECK(now.decision.standing == Standing::proven);
  job.taken.back() = {"R2", "feed:F11", {}, {}, "one-side"};
  CHECK(job.assess().next.why == NextCheck::Why::once_more);
}

TEST_CASE("a reading that cannot be taken once more holds nothing up") {
  Workshop job = all_hangs_on_the_fuse();
  job.taken.push_back({"R9", "feed:F11", {}, {}, std::string(not_done)});
  const Assessment now = job.assess();
  INFO(told(now));
  CHECK(now.decision.standing == Standing::proven);
}

TEST_CASE("no reading is taken once more where that costs more minutes than a wrong repair would") {
  Workshop job = all_hangs_on_the_fuse();
  PlannerNumbers numbers = default_planner_numbers();
  REQUIRE(set_number(numbers, "cost-wrong-repair", 5));
  REQUIRE(set_number(numbers, "cost-come-back", 5));
  job.plan(numbers);
  const Assessment now = job.assess();
  INFO(told(now));
  CHECK(now.decision.standing == Standing::proven);
  CHECK(now.next.why == NextCheck::Why::none_needed);
}

TEST_CASE("while the technician is still at the place, a reading taken once more costs the work and not the way") {
  const auto minutes = [](const Assessment& now, bool whole) {
    REQUIRE(now.next.check.has_value());
    CHECK(now.next.why == NextCheck::Why::once_more);
    if (!whole) return now.next.check->minutes;
    return std::ranges::find(now.known, now.next.check->id, &Check::id)->minutes;
  };
  const Assessment elsewhere = all_hangs_on_the_fuse().assess();
  CHECK(minutes(elsewhere, false) == minutes(elsewhere, true));
  Workshop job({"open ECM/A-27"});
  job.type("reference:ECM/5V-1", "1.61 V");
  job.type("load:ECM/5V-1/pedal sensor", "5.03 V");
  const Assessment there = job.assess();
  INFO(told(there));
  CHECK(minutes(there, false) < minutes(there, true));
}

}  // namespace whichwire::test
