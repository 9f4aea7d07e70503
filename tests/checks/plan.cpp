// Which checks come first. Rankings by hand over the invented Hollin Moor.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <whichwire/check.hpp>

#include "checks/knowledge.hpp"
#include "checks/ranking.hpp"

using namespace moor;

namespace {

CheckPlan plan_for(const Network& net, const Ranking& ranking, const Scan& scan = scan_with_key_on()) {
  return plan_checks(Effects(net), {}, ranking, scan);
}

CheckPlan plan_for(const Ranking& ranking, const Scan& scan = scan_with_key_on()) {
  return plan_for(network(), ranking, scan);
}

std::vector<std::string> ids(const CheckPlan& plan) {
  std::vector<std::string> all;
  for (const Check& check : plan.checks) all.push_back(check.id);
  return all;
}

std::size_t place(const CheckPlan& plan, const std::string& id) {
  const auto all = ids(plan);
  return static_cast<std::size_t>(std::find(all.begin(), all.end(), id) - all.begin());
}

bool has(const CheckPlan& plan, const std::string& id) { return place(plan, id) < plan.checks.size(); }

/// The engine controller is silent, by anything local to it.
Ranking silent_ecm() {
  return ranked({explained(0.97, {with_odds(open_part(PartKind::power_pin, ECM, 1), 0.003)},
                           {{with_odds(open_part(PartKind::power_pin, ECM, 0), 0.003)},
                            {with_odds(open_segment(DRV, 3), 0.0025)},
                            {with_odds(open_part(PartKind::feed, F11), 0.0015)},
                            {with_odds(dead(ECM), 0.00025)}})});
}

Ranking silent_srs() {
  return ranked({explained(0.95, {with_odds(open_part(PartKind::power_pin, SRS, 0), 0.003)},
                           {{with_odds(open_part(PartKind::ground_pin, SRS, 0), 0.003)},
                            {with_odds(open_part(PartKind::feed, F7), 0.0015)},
                            {with_odds(open_part(PartKind::ground, G40), 0.0015)},
                            {with_odds(dead(SRS), 0.00025)},
                            {with_odds(open_segment(BDY, 2), 0.0002)}})});
}

/// A low wire of the drivetrain bus touches ground somewhere.
Ranking shorted_bus() {
  std::vector<Explanation> lines;
  for (std::size_t item = 0; item < 6; ++item) {
    lines.push_back(explained(1.0 / 6, {short_of(DRV, item, Lines::both, ShortTo::other_line)}));
  }
  return ranked(lines);
}

}  // namespace

TEST_CASE("a silent module is checked at its feeds under load and at its fuse, each with place and wire") {
  const CheckPlan plan = plan_for(silent_ecm());
  CHECK(has(plan, "feed:ECM/A-27"));
  CHECK(has(plan, "feed:ECM/A-3"));
  CHECK(has(plan, "feed:F11"));
  CHECK(plan.refused.empty());
}

TEST_CASE("a fuse that takes two minutes comes before the plug that takes six, at like suspicion") {
  const CheckPlan plan = plan_for(ranked(
      {explained(0.5, {open_part(PartKind::feed, F11)}), explained(0.5, {open_part(PartKind::power_pin, ECM, 0)})}));
  CHECK(place(plan, "feed:F11") == 0);
  CHECK(plan.checks.at(0).minutes < plan.checks.at(place(plan, "plug:ECM")).minutes);
}

TEST_CASE("checks are in the order of bits per minute") {
  for (const CheckPlan& plan : {plan_for(silent_ecm()), plan_for(shorted_bus())}) {
    REQUIRE(plan.checks.size() > 2);
    for (std::size_t i = 1; i < plan.checks.size(); ++i) {
      const Check &better = plan.checks[i - 1], &worse = plan.checks[i];
      CHECK(better.gain_bits / better.minutes >= worse.gain_bits / worse.minutes);
    }
  }
}

TEST_CASE("the check that halves the suspects comes before one that finds a single one and takes longer") {
  const CheckPlan plan = plan_for(shorted_bus());
  // C50 has three suspected segments on either side: near one bit, and five minutes away.
  REQUIRE(place(plan, "split:DRV@C50") == 0);
  const double right = knowledge().check("split").seen;
  const double wrong = (1 - right) / 2;
  // Three outcomes: good (never meant), this side, that side; worked as H(outcome) - H(outcome given side).
  const double side = (right + wrong) / 2;
  const double of_outcome = -2 * side * std::log2(side) - wrong * std::log2(wrong);
  const double given_side = -right * std::log2(right) - 2 * wrong * std::log2(wrong);
  CHECK(plan.checks[0].gain_bits == doctest::Approx(of_outcome - given_side));
}

TEST_CASE("a restraint module is never a measuring point, and the plan says why") {
  const CheckPlan plan = plan_for(silent_srs());
  for (const Check& check : plan.checks) {
    CHECK(check.part != "SRS");
    CHECK(check.part != "F7");
    CHECK(check.part != "G40");
  }
  REQUIRE_FALSE(plan.refused.empty());
  std::set<std::string> parts;
  for (const Refused& refused : plan.refused) {
    CHECK(parts.insert(refused.what).second);
    CHECK(refused.why.find("restraint") != std::string::npos);
  }
  CHECK(parts.count("SRS") == 1);
}

TEST_CASE("a high-voltage part is never a measuring point, and the plan says why") {
  Network net = network();
  net.modules[ECM].place.hazards = {"high-voltage"};
  const CheckPlan plan = plan_for(net, silent_ecm());
  for (const Check& check : plan.checks) CHECK(check.part != "ECM");
  REQUIRE_FALSE(plan.refused.empty());
  CHECK(plan.refused[0].why.find("high-voltage") != std::string::npos);
}

TEST_CASE("the list is short, without two checks at one place and without more than three at one plug") {
  Ranking ranking = silent_ecm();
  for (std::size_t item = 0; item < 6; ++item)
    ranking.explanations.push_back(explained(0.005, {open_segment(DRV, item)}));
  const CheckPlan plan = plan_for(ranking);
  CHECK(plan.checks.size() <= 8);
  CHECK(plan.checks.size() >= 3);
  std::set<std::string> places;
  std::size_t at_ecm = 0;
  for (const Check& check : plan.checks) {
    CHECK(places.insert(check.part + "/" + check.pin).second);
    at_ecm += check.part == "ECM" && check.mode != "ask" && check.id.find("reference") == std::string::npos ? 1 : 0;
  }
  CHECK(at_ecm <= 3);
}

TEST_CASE("where one repair is certain what would show it is listed, to see it before anything is bought") {
  const CheckPlan plan = plan_for(ranked({explained(1.0, {open_part(PartKind::feed, F11)})}));
  REQUIRE_FALSE(plan.checks.empty());
  CHECK(plan.checks[0].id == "feed:F11");
  CHECK(plan.checks[0].gain_bits == doctest::Approx(0));
  CHECK(plan.checks.size() <= 3);
}

TEST_CASE("where no fault is needed or nothing fits nothing is measured") {
  CHECK(plan_for(ranked({explained(1.0, {})})).checks.empty());
  CHECK(plan_for(ranked({})).checks.empty());
}

TEST_CASE("a ranking with much outside still says what to do about what it lists") {
  const CheckPlan plan = plan_for(ranked({explained(0.002, {open_part(PartKind::feed, F11)}),
                                          explained(0.001, {open_part(PartKind::power_pin, ECM, 0)})}));
  CHECK(has(plan, "feed:F11"));
  CHECK(has(plan, "plug:ECM"));
}

TEST_CASE("the battery comes first when the scan says that it was low") {
  Scan scan = scan_with_key_on();
  scan.battery_volts = 11.2;
  const CheckPlan plan = plan_for(silent_ecm(), scan);
  CHECK(place(plan, "battery") == 0);
  CHECK(plan.checks.size() <= 8);
  CHECK_FALSE(has(plan_for(silent_ecm()), "battery"));
}

TEST_CASE("history codes alone are cleared and scanned for again") {
  const CheckPlan plan = plan_for(ranked({explained(0.5, {}), explained(0.5, {passing(open_segment(DRV, 3))})}));
  CHECK(has(plan, "rescan"));
}

TEST_CASE("whether an optional module is there at all is asked before its plug is sought") {
  const CheckPlan plan = plan_for(ranked({explained(0.6, {module_fault(FaultKind::not_fitted, HVC)}),
                                          explained(0.4, {open_part(PartKind::power_pin, HVC, nowhere)})}));
  CHECK(place(plan, "fitted:HVC") == 0);
}

TEST_CASE("a module that may hold its bus is unplugged, a restraint module never") {
  const CheckPlan plan = plan_for(ranked({explained(0.5, {module_fault(FaultKind::holds, HVC, BDY)}),
                                          explained(0.5, {module_fault(FaultKind::holds, SRS, BDY)})}));
  CHECK(has(plan, "unplug:HVC@BDY"));
  CHECK_FALSE(has(plan, "unplug:SRS@BDY"));
}

TEST_CASE("what was added later is taken off early when it is suspected") {
  const Fault device{.kind = FaultKind::added_device, .part = PartKind::bus, .owner = DRV, .bus = DRV, .to = {}};
  const CheckPlan plan =
      plan_for(ranked({explained(0.5, {device}), explained(0.5, {module_fault(FaultKind::babbles, ABS, DRV)})}));
  CHECK(place(plan, "added") == 0);
}

TEST_CASE("no sentence of a plan has an unfilled name in it") {
  for (const Ranking& ranking : {silent_ecm(), silent_srs(), shorted_bus()}) {
    for (const Check& check : plan_for(ranking).checks) {
      CHECK(check.measure.find('{') == std::string::npos);
      CHECK(check.minutes > 0);
      CHECK(check.expect.size() >= 2);
      CHECK_FALSE(check.cautions.empty());
      for (const Expectation& expect : check.expect) {
        CHECK(expect.outcome.find('{') == std::string::npos);
        CHECK(expect.means.find('{') == std::string::npos);
      }
    }
  }
}
