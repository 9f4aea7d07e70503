// What an answer, or none, says. Judged by the rule that each test's name states (common practice, no source), and not
// by the numbers of likelihood.csv, which may be tuned within them.
#include "scanning.hpp"

using namespace whichwire;
using test::Scanning;

TEST_CASE("an answer of a module that cannot answer is nearly impossible") {
  Scanning made;
  made.sees("ECM", Answer::yes);
  CHECK(made.chance(made.answers("ECM"), Level::down) < 1e-6);
  CHECK(made.chance(made.answers("ECM"), Level::up) > 0.9);
}

TEST_CASE("silence of a module that could answer happens: per cent, not per mille") {
  Scanning made;
  made.sees("ECM", Answer::no);
  CHECK(made.chance(made.answers("ECM"), Level::up) >= 0.01);
  CHECK(made.chance(made.answers("ECM"), Level::up) < 0.1);
  CHECK(made.chance(made.answers("ECM"), Level::down) > 0.9);
}

TEST_CASE("an answer and its absence are the only outcomes: at every level their chances add up to one") {
  Scanning yes, no;
  yes.sees("ECM", Answer::yes);
  no.sees("ECM", Answer::no);
  for (const Level level : {Level::up, Level::was_unsure, Level::was_down, Level::unsure, Level::down}) {
    CHECK(yes.chance(yes.answers("ECM"), level) + no.chance(no.answers("ECM"), level) == doctest::Approx(1));
  }
}

TEST_CASE("an uncertain way lies between a good and a broken one") {
  Scanning made;
  made.sees("ECM", Answer::no);
  CHECK(made.speaks_for(Level::unsure, made.answers("ECM")) > 1);
  CHECK(made.speaks_for(Level::unsure, made.answers("ECM")) < made.speaks_for(Level::down, made.answers("ECM")));
}

TEST_CASE("what comes and goes changes no answer taken now") {
  for (const Answer answer : {Answer::yes, Answer::no}) {
    Scanning made;
    made.sees("ECM", answer);
    CHECK(made.speaks_for(Level::was_down, made.answers("ECM")) == doctest::Approx(1));
    CHECK(made.speaks_for(Level::was_unsure, made.answers("ECM")) == doctest::Approx(1));
  }
}

TEST_CASE("a refusal is proof of life") {
  Scanning made;
  made.sees("ECM", Answer::refused);
  CHECK(made.chance(made.answers("ECM"), Level::down) < 1e-6);
}

TEST_CASE("not fitted is silence") {
  Scanning shown, silent;
  shown.sees("ECM", Answer::not_fitted);
  silent.sees("ECM", Answer::no);
  CHECK(shown.evidence().observations.front().log_likelihood == silent.evidence().observations.front().log_likelihood);
}

TEST_CASE("not fitted is benign where the network says that the module is optional, and there alone") {
  for (const std::string module : {"RDO", "TCM"}) {
    CAPTURE(module);
    Scanning made;
    for (const char* id : {"GWM", "ECM", "TCM", "ABS", "BCM", "RDO"}) {
      made.sees(id, id == module ? Answer::not_fitted : Answer::yes);
    }
    const auto ranking = locate(made.effects(), faults_of(made.network()), made.scan);
    REQUIRE_FALSE(ranking.explanations.empty());
    const auto& first = ranking.explanations.front().faults;
    const bool benign = first.size() == 1 && first.front().kind == FaultKind::not_fitted;
    CHECK(benign == (module == "RDO"));
  }
}

TEST_CASE("not polled and not reachable are no evidence at all") {
  for (const Answer answer : {Answer::not_polled, Answer::not_reachable}) {
    Scanning made;
    made.sees("ECM", answer);
    CHECK(made.evidence().observations.empty());
  }
}

TEST_CASE("a module behind a locked gateway that does not answer was not reached, and is not silent") {
  for (const Answer answer : {Answer::no, Answer::not_fitted}) {
    Scanning made;
    made.sees("CAM", answer);
    CHECK(made.count(made.answers("CAM")) == 0);
    CHECK(made.doubts("CAM lies behind a locked gateway"));
  }
  Scanning answering;
  answering.sees("CAM", Answer::yes);
  CHECK(answering.count(answering.answers("CAM")) == 1);
}

TEST_CASE("a module that is asleep in this key state is no evidence, and is named as left out") {
  test::Building built;
  built.network = test::listening_vehicle();
  built.feed("F7");  // live in run and start
  built.power_pin("ECM", "1", "F7");
  const Effects effects(built.network);
  Scan scan;
  scan.key = KeyState::off;
  scan.key_stated = true;
  scan.modules = {{"ECM", Answer::no, {}}, {"TCM", Answer::yes, {}}};
  const auto evidence = evidence_of(effects, scan);
  for (const auto& observation : evidence.observations) CHECK(observation.question.a != 1);
  REQUIRE(evidence.observations.size() == 1);
  CHECK(std::any_of(evidence.doubts.begin(), evidence.doubts.end(),
                    [](const std::string& doubt) { return doubt.find("left out: ECM") != std::string::npos; }));
}

TEST_CASE("at low battery silence says less, and the scan is doubtful") {
  Scanning good, low, lorry;
  for (Scanning* made : {&good, &low, &lorry}) made->sees("ECM", Answer::no);
  good.scan.battery_volts = 12.5;
  low.scan.battery_volts = 10.4;
  lorry.scan.battery_volts = 21.5;  // a 24-volt vehicle
  for (const Scanning* made : {&low, &lorry}) {
    CHECK(made->speaks_for(Level::down, made->answers("ECM")) < good.speaks_for(Level::down, good.answers("ECM")) / 5);
    CHECK(made->doubts("the battery is low"));
  }
  CHECK_FALSE(good.doubts("the battery is low"));
}

TEST_CASE("names that the network does not know are passed over") {
  Scanning made;
  made.sees("XYZ", Answer::no);
  made.scan.functions.push_back({"levitate", false});
  CHECK(made.evidence().observations.empty());
}

TEST_CASE("a key that is not stated is taken as run, and said") {
  Scanning made;
  CHECK_FALSE(made.doubts("does not state the key"));
  made.scan.key_stated = false;
  CHECK(made.doubts("does not state the key"));
}

TEST_CASE("a stranger that answers while what is always fitted is not there makes the trim doubtful") {
  Scanning made;
  made.sees("TCM", Answer::not_fitted);
  CHECK_FALSE(made.doubts("trim"));
  made.sees("NAV", Answer::yes);
  CHECK(made.doubts("does not have NAV, which answers, and always has TCM, shown as not fitted"));
  Scanning optional_one;
  optional_one.sees("RDO", Answer::not_fitted);
  optional_one.sees("NAV", Answer::yes);
  CHECK_FALSE(optional_one.doubts("trim"));
}
