// Patterns of the trade in which the network is not what is wrong, or not now, as executable cases.
// Source of every pattern: common practice, no source. Numbered as in the list of 43 patterns of the trade that the
// project works from; what is looked at is the verdict and which check comes first.
#include <doctest/doctest.h>

#include "reference/fell.hpp"

using namespace fell;

TEST_CASE("P8: silent to the tool while its work goes on: no dead module") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).silent({"ECM"}).works("crank", true).works("gauges", true));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class != VerdictClass::module);
}

TEST_CASE("P9: a module that answers but was missed by many: it came and went, history is not a fault now") {
  const Network net = network();
  Says says(net);
  for (const char* reporter : {"ECM", "EPS", "ABS", "GWM"}) says.misses(reporter, {"TCM"}, CodeState::history);
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::intermittent);
  CHECK(answered.verdict.parts == Ids{"TCM"});
}

TEST_CASE("P10: one module missed everyone and nobody missed it the less: its own stub and port, not all the others") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).misses("TCM", {"ECM", "EPS", "ABS", "GWM"}, CodeState::history));
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::intermittent);
  CHECK(answered.verdict.parts.front() == "TCM");
}

TEST_CASE("P26: all answer, some refuse: proof of life, not a fault") {
  const Network net = network();
  Says says(net);
  for (const char* id : {"ECM", "TCM", "BCM", "ABS"}) says.answer(id, Answer::refused);
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::none);
  CHECK(answered.verdict.probability > 0.9);
}

TEST_CASE("P27: many codes from one low battery, all answer now: the battery first, no parts") {
  const Network net = network();
  Says says(net);
  for (const char* reporter : {"ECM", "EPS", "ABS", "TCM"}) says.misses(reporter, {"GWM"}, CodeState::history, 8.1);
  says.misses("GWM", {"ECM", "ABS"}, CodeState::history, 8.1).misses("BCM", {"ECM"}, CodeState::history, 8.1);
  says.battery(11.6);
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.plan.checks.at(0).id == "battery");
  CHECK(answered.verdict.verdict_class == VerdictClass::none);
}

TEST_CASE("P28: modules with no feed live in this key state sleep: their silence is no fault") {
  const Network net = network();
  Says says(net);
  says.key(KeyState::off).silent({"TCM", "EPS", "ABS", "IPC", "BCM", "HVC", "SEA", "IMM", "YAW"});
  says.answer("WIP", Answer::not_polled).answer("RLS", Answer::not_polled);
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::none);
}

TEST_CASE("P30: messages of a module arrive but their content is no use: it is alive and the bus is whole") {
  Network net = network();
  net.modules[index_of(net.modules, "ECM")].roles = {"engine-control"};
  Says says(net);
  for (const char* reporter : {"TCM", "ABS", "EPS"}) says.code(reporter, "U0401-81");
  const Answered answered = locate_in(net, says);
  CAPTURE(listed(answered));
  CHECK(answered.verdict.verdict_class == VerdictClass::none);
  for (const Check& check : answered.plan.checks) CHECK(check.mode != "ohms");
}

TEST_CASE("P40: history only and nothing wrong now: clear, scan again, condemn nothing") {
  const Network net = network();
  const Answered answered = locate_in(net, Says(net).misses("ABS", {"EPS"}, CodeState::history));
  CAPTURE(listed(answered));
  CHECK((answered.verdict.verdict_class == VerdictClass::none ||
         answered.verdict.verdict_class == VerdictClass::intermittent));
  CHECK(first_of(answered.plan, {"rescan"}) == 0);
}
