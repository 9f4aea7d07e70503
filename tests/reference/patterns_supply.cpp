// Patterns of the trade about one silent module, gateways, shared supplies and the connector, as executable cases.
// Source of every pattern: common practice, no source. Numbered as in the list of 43 patterns of the trade that the
// project works from; what is looked at is the verdict and which check comes first.
#include <doctest/doctest.h>

#include "reference/fell.hpp"

using namespace fell;

TEST_CASE("P1: nobody answers and the tool is dark: the connector's supply and ground come first") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).all_silent());
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::connector);
  CHECK(first_of(answered.plan, {"feed:DLC", "ground:DLC", "feed:F9", "look:DLC"}) == 0);
  CHECK(first_of(answered.plan, {"feed:DLC", "feed:F9"}) <= 2);
}

TEST_CASE("P2: nobody answers a powered tool while the vehicle runs: connector pins and stub, not the network") {
  const Network net = network();
  const Answered answered = locate_in(
      net, Says(net).all_silent().answer("IMM", Answer::yes).own_battery().works("crank", true).works("gauges", true));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::connector);
  CHECK(first_of(answered.plan, {"look:DLC", "ohms:DIAG@DLC", "shorts:DIAG@DLC"}) == 0);
}

TEST_CASE("P3: nobody with a switched feed answers and nothing cranks: the common feed, not the bus") {
  const Network net = network();
  const Answered answered =
      locate_in(net, Says(net)
                         .silent({"ECM", "TCM", "EPS", "ABS", "IPC", "BCM", "HVC", "SEA", "IMM", "YAW", "WIP", "RLS"})
                         .works("crank", false)
                         .works("gauges", false));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::supply);
  CHECK(answered.verdict.parts.front() == "IGN");
}

TEST_CASE("P6: one silent, all its partners miss it: its feeds, grounds and plug under load, then itself") {
  const Network net = network();
  Says says(net);
  says.silent({"TCM"});
  for (const char* reporter : {"ECM", "EPS", "ABS", "GWM"}) says.misses(reporter, {"TCM"});
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::module);
  CHECK(answered.verdict.parts == Ids{"TCM"});
  CHECK(answered.verdict.probability > 0.9);
  CHECK(first_of(answered.plan, {"feed:F4", "feed:TCM", "ground:TCM"}) == 0);
}

TEST_CASE("P7: one silent that nobody misses and not every vehicle has: ask whether it is there") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).silent({"SEA"}));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::none);
  CHECK(first_of(answered.plan, {"fitted:SEA"}) == 0);
}

TEST_CASE("P22: several on different buses silent: the fuse that they share, not the buses") {
  const Network net = network();
  Says says(net);
  says.silent({"ABS", "IPC", "YAW"});
  for (const char* reporter : {"ECM", "EPS", "TCM"}) says.misses(reporter, {"ABS"});
  for (const char* reporter : {"BCM", "HVC"}) says.misses(reporter, {"IPC"});
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::supply);
  CHECK(answered.verdict.parts.front() == "F5");
  CHECK(first_of(answered.plan, {"feed:F5"}) == 0);
}

TEST_CASE(
    "P25: gateway silent, only the module with its own connector pin answers: load the gateway's feed and ground") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).all_silent().answer("IMM", Answer::yes).works("crank", false));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::gateway);
  CHECK(answered.verdict.parts.front() == "GWM");
  CHECK(first_of(answered.plan, {"feed:F1", "feed:GWM", "ground:GWM"}) <= 1);
}

TEST_CASE(
    "P37: engine controller silent, no crank, all others fine: its feeds and its 5-volt reference are in the plan") {
  const Network net = network();
  Says says(net);
  says.silent({"ECM"}).works("crank", false);
  for (const char* reporter : {"TCM", "EPS", "ABS", "IPC"}) says.misses(reporter, {"ECM"});
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::module);
  CHECK(answered.verdict.parts == Ids{"ECM"});
  CHECK(first_of(answered.plan, {"feed:F2", "feed:F3", "feed:ECM"}) == 0);
  CHECK(first_of(answered.plan, {"reference:ECM/5V-1"}) < answered.plan.checks.size());
}

TEST_CASE("P35: all responders of a LIN and their commander silent: the commander, not the LIN") {
  const Network net = network();
  const Answered answered =
      locate_in(net, Says(net).silent({"BCM", "WIP", "RLS"}).misses("HVC", {"BCM"}).misses("IPC", {"BCM"}));
  CAPTURE(listed(answered));
  CHECK((answered.verdict.verdict_class == VerdictClass::gateway ||
         answered.verdict.verdict_class == VerdictClass::module));
  CHECK(answered.verdict.parts.front() == "BCM");
  CHECK(first_of(answered.plan, {"feed:BCM", "ground:BCM", "plug:BCM"}) <= 1);
}

TEST_CASE("P36: one responder of a LIN silent, its neighbour answers: that responder's plug, feed and stub") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).silent({"WIP"}).misses("BCM", {"WIP"}));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::module);
  CHECK(answered.verdict.parts == Ids{"WIP"});
  CHECK(first_of(answered.plan, {"feed:WIP", "plug:WIP", "ground:WIP"}) == 0);
}

TEST_CASE("P42: a module misses only the sensor on its private pair: that sensor and its pair, not the main bus") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).silent({"YAW"}).misses("ABS", {"YAW"}));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::module);
  CHECK(answered.verdict.parts == Ids{"YAW"});
  for (const Check& check : answered.plan.checks) CHECK(check.id.find("DRV") == std::string::npos);
}
