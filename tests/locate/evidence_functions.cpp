// What a function that works or fails says. Judged by the rule that each test's name states (common practice, no
// source).
#include "scanning.hpp"

using namespace whichwire;

namespace {

Observation seen_of(bool works) {
  Network network = test::listening_vehicle();
  const auto ecm = index_of(network.modules, "ECM");
  network.functions.push_back({"crank", "Starter cranks", {ecm}, {}});
  const Effects effects(network);
  Scan scan;
  scan.functions = {{"crank", works}};
  const auto evidence = evidence_of(effects, scan);
  REQUIRE(evidence.observations.size() == 1);
  return evidence.observations.front();
}

double chance(const Observation& seen, Level level) {
  return std::exp(seen.log_likelihood[static_cast<std::size_t>(level)]);
}

}  // namespace

TEST_CASE("a function fails for reasons of its own, too, and hardly ever works without its modules") {
  const auto works = seen_of(true), fails = seen_of(false);
  CHECK(works.question == Question{Question::About::function, 0, nowhere});
  CHECK(chance(fails, Level::up) >= 0.01);
  CHECK(chance(works, Level::down) < 0.05);
  CHECK(fails.abnormal);
  CHECK_FALSE(works.abnormal);
  for (const Level level : {Level::up, Level::was_unsure, Level::was_down, Level::unsure, Level::down}) {
    CHECK(chance(works, level) + chance(fails, level) == doctest::Approx(1));
  }
}
