// What a stored code says, or its absence. Judged by the rule that each test's name states (common practice, no
// source); the codes and failure types by SAE J2012 / ISO 15031-6, as tests/reference/j2012.cpp holds them against
// lists.
#include "scanning.hpp"

using namespace whichwire;
using test::Scanning;

namespace {

constexpr double strong = 20, weak = 8;

}  // namespace

TEST_CASE("lost communication, alone or with failure type 87, speaks for a dead sender or a broken way") {
  for (const char* code : {"U0100", "U0100-87", "U0401-87"}) {
    CAPTURE(code);
    Scanning made;
    made.stores("TCM", code);
    CHECK(made.speaks_for(Level::down, made.hears("TCM", "ECM")) > strong);
  }
}

TEST_CASE("invalid data and failure types 81 to 86 speak for a sender alive and a whole way") {
  for (const char* code : {"U0401", "U0100-81", "U0100-82", "U0100-83", "U0100-84", "U0100-85", "U0100-86"}) {
    CAPTURE(code);
    Scanning made;
    made.stores("TCM", code);
    CHECK(made.speaks_for(Level::down, made.hears("TCM", "ECM")) < 1 / strong);
  }
}

TEST_CASE("bus off points at the bus where the reporter is, not at the module that the code names") {
  Scanning made;
  made.stores("ECM", "U0101-88");
  CHECK(made.speaks_for(Level::down, made.bus("ECM", "DRV")) > strong);
  // What is seen about the transmission is only that there is no code that misses it.
  CHECK(made.count(made.hears("ECM", "TCM")) == 1);
  CHECK(made.speaks_for(Level::down, made.hears("ECM", "TCM")) < 1);
}

TEST_CASE("a bus code speaks of the bus that it names, at its reporter") {
  Scanning made;
  made.stores("GWM", "U0010");  // medium speed CAN; the gateway is on both
  CHECK(made.speaks_for(Level::down, made.bus("GWM", "BDY")) > strong);
  CHECK(made.count(made.bus("GWM", "DRV")) == 0);
}

TEST_CASE("a bus code that fits no one bus of its reporter is not used, and said") {
  Scanning made;
  made.stores("GWM", "U0028");  // bus A: no bus is called so, and the gateway is on two
  CHECK(made.count(made.bus("GWM", "DRV")) + made.count(made.bus("GWM", "BDY")) == 0);
  CHECK(made.doubts("U0028 at GWM does not tell which bus"));
  Scanning single;
  single.stores("ECM", "U0028");  // on one bus only, so that one is meant
  CHECK(single.count(single.bus("ECM", "DRV")) == 1);
}

TEST_CASE("a history code is weak for a fault that is present and strong for one that comes and goes") {
  Scanning made;
  made.stores("TCM", "U0100", CodeState::history);
  const auto question = made.hears("TCM", "ECM");
  CHECK(made.speaks_for(Level::was_down, question) > strong);
  CHECK(made.speaks_for(Level::down, question) < weak);
}

TEST_CASE("a current code is strong for a fault that is present and says nothing for one that comes and goes") {
  Scanning made;
  made.stores("TCM", "U0100");
  const auto question = made.hears("TCM", "ECM");
  CHECK(made.speaks_for(Level::down, question) > strong);
  CHECK(made.speaks_for(Level::was_down, question) == doctest::Approx(1));
}

TEST_CASE("a code whose state is not told speaks for both") {
  Scanning made;
  made.stores("TCM", "U0100", CodeState::unknown);
  const auto question = made.hears("TCM", "ECM");
  CHECK(made.speaks_for(Level::down, question) > strong);
  CHECK(made.speaks_for(Level::was_down, question) > strong);
}

TEST_CASE("codes that miss an optional module speak against a vehicle built without it") {
  Scanning made;
  made.sees("GWM", Answer::yes).codes.emplace_back().misses = "RDO";
  made.sees("BCM", Answer::yes).codes.emplace_back().misses = "RDO";
  CHECK(made.count(made.fitted("RDO")) == 1);
  CHECK(made.speaks_for(Level::down, made.fitted("RDO")) < 1 / strong);
  Scanning always;
  always.stores("TCM", "U0100");
  CHECK(always.count(always.fitted("ECM")) == 0);
}

TEST_CASE("a code whose test is not completed is no verdict: as if it were not there") {
  Scanning made, without;
  made.stores("TCM", "U0100", CodeState::not_tested);
  without.sees("TCM", Answer::yes).codes.emplace_back().written = "P0171";
  CHECK(made.evidence().observations.size() == without.evidence().observations.size());
  CHECK(made.speaks_for(Level::down, made.hears("TCM", "ECM")) < 1);
}

TEST_CASE("test failed in a status byte is current, confirmed without it is history") {
  // ISO 14229-1: bit 0 test failed, bit 3 confirmed, bit 4 and 6 test not completed.
  CHECK(state_of_status(0x09) == CodeState::current);
  CHECK(state_of_status(0x08) == CodeState::history);
  CHECK(state_of_status(0x50) == CodeState::not_tested);
}

TEST_CASE("a missing code while its pair is broken is common, so it speaks only mildly against the break") {
  Scanning made;
  made.stores("TCM", "P0700");  // codes were read
  const auto question = made.hears("TCM", "ECM");
  CHECK(made.chance(question, Level::down) > 0.2);
  CHECK(made.speaks_for(Level::down, question) < 1);
  CHECK(made.speaks_for(Level::down, question) > 1 / weak);
}

TEST_CASE("a missing code is evidence only of modules whose codes were read and whose listening is known") {
  Scanning none_read;
  none_read.sees("TCM", Answer::yes);
  CHECK(none_read.count(none_read.hears("TCM", "ECM")) == 0);
  CHECK(none_read.doubts("shows no codes at all"));
  Scanning made;
  made.stores("TCM", "P0700");
  made.sees("ECM", Answer::refused);  // alive, but its codes were not read
  made.sees("ABS", Answer::no);
  made.sees("BCM", Answer::yes);  // nobody knows whom it listens to
  CHECK(made.count(made.hears("ECM", "TCM")) == 0);
  CHECK(made.count(made.hears("ABS", "ECM")) == 0);
  CHECK(made.count(made.hears("BCM", "ECM")) == 0);
}

TEST_CASE("a code about a module that the reporter is not known to listen to is weaker than one that it is known for") {
  Scanning known, other;
  known.stores("TCM", "U0100");
  other.stores("BCM", "U0100");
  const double strength = other.chance(other.hears("BCM", "ECM"), Level::down);
  CHECK(strength < known.chance(known.hears("TCM", "ECM"), Level::down) / 5);
  CHECK(other.speaks_for(Level::down, other.hears("BCM", "ECM")) > weak);
}

TEST_CASE("a maker's own code and a sentence count as the standard code that says the same") {
  Scanning standard, own, sentence;
  standard.stores("ABS", "U0100");
  own.stores("ABS", "K-417").code.reset();
  auto& said = sentence.sees("ABS", Answer::yes).codes.emplace_back();
  said.state = CodeState::current;
  said.text = "no messages from the engine computer";
  said.misses = "ECM";
  const auto question = standard.hears("ABS", "ECM");
  for (const Level level : {Level::up, Level::was_down, Level::unsure, Level::down}) {
    CHECK(own.chance(question, level) == doctest::Approx(standard.chance(question, level)));
    CHECK(sentence.chance(question, level) == doctest::Approx(standard.chance(question, level)));
  }
}

TEST_CASE("two roles may live in one module: a code about either means it") {
  for (const char* code : {"U0140", "U0155"}) {  // body control, instrument cluster
    CAPTURE(code);
    Scanning made;
    made.stores("ABS", code);
    CHECK(made.speaks_for(Level::down, made.hears("ABS", "BCM")) > strong);
  }
}

TEST_CASE("one role in two modules is a doubt, and such a code is not used") {
  Network network = test::listening_vehicle();
  network.modules[index_of(network.modules, "RDO")].roles = {"engine-control"};
  const Effects effects(network);
  Scanning made;
  made.stores("ABS", "U0100");
  const auto evidence = evidence_of(effects, made.scan);
  CHECK(std::none_of(evidence.observations.begin(), evidence.observations.end(),
                     [](const Observation& seen) { return seen.abnormal; }));
  CHECK(std::any_of(evidence.doubts.begin(), evidence.doubts.end(), [](const std::string& doubt) {
    return doubt.find("U0100 at ABS may mean ECM or RDO") != std::string::npos;
  }));
}

TEST_CASE("a second code about the same module says nothing new") {
  Scanning made;
  auto& seen = made.sees("ABS", Answer::yes);
  for (const char* code : {"U0100", "U0100-87"}) {
    auto& stored = seen.codes.emplace_back();
    stored.written = code;
    stored.code = parse_code(code);
    stored.state = CodeState::current;
  }
  CHECK(made.count(made.hears("ABS", "ECM")) == 1);
}

TEST_CASE("codes stored at low supply come from a battery event and weigh little") {
  Scanning snapshot, battery, lorry;
  snapshot.stores("TCM", "U0100").volts = 8.4;
  battery.stores("TCM", "U0100");
  battery.scan.battery_volts = 10.2;
  lorry.stores("TCM", "U0100");
  lorry.scan.battery_volts = 21.0;
  for (const Scanning* made : {&snapshot, &battery, &lorry}) {
    for (const Level level : {Level::was_down, Level::unsure, Level::down}) {
      CHECK(made->speaks_for(level, made->hears("TCM", "ECM")) < 3);
    }
  }
}

TEST_CASE("codes that say nothing about the network are no evidence") {
  for (const char* code : {"P0171", "B1000", "U3003", "U0301"}) {
    CAPTURE(code);
    Scanning made, without;
    made.stores("TCM", code);
    without.stores("TCM", "P0700");
    CHECK(made.evidence().observations.size() == without.evidence().observations.size());
  }
}

TEST_CASE("failure types 51 to 57 point at configuration, so they say less of a broken way than a missing message") {
  for (const char* code : {"U0100-51", "U0100-55", "U0100-57"}) {
    CAPTURE(code);
    Scanning made, missing;
    made.stores("TCM", code);
    missing.stores("TCM", "U0100-87");
    const auto question = made.hears("TCM", "ECM");
    CHECK(made.speaks_for(Level::down, question) < missing.speaks_for(Level::down, question) / 2);
  }
}
