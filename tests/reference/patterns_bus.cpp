// Patterns of the trade about segments, whole buses, rings and LIN, as executable cases.
// Source of every pattern: common practice, no source. Numbered as in the list of 43 patterns of the trade that the
// project works from; what is looked at is the verdict and which check comes first.
#include <doctest/doctest.h>

#include <algorithm>

#include "reference/fell.hpp"

using namespace fell;

namespace {

/// All responders of the LIN silent, the body controller that leads it answers.
Says lin_silent(const Network& net) { return Says(net).silent({"WIP", "RLS"}).misses("BCM", {"WIP", "RLS"}); }

/// Everyone behind the gateway's port to the drivetrain bus is silent; the body misses whom it listens to.
Says drive_bus_silent(const Network& net) {
  Says says(net);
  says.silent({"ECM", "TCM", "EPS", "ABS", "YAW"});
  says.misses("GWM", {"ECM", "TCM", "EPS", "ABS"}).misses("IPC", {"ECM", "ABS"}).misses("BCM", {"ECM"});
  return says;
}

bool among(VerdictClass found, std::initializer_list<VerdictClass> allowed) {
  return std::find(allowed.begin(), allowed.end(), found) != allowed.end();
}

}  // namespace

TEST_CASE("P4: nobody on one bus while the others are fine: ohms on that bus, before anything is unplugged") {
  const Network net = network();
  const Answered answered = locate_in(net, drive_bus_silent(net));
  CAPTURE(listed(answered));
  CHECK(among(answered.verdict.verdict_class, {VerdictClass::bus, VerdictClass::gateway}));
  const std::size_t ohms = first_of(answered.plan, {"ohms:DRV", "shorts:DRV", "split:DRV"});
  CHECK(ohms <= 1);
  CHECK(ohms < first_of(answered.plan, {"unplug:"}));
}

TEST_CASE("P11: the far end of a bus silent, the near end misses only those: the trunk before the first silent one") {
  const Network net = network();
  Says says(net);
  says.silent({"ECM", "TCM", "EPS"});
  says.misses("GWM", {"ECM", "TCM", "EPS"}).misses("ABS", {"ECM", "TCM", "EPS"}).misses("IPC", {"ECM"});
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::segment);
  CHECK(answered.verdict.parts.size() >= 2);
  for (const std::string& part : answered.verdict.parts) CHECK((part == "DRV-2" || part == "DRV-3"));
  CHECK(first_of(answered.plan, {"split:DRV@C1", "look:C1", "ohms:DRV"}) == 0);
}

TEST_CASE("P16: a bus dead by a short is split at its connector, long before modules are unplugged one by one") {
  const Network net = network();
  const Answered answered = locate_in(net, drive_bus_silent(net).code("GWM", "U0001-88"));
  CAPTURE(listed(answered));
  CHECK(first_of(answered.plan, {"split:DRV@C1"}) == 0);
}

TEST_CASE("P17: thousands of ohms from a bus wire to ground are good, tens to hundreds are not") {
  const Network net = network();
  const Answered answered = locate_in(net, lin_silent(net));
  CAPTURE(listed(answered));
  const std::size_t at = first_of(answered.plan, {"shorts:LIN"});
  REQUIRE(at < answered.plan.checks.size());
  const Check& check = answered.plan.checks[at];
  for (const double normal : {13000.0, 25000.0}) CHECK(normal >= check.expect.at(0).low.value());
  for (const double suspicious : {30.0, 250.0}) CHECK(suspicious <= check.expect.at(1).high.value());
}

TEST_CASE("P24: the gateway answers, nothing behind one port does: measure beyond the gateway, not at the connector") {
  const Network net = network();
  const Answered answered = locate_in(net, drive_bus_silent(net));
  CAPTURE(listed(answered));
  CHECK(first_of(answered.plan, {"ohms:DRV", "shorts:DRV", "split:DRV"}) <
        first_of(answered.plan, {"ohms:DIAG", "look:DLC"}));
  for (const Check& check : answered.plan.checks) CHECK(check.part != "DLC");
}

TEST_CASE("P33: only the head of a ring answers: the ring, its links and its members' feeds, not many dead units") {
  const Network net = ring();
  const Answered answered =
      locate_in(net, Says(net).silent({"AMP", "NAV", "TEL"}).misses("HEAD", {"AMP", "NAV", "TEL"}));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::bus);
  CHECK(answered.verdict.parts == Ids{"RING"});
  CHECK(first_of(answered.plan, {"ring:RING"}) == 0);
  CHECK(first_of(answered.plan, {"feed:AMP", "feed:NAV", "feed:TEL"}) < answered.plan.checks.size());
}

TEST_CASE("P34: all responders of a LIN dead, the commander answers: the LIN wire, not the commander") {
  const Network net = network();
  const Answered answered = locate_in(net, lin_silent(net));
  CAPTURE(listed(answered));
  CHECK((answered.verdict.parts == Ids{"LIN"} || answered.verdict.parts == Ids{"LIN-1"}));
  CHECK(first_of(answered.plan, {"shorts:LIN", "continuity:LIN"}) == 0);
  CHECK(first_of(answered.plan, {"feed:BCM", "ground:BCM"}) == answered.plan.checks.size());
}

TEST_CASE("P19: a bus that comes back with a module unplugged leads to its feeds and grounds, not to a new module") {
  const Network net = network();
  const Answered answered = locate_in(net, lin_silent(net));
  CAPTURE(listed(answered));
  const std::size_t at = first_of(answered.plan, {"unplug:"});
  REQUIRE(at < answered.plan.checks.size());
  const Expectation& back = answered.plan.checks[at].expect.at(1);
  CHECK(back.means.find("not condemned") != std::string::npos);
  CHECK(back.means.find("feeds and grounds") != std::string::npos);
}
