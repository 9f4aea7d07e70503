// From the entries of a case to what is known: which scan, which readings, what is in the way of the next check. The
// invented compact car; its engine controller is fed by fuses F3, F4 and F10.
#include <whichwire/case_state.hpp>
#include <whichwire/expected_scan.hpp>

#include "casefile/answer.hpp"
#include "jobs.hpp"

namespace whichwire::test {
namespace {

Scan scan_with(const std::vector<const char*>& faults) {
  const Effects effects(compact_car());
  std::vector<Fault> present;
  for (const char* words : faults) present.push_back(*parse_fault(compact_car(), words).fault);
  Scan scan = expected_scan(effects, present).scan;
  scan.battery_volts = 12.6;
  return scan;
}

CaseReading reading(const std::string& place, const std::string& text, const std::string& mode) {
  CaseReading made;
  made.place = place;
  made.reading = text;
  made.mode = mode;
  return made;
}

/// A case in memory; entries a minute apart.
struct Memory {
  Case job;

  Memory() {
    job.name = "job.jsonl";
    add(compact_start());
    std::get<CaseStart>(job.entries.front().contents).network = compact_car();
  }
  void add(const CaseContents& contents) {
    const std::string minute = std::to_string(10 + job.entries.size());
    if (const auto* const undo = std::get_if<CaseUndo>(&contents)) job.undone[undo->entry - 1] = true;
    job.entries.push_back({"2026-03-02T09:" + minute + ":00Z", contents});
    job.undone.push_back(false);
  }
  CaseState state() const { return state_of(job); }
  double probability(const std::string& repair) const {
    const CaseState now = state();
    for (const Repair& each : now.reasoning->assessment.repairs) {
      if (each.what == repair) return each.probability.low;
    }
    return 0;
  }
};

}  // namespace

TEST_CASE("without a scan a scan comes first; with one something is measured") {
  Memory job;
  CHECK(job.state().stage == CaseStage::scan_first);
  CHECK_FALSE(job.state().reasoning.has_value());
  job.add(CaseScan{scan_with({"open F3"})});
  const CaseState state = job.state();
  CHECK(state.stage == CaseStage::measuring);
  REQUIRE(state.reasoning.has_value());
  CHECK(state.reasoning->entry == 2);
  CHECK(state.reasoning->assessment.next.check.has_value());
}

TEST_CASE("a reading typed at a place without a check's name moves the ranking as the check does") {
  Memory by_place, by_check;
  for (Memory* job : {&by_place, &by_check}) job->add(CaseScan{scan_with({"open F3"})});
  const double before = by_place.probability("ECM/A-2");
  by_place.add(reading("ECM/A-2", "12.4 V", "volts-loaded"));
  CaseReading named = reading("ECM/A-2", "12.4 V", "volts-loaded");
  named.check = "feed:ECM/A-2";
  by_check.add(named);
  CHECK(by_place.probability("ECM/A-2") < before / 5);
  CHECK(by_place.probability("ECM/A-2") == doctest::Approx(by_check.probability("ECM/A-2")));
  CHECK(by_place.state().reasoning->answers.at(0).check == "feed:ECM/A-2");
  CHECK(by_place.state().reasoning->answers.at(0).entry == 3);
}

TEST_CASE("a reading that is taken back counts no more, and the same again counts as before") {
  Memory job;
  job.add(CaseScan{scan_with({"open F3"})});
  const double before = job.probability("F3");
  job.add(reading("F3", "seen broken", "look"));
  const double after = job.probability("F3");
  CHECK(after > before);
  job.add(CaseUndo{3});
  CHECK(job.probability("F3") == doctest::Approx(before));
  job.add(reading("F3", "seen broken", "look"));
  CHECK(job.probability("F3") == doctest::Approx(after));
}

TEST_CASE("volts without a load at a feed answer no check of the feed") {
  // An unloaded meter shows 12 V through one strand (common practice, no source).
  Memory job;
  job.add(CaseScan{scan_with({"dead ECM"})});
  job.add(reading("ECM/A-1", "12.5 V", "volts"));
  CHECK(job.state().reasoning->answers.at(0).check == "");
}

TEST_CASE("a reading in a key state in which nothing should be there is no doubt and answers no check") {
  const std::size_t ecm = index_of(compact_car().modules, "ECM");
  std::string pin;  // one of an ignition feed
  for (const PowerPin& each : compact_car().modules[ecm].power)
    if (each.feed != nowhere && !compact_car().feeds[each.feed].live[0]) pin = "ECM/" + each.pin;
  REQUIRE_FALSE(pin.empty());
  for (const char* volts : {"0.0 V", "0.2 V"}) {
    CAPTURE(volts);
    Memory job;
    job.add(CaseScan{scan_with({"open F3"})});
    const double before = job.probability(pin);
    CaseReading off = reading(pin, volts, "volts-loaded");
    off.key = KeyState::off;
    job.add(off);
    const CaseState state = job.state();
    const CaseAnswer& answer = state.reasoning->answers.at(0);
    CHECK_FALSE(answer.weighed.doubtful);
    CHECK(answer.check.empty());  // so that it rules out nothing, and the check is offered still
    CHECK(job.probability(pin) == doctest::Approx(before).epsilon(0.02).scale(0));
    Memory on;
    on.add(CaseScan{scan_with({"open F3"})});
    on.add(reading(pin, volts, "volts-loaded"));
    CHECK(on.state().reasoning->answers.at(0).check == "feed:" + pin);
    CHECK_FALSE(on.state().reasoning->answers.at(0).weighed.doubtful);
    CHECK(on.probability(pin) > before);
  }
}

TEST_CASE("a reference is not told to be good by its silence with the key off") {
  Memory job;
  job.add(CaseScan{scan_with({"open F3"})});
  const std::size_t ecm = index_of(compact_car().modules, "ECM");
  REQUIRE_FALSE(compact_car().modules[ecm].references.empty());
  CaseReading off = reading("ECM/" + compact_car().modules[ecm].references[0].id, "0.0 V", "volts");
  off.key = KeyState::off;
  job.add(off);
  CHECK(job.state().reasoning->answers.at(0).check.empty());
}

TEST_CASE("what was off when a reading was taken is taken into account") {
  Memory job;
  job.add(CaseScan{scan_with({"open F3"})});
  job.add(CaseWork{WorkKind::unplug, "ECM", ""});
  job.add(CaseWork{WorkKind::unplug, "camshaft sensor", ""});
  job.add(CaseWork{WorkKind::fuse_out, "F4", ""});
  const Situation then = situation_at(job.job, job.job.entries.size());
  CHECK(then.unplugged == std::vector<std::size_t>{index_of(compact_car().modules, "ECM")});
  CHECK(then.fuses_out == std::vector<std::size_t>{index_of(compact_car().feeds, "F4")});
  REQUIRE(then.loads_off.size() == 1);
  CHECK(then.loads_off[0] == LoadOff{index_of(compact_car().modules, "ECM"), 1, 2});
  job.add(CaseWork{WorkKind::fuse_in, "F4", ""});
  CHECK(situation_at(job.job, job.job.entries.size()).fuses_out.empty());
  CHECK(situation_at(job.job, 4).loads_off.size() == 1);
}

TEST_CASE("after a repair only a new scan proves anything, and readings from before it count no more") {
  Memory job;
  job.add(CaseScan{scan_with({"open F3"})});
  job.add(reading("F3", "seen broken", "look"));
  job.add(CaseWork{WorkKind::replaced, "F3", ""});
  CHECK(job.state().stage == CaseStage::scan_again);
  CHECK(job.state().reasoning->entry == 2);
  job.add(CaseScan{scan_with({})});
  CHECK(job.state().stage == CaseStage::whole);
  CHECK(job.state().reasoning->answers.empty());
  Memory in_vain = job;
  in_vain.job.entries.back().contents = CaseScan{scan_with({"open F3"})};
  CHECK(in_vain.state().stage == CaseStage::measuring);
  CHECK(in_vain.state().reasoning->answers.empty());
}

TEST_CASE("a second scan without a repair between them is a scan once more, and the readings stay with their answers") {
  Memory job;
  job.add(CaseScan{scan_with({"open F3"})});
  job.add(reading("F3", "seen broken", "look"));
  const auto before = job.state().reasoning->answers;
  CHECK_FALSE(scanned_again(job.job, 2));
  job.add(CaseScan{scan_with({"open F3"})});
  CHECK(scanned_again(job.job, 4));
  CHECK(job.state().reasoning->entry == 4);
  const auto after = job.state().reasoning->answers;
  REQUIRE(after.size() == 1);
  CHECK(after.front().entry == 3);
  CHECK(after.front().weighed.counted);
  CHECK(after.front().weighed.shift.repair == before.front().weighed.shift.repair);
  job.add(CaseWork{WorkKind::replaced, "F3", ""});
  job.add(CaseScan{scan_with({})});
  CHECK_FALSE(scanned_again(job.job, 6));
}

TEST_CASE("a scan taken while something was off does not replace the one before it") {
  Memory job;
  job.add(CaseScan{scan_with({"open F3"})});
  job.add(CaseWork{WorkKind::unplug, "ABS", ""});
  job.add(CaseScan{scan_with({"open F3", "dead ABS"})});
  CHECK(job.state().reasoning->entry == 2);
}

TEST_CASE("what is off and in the way is put back first; what the check wants off is unplugged first") {
  Memory job;
  job.add(CaseScan{scan_with({"open F3"})});
  job.add(CaseWork{WorkKind::unplug, "ABS", ""});
  const CaseState state = job.state();
  REQUIRE(state.put_back.size() == 1);
  CHECK(state.put_back[0].what == "ABS");
  CHECK(state.take_off.empty());
  Memory supply;
  supply.add(CaseScan{scan_with({"dead ECM"})});
  for (const char* fuse : {"F3", "F4", "F10"}) supply.add(reading(fuse, "12.5 V", "volts-loaded"));
  for (int i = 0; i < 20; ++i) {
    const NextCheck next = supply.state().reasoning->assessment.next;
    REQUIRE(next.check.has_value());
    if (next.measurement && !next.measurement->situation.unplugged.empty()) {
      CHECK(supply.state().take_off.at(0) == "ECM");
      return;
    }
    CaseReading answer = reading("ECM", "x", "");
    answer.check = next.check->id;
    answer.outcome = next.check->expect[0].name;
    supply.add(answer);
  }
  FAIL("no check at the plug came");
}

TEST_CASE("an outcome is meant by its letter, its words or the beginning of them") {
  Check check;
  check.expect = {{"nothing changes", {}, {}, "", "same"}, {"the others come back", {}, {}, "", "back"}};
  CHECK(outcome_meant(check, "a") == 0U);
  CHECK(outcome_meant(check, " B ") == 1U);
  CHECK(outcome_meant(check, "The others come back") == 1U);
  CHECK(outcome_meant(check, "nothing") == 0U);
  CHECK(outcome_meant(check, "back") == 1U);
  CHECK_FALSE(outcome_meant(check, "c").has_value());
  CHECK_FALSE(outcome_meant(check, "").has_value());
  CHECK_FALSE(outcome_meant(check, "perhaps").has_value());
  check.expect.push_back({"the others stay", {}, {}, "", "stay"});
  CHECK_FALSE(outcome_meant(check, "the others").has_value());
}

TEST_CASE("an answer in words is kept with the name of its outcome and read again alike") {
  CaseReading made = reading("ECM", "the others come back", "unplug");
  made.check = "unplug:ECM@CAN";
  made.outcome = "back";
  const std::string start = json_of(CaseEntry{"2026-03-02T09:00:00Z", compact_start()});
  const std::string line = json_of(CaseEntry{"2026-03-02T09:01:00Z", made});
  CHECK(line.find("\"outcome\":\"back\"") != std::string::npos);
  const CaseResult read = read_case(start + line, "job.jsonl");
  INFO(said(read.mistakes));
  REQUIRE(read.job.has_value());
  CHECK(std::get<CaseReading>(read.job->entries[1].contents).outcome == "back");
  std::string without = line;
  without.replace(without.find("\"check\":\"unplug:ECM@CAN\","), 25, "");
  CHECK(said(read_case(start + without, "job.jsonl").mistakes).find("the key `check` must say of which") !=
        std::string::npos);
}

}  // namespace whichwire::test
