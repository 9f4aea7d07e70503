// What supply checks say, where, and which faults they see. Oracle: common practice, no source.
#include "checks/supply_checks.hpp"

#include <doctest/doctest.h>

#include "checks/ranking.hpp"

using namespace moor;

namespace {

const Network net = network();
const Scan scan = scan_with_key_on();
const Job job{net, scan};

/// The name of the outcome that the check shows when exactly this fault is there.
std::string shown(const Candidate& candidate, const Fault& fault) {
  return candidate.outcomes.at(candidate.sees({fault}).outcome);
}

Fault reference_short(ShortTo to) {
  Fault fault = open_part(PartKind::reference, ECM, 0);
  fault.kind = FaultKind::short_circuit;
  fault.to = to;
  return fault;
}

}  // namespace

TEST_CASE("the far feed pin of a silent module is checked with the key on when its feed is switched") {
  const Check far = feed_pin_check(job, ECM, 1).check;
  CHECK(far.id == "feed:ECM/A-27");
  CHECK(far.key == KeyState::run);
  CHECK(far.mode == "volts-loaded");
  CHECK(far.pin == "A-27");
  CHECK(far.connector == "A");
  CHECK(far.wire == "VT");
  CHECK(far.where == "engine bay, left");
  CHECK(far.measure.find("fuse F4") != std::string::npos);
  CHECK(feed_pin_check(job, ECM, 0).check.key == KeyState::off);
}

TEST_CASE("a feed is good within half a volt of the battery, and says no volts where the battery is not known") {
  const Expectation good = feed_pin_check(job, ECM, 1).check.expect.at(0);
  CHECK(good.outcome == "good");
  CHECK(good.low.value() == doctest::Approx(12.1));
  CHECK(good.high.value() == doctest::Approx(12.9));
  const Scan unknown;
  CHECK_FALSE(feed_pin_check({net, unknown}, ECM, 1).check.expect.at(0).low.has_value());
}

TEST_CASE("a ground is good when it loses no more than a tenth of a volt under load") {
  const Check ground = ground_pin_check(job, ECM, 1).check;
  CHECK(ground.id == "ground:ECM/B-40");
  CHECK(ground.mode == "volts-drop");
  CHECK(ground.expect.at(0).high.value() == doctest::Approx(0.1));
}

TEST_CASE("the time of a check is the way there as the network gives it, and the work") {
  CHECK(feed_pin_check(job, ECM, 0).check.minutes == doctest::Approx(4 + 2));
  CHECK(feed_pin_check(job, TCM, 0).check.minutes ==
        doctest::Approx(knowledge().check("feed-pin").reach + knowledge().check("feed-pin").minutes));
}

TEST_CASE("a feed pin is dark when its wire, its fuse or anything above is open, and not for the next pin's wire") {
  const Candidate far = feed_pin_check(job, ECM, 1);
  CHECK(shown(far, open_part(PartKind::power_pin, ECM, 1)) == "none");
  CHECK(shown(far, open_part(PartKind::feed, F4)) == "none");
  CHECK(shown(far, open_part(PartKind::feed, IGN)) == "none");
  CHECK(shown(far, open_part(PartKind::power_pin, ECM, 0)) == "good");
  CHECK(shown(far, open_part(PartKind::feed, F11)) == "good");
  CHECK(shown(far, open_part(PartKind::power_pin, TCM, 1)) == "good");
  CHECK(shown(far, dead(ECM)) == "good");
}

TEST_CASE("a module that back-feeds has lost one of its pins, each as likely as the others") {
  const Fault fault = module_fault(FaultKind::back_feeds, ECM, DRV);
  CHECK(feed_pin_check(job, ECM, 0).sees({fault}).share == doctest::Approx(0.25));
  CHECK(ground_pin_check(job, ECM, 0).sees({fault}).share == doctest::Approx(0.25));
}

TEST_CASE("a ground pin shows its own wire and its ground point") {
  const Candidate ground = ground_pin_check(job, ECM, 0);
  CHECK(shown(ground, open_part(PartKind::ground_pin, ECM, 0)) == "none");
  CHECK(shown(ground, open_part(PartKind::ground, G12)) == "none");
  CHECK(shown(ground, open_part(PartKind::ground, G20)) == "good");
  CHECK(shown(ground, open_part(PartKind::ground_pin, ECM, 1)) == "good");
}

TEST_CASE("a module whose pins are not known has all its feed pins in one check") {
  const Check all = feed_pin_check(job, HVC, nowhere).check;
  CHECK(all.id == "feed:HVC");
  CHECK(all.pin.empty());
  CHECK(shown(feed_pin_check(job, HVC, nowhere), open_part(PartKind::power_pin, HVC, nowhere)) == "none");
}

TEST_CASE("at a fuse one dead contact is the fuse, two are something further up") {
  const Candidate fuse = feed_check(job, F4);
  CHECK(shown(fuse, open_part(PartKind::feed, F4)) == "one-side");
  CHECK(shown(fuse, open_part(PartKind::feed, IGN)) == "both-sides");
  CHECK(shown(fuse, open_part(PartKind::feed, F11)) == "good");
  CHECK(fuse.check.key == KeyState::run);
  CHECK(feed_check(job, F9).check.key == KeyState::off);
}

TEST_CASE("a feed that also feeds a restraint module is measured without a lamp, and says so") {
  const Check shared = feed_check(job, IGN).check;
  CHECK(shared.mode == "volts");
  CHECK(shared.measure.find("no lamp") != std::string::npos);
  CHECK(shared.cautions.at(0).find("restraint") != std::string::npos);
  CHECK(feed_check(job, F4).check.mode == "volts-loaded");
}

TEST_CASE("a feed or ground that only a restraint module uses has its hazard") {
  CHECK(feed_check(job, F7).hazards == std::vector<std::string>{"restraint"});
  CHECK(ground_point_check(job, G40).hazards == std::vector<std::string>{"restraint"});
  CHECK(feed_check(job, F11).hazards.empty());
}

TEST_CASE("a reference that comes back when a load is unplugged is pulled down by it, not a dead module") {
  const Candidate reference = reference_check(job, ECM, 0);
  CHECK(shown(reference, reference_short(ShortTo::ground)) == "back");
  CHECK(shown(reference, reference_short(ShortTo::supply)) == "above");
  CHECK(shown(reference, dead(ECM)) == "stays");
  CHECK(shown(reference, open_part(PartKind::feed, F4)) == "stays");
  CHECK(shown(reference, open_part(PartKind::ground, G12)) == "stays");
  CHECK(shown(reference, open_part(PartKind::ground_pin, ECM, 0)) == "good");
  CHECK(reference.check.measure.find("pedal sensor") != std::string::npos);
  CHECK(reference.check.expect.at(0).low.value() == doctest::Approx(4.8));
  CHECK(reference.check.expect.at(0).high.value() == doctest::Approx(5.2));
  CHECK(reference.check.key == KeyState::run);
}

TEST_CASE("the supply and ground of the diagnostic connector are loaded like any other") {
  const Candidate feed = connector_feed_check(job, 0);
  CHECK(feed.check.id == "feed:DLC/16");
  CHECK(shown(feed, open_part(PartKind::connector_power_pin, nowhere, 0)) == "none");
  CHECK(shown(feed, open_part(PartKind::feed, F30)) == "none");
  const Candidate ground = connector_ground_check(job, 0);
  CHECK(ground.check.id == "ground:DLC/4");
  CHECK(shown(ground, open_part(PartKind::connector_ground_pin, nowhere, 0)) == "none");
  CHECK(shown(ground, open_part(PartKind::ground, G20)) == "none");
}
