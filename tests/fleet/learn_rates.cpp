// What proven cases teach of the rates: the formula, and that nothing is learned from any other case.
#include <doctest/doctest.h>

#include <whichwire/learned_rates.hpp>
#include <whichwire/render_fleet.hpp>

#include "fleet/numbers.hpp"
#include "fleet/units.hpp"

using namespace whichwire;

namespace {

constexpr const char* at = "2026-03-02T09:00:00Z";

/// A job on the invented compact car whose fuse F3 is proven open, as tests/cli/case_next.cpp takes it.
class Job {
 public:
  Job() : network_(test::shipped("compact-car")) {
    job_.name = "job.jsonl";
    add(CaseStart{"T-14", "compact-car.json", "{}", network_, {}});
    add(CaseScan{scan({"open F3"})});
  }
  Job& readings() {
    add(reading("F4", "12.5 V", "", "volts-loaded"));
    CaseReading fuse = reading("F3", "one contact dead", "feed:F3", "");
    fuse.outcome = "one-side";
    add(fuse);
    add(CaseWork{WorkKind::unplug, "ECM", ""});
    add(reading("ECM/A-1", "0.0 V", "", "volts-loaded"));
    add(CaseWork{WorkKind::replug, "ECM", ""});
    add(fuse);  // once more: one look may have been a slip
    return *this;
  }
  Job& repaired(test::Words left = {}) {
    add(CaseWork{WorkKind::replaced, "fuse F3", ""});
    add(CaseScan{scan(left)});
    return *this;
  }
  Job& closed() {
    add(CaseClose{});
    job_.closed_by = job_.entries.size();
    return *this;
  }
  const Case& job() const { return job_; }
  const Network& network() const { return network_; }

 private:
  Scan scan(test::Words words) const {
    Scan made = expected_scan(Effects(network_), test::faults_from(network_, words)).scan;
    made.key_stated = true;
    return made;
  }
  static CaseReading reading(const char* place, const char* text, const char* check, const char* mode) {
    CaseReading made;
    made.place = place;
    made.reading = text;
    made.check = check;
    made.mode = mode;
    if (made.check.empty()) made.key = KeyState::run;
    return made;
  }
  void add(CaseContents contents) {
    job_.entries.push_back({at, std::move(contents)});
    job_.undone.push_back(false);
  }

  Network network_;
  Case job_;
};

const LearnedRate* row(const LearnedRates& learned, std::string_view what) {
  const auto found = std::ranges::find(learned.rows, what, &LearnedRate::what);
  return found == learned.rows.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("rates move by what proven cases found against what the rates let expect: gamma and Poisson") {
  const Job job = Job().readings().repaired().closed();
  const std::vector<Case> cases(4, job.job());
  const LearnedRates learned = learn_rates(cases);
  REQUIRE(learned.passed_over == std::vector<std::string>{});
  CHECK(learned.cases == 4);
  double fuses = 0, all = 0;
  for (const Fault& fault : faults_of(job.network())) {
    if (fault.kind == FaultKind::not_fitted || fault.comes_and_goes) continue;
    const bool fuse = fault.part == PartKind::feed && job.network().feeds[fault.owner].kind == Feed::Kind::fuse;
    fuses += fuse ? fault.odds : 0;
    all += fault.odds;
  }
  const LearnedRate* const fuse = row(learned, "open.feed.fuse");
  REQUIRE(fuse != nullptr);
  CHECK(fuse->found == 4);
  CHECK(fuse->expected == doctest::Approx(4 * fuses / all));
  const double strength = fleet_number("learning-strength");
  CHECK(fuse->after == doctest::Approx(fuse->before * (strength + 4) / (strength + 4 * fuses / all)));
  const LearnedRate* const dead = row(learned, "dead");
  REQUIRE(dead != nullptr);
  CHECK(dead->found == 0);
  CHECK(dead->after < dead->before);
  CHECK(row(learned, "no-fault") == nullptr);
  CHECK(row(learned, "not-fitted") == nullptr);
  CHECK(row(learned, "comes-and-goes.wiring") == nullptr);
  CHECK(row(learned, "short.segment.ground")->expected > 0);
}

TEST_CASE("the table that is written is one that --rates reads, with the counts of each row") {
  const Job job = Job().readings().repaired().closed();
  const LearnedRates learned = learn_rates({&job.job(), 1});
  const std::string table = csv_of(learned);
  const RatesResult read = read_rates(table, "learned");
  for (const Mistake& mistake : read.mistakes) MESSAGE(text_of(mistake));
  REQUIRE(read.mistakes.empty());
  for (const Rate& rate : read.rates.rows) {
    const LearnedRate* const its = row(learned, rate.what);
    if (its == nullptr) continue;
    CHECK(rate.odds == doctest::Approx(its->after).epsilon(1e-5).scale(0));
    CHECK(rate.source.find(" of 1 proven, ") != std::string::npos);
  }
}

TEST_CASE("nothing is learned from a case that is open, not proven, not scanned after, or not whole; and why is said") {
  const std::vector<std::pair<Job, std::string>> jobs = {
      {Job().readings().repaired(), "it is not closed"},
      {Job().closed(), "its readings do not prove a repair"},
      {Job().repaired().closed(), "its readings do not prove a repair"},
      {Job().readings().closed(), "it has no scan after the repair"},
      {Job().readings().repaired({"open F3"}).closed(), "its last scan shows a fault"}};
  for (const auto& one : jobs) {
    const LearnedRates learned = learn_rates({&one.first.job(), 1});
    CHECK(learned.cases == 0);
    CHECK(learned.rows.empty());
    CHECK(learned.passed_over == std::vector<std::string>{"job.jsonl: " + one.second});
  }
}
