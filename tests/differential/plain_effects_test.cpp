// Hand-worked cases of the page lib/effects/meanings.md, rule by rule, for the plain reference.
#include "plain_effects.hpp"

#include <doctest/doctest.h>

#include <array>

#include "asking.hpp"

using namespace whichwire;
using test::Asking;
using test::Building;

namespace {

constexpr Level up = Level::up, unsure = Level::unsure, down = Level::down;
constexpr Level was_unsure = Level::was_unsure, was_down = Level::was_down;

Asking plain(const Network& network) { return {network, test::plain_predict}; }

/// A line of modules A - B - C - D on one bus, the diagnostic connector between B and C, terminators at A and D.
///   A --1-- B --2-- S --3-- C --4-- D     S --5-- DLC
Building line(Protocol protocol, int bit_rate) {
  Building b;
  for (const char* id : {"A", "B", "C", "D"}) b.module(id);
  b.bus("X", protocol, bit_rate);
  b.segment("X", "1", "A", "B");
  b.segment("X", "2", "B", "S");
  b.segment("X", "3", "S", "C");
  b.segment("X", "4", "C", "D");
  b.segment("X", "5", "S", "DLC");
  b.terminator("X", "A");
  b.terminator("X", "D");
  b.connect("X", "6", lines_of(protocol) == 2 ? "14" : "");
  return b;
}

/// G joins the buses P (with A, and the diagnostic connector) and Q (with B).
Building two_buses(Protocol second = Protocol::can_hs) {
  Building b;
  for (const char* id : {"A", "B", "G"}) b.module(id);
  b.bus("P", Protocol::can_hs, 500000);
  b.bus("Q", second, 500000);
  b.segment("P", "P1", "A", "S");
  b.segment("P", "P2", "S", "G");
  b.segment("P", "P3", "S", "DLC");
  b.segment("Q", "Q1", "G", "B");
  b.gateway("G", {"P", "Q"});
  b.connect("P", "6", "14");
  return b;
}

}  // namespace

TEST_CASE("plain: everything is up in a whole network") {
  const Asking ask = plain(line(Protocol::can_hs, 500000).network);
  CHECK(ask.answers("A", {}) == up);
  CHECK(ask.hears("A", "D", {}) == up);
  CHECK(ask.bus("C", "X", {}) == up);
}

TEST_CASE("plain: a module is silent when a power pin or the only ground is open, unsure when one of two grounds is") {
  Building b = line(Protocol::can_hs, 500000);
  b.feed("F0", "", true);
  b.feed("F1", "F0");
  b.ground("G1");
  b.power_pin("A", "p1", "F1");
  b.power_pin("A", "p2", "");
  b.ground_pin("A", "g1", "G1");
  b.ground_pin("A", "g2", "");
  const Asking ask = plain(b.network);
  for (const char* fault : {"open A/p1", "open A/p2", "open F1", "open F0"}) {
    CAPTURE(fault);
    CHECK(ask.answers("A", {fault}) == down);
    CHECK(ask.answers("B", {fault}) == up);
  }
  CHECK(ask.answers("A", {"open A/g1"}) == unsure);
  CHECK(ask.answers("A", {"open G1"}) == unsure);
  CHECK(ask.answers("A", {"open G1", "open A/g1"}) == unsure);
  CHECK(ask.answers("A", {"open G1", "open A/g2"}) == down);
  CHECK(ask.answers("B", {"open B/feed"}) == down);
  CHECK(ask.answers("B", {"open B/ground"}) == down);
}

TEST_CASE("plain: a pin that is not live in the key state does not matter, and only openness counts above a feed") {
  Building b = line(Protocol::can_hs, 500000);
  b.feed("IGN");              // live in run and start
  b.feed("F1", "IGN", true);  // stated as always live
  b.feed("F2", "IGN");
  b.power_pin("A", "p1", "F1");
  b.power_pin("A", "p2", "F2");
  Asking ask = plain(b.network);
  ask.circumstances.key = KeyState::off;
  CHECK(ask.answers("A", {}) == up);
  CHECK(ask.answers("A", {"open F2"}) == up);
  CHECK(ask.answers("A", {"open A/p2"}) == up);
  CHECK(ask.answers("A", {"open F1"}) == down);
  CHECK(ask.answers("A", {"open IGN"}) == down);
}

TEST_CASE("plain: a module with no pin live in the key state is not asked about") {
  Building b = line(Protocol::can_hs, 500000);
  b.feed("F1");
  b.power_pin("A", "p1", "F1");
  const Question question{Question::About::answers, 0};
  CHECK_FALSE(test::plain_askable(b.network, question, KeyState::off));
  CHECK(test::plain_askable(b.network, question, KeyState::run));
}

TEST_CASE("plain: a module is silent when dead, not programmed, back-feeding or with its reference shorted") {
  Building b = line(Protocol::can_hs, 500000);
  b.reference("A", "5V");
  const Asking ask = plain(b.network);
  for (const char* fault : {"dead A", "unconfigured A", "short A/5V ground", "short A/5V supply"}) {
    CAPTURE(fault);
    CHECK(ask.answers("A", {fault}) == down);
    CHECK(ask.hears("B", "A", {fault}) == down);
    CHECK(ask.hears("A", "B", {fault}) == down);
    CHECK(ask.answers("B", {fault}) == up);
    CHECK(ask.bus("A", "X", {fault}) == up);
  }
  CHECK(ask.answers("A", {"open A/5V"}) == up);
  CHECK(ask.answers("A", {"back-feeds A X"}) == down);
  CHECK(ask.answers("B", {"back-feeds A X"}) == down);
}

TEST_CASE("plain: a module that is not fitted does not answer, and nobody misses it") {
  Building b = line(Protocol::can_hs, 500000);
  b.the_module("A").optional = true;
  const Asking ask = plain(b.network);
  CHECK(ask.answers("A", {"not-fitted A"}) == down);
  CHECK(ask.hears("B", "A", {"not-fitted A"}) == up);
  CHECK(ask.hears("A", "B", {"not-fitted A"}) == up);
  CHECK(ask.hears("B", "A", {"not-fitted A", "dead A"}) == down);
  CHECK(ask.answers("B", {"not-fitted A"}) == up);
  CHECK(ask.bus("A", "X", {"not-fitted A"}) == up);
}

TEST_CASE("plain: one line open splits a pair, and makes both sides less sure") {
  for (const Protocol protocol : {Protocol::can_hs, Protocol::j1850_pwm, Protocol::j1708, Protocol::flexray}) {
    const Asking ask = plain(line(protocol, 100000).network);
    for (const char* fault : {"open 3 high", "open 3 low"}) {
      CAPTURE(fault);
      CHECK(ask.hears("A", "C", {fault}) == down);
      CHECK(ask.hears("A", "B", {fault}) == unsure);
      CHECK(ask.hears("C", "D", {fault}) == unsure);
      CHECK(ask.answers("C", {fault}) == down);
      CHECK(ask.answers("A", {fault}) == unsure);
    }
    CHECK(ask.hears("A", "C", {"open 3"}) == down);
    CHECK(ask.hears("A", "B", {"open 3"}) == up);
  }
}

TEST_CASE("plain: an open single line splits and leaves both sides sure") {
  for (const Protocol protocol : {Protocol::can_sw, Protocol::j1850_vpw, Protocol::lin}) {
    const Asking ask = plain(line(protocol, 10000).network);
    CHECK(ask.hears("A", "C", {"open 3"}) == down);
    CHECK(ask.hears("A", "B", {"open 3"}) == up);
  }
}

TEST_CASE("plain: the shorts of each protocol have the levels of the table") {
  struct Row {
    Protocol protocol;
    Level lines, high_ground, high_supply, low_ground, low_supply;
  };
  constexpr std::array rows = {
      Row{Protocol::can_hs, down, down, unsure, unsure, down}, Row{Protocol::can_ft, up, up, up, up, up},
      Row{Protocol::j1850_pwm, down, down, down, down, down},  Row{Protocol::j1708, down, down, down, down, down},
      Row{Protocol::flexray, down, down, down, down, down},
  };
  for (const Row& row : rows) {
    const Asking ask = plain(line(row.protocol, 100000).network);
    CHECK(ask.hears("A", "D", {"short 2 other-line"}) == row.lines);
    CHECK(ask.hears("A", "D", {"short 2 high ground"}) == row.high_ground);
    CHECK(ask.hears("A", "D", {"short 2 high supply"}) == row.high_supply);
    CHECK(ask.hears("A", "D", {"short 2 low ground"}) == row.low_ground);
    CHECK(ask.hears("A", "D", {"short 2 low supply"}) == row.low_supply);
  }
  for (const Protocol protocol : {Protocol::can_sw, Protocol::j1850_vpw, Protocol::lin, Protocol::k_line}) {
    const Asking ask = plain(line(protocol, 10000).network);
    CHECK(ask.answers("D", {"short 2 ground"}) == down);
    CHECK(ask.answers("D", {"short 2 supply"}) == down);
  }
}

TEST_CASE("plain: a short reaches across a break of the other line, not across a break of its own") {
  const Asking ask = plain(line(Protocol::can_hs, 100000).network);
  CHECK(ask.hears("C", "D", {"short 1 high ground"}) == down);
  CHECK(ask.hears("C", "D", {"short 1 high ground", "open 3 low"}) == down);
  CHECK(ask.hears("C", "D", {"short 1 high ground", "open 3 high"}) == unsure);
  CHECK(ask.hears("C", "D", {"short 1 high ground", "open 3"}) == up);
  CHECK(ask.hears("A", "B", {"short 1 high ground", "open 3"}) == down);
  // A short between the lines reaches only where neither is open.
  CHECK(ask.hears("C", "D", {"short 1 other-line", "open 3 low"}) == unsure);
}

TEST_CASE("plain: a short in an open segment disturbs both of its ends") {
  const Asking ask = plain(line(Protocol::can_hs, 100000).network);
  CHECK(ask.hears("A", "B", {"short 3 high ground", "open 3"}) == down);
  CHECK(ask.hears("C", "D", {"short 3 high ground", "open 3"}) == down);
}

TEST_CASE("plain: a holder disturbs its island powered or not, a babbler only while it has supply") {
  const Asking ask = plain(line(Protocol::can_hs, 100000).network);
  CHECK(ask.hears("A", "B", {"holds D X"}) == down);
  CHECK(ask.hears("A", "B", {"holds D X", "open D/feed"}) == down);
  CHECK(ask.hears("A", "B", {"babbles D X"}) == down);
  CHECK(ask.hears("A", "B", {"babbles D X", "open D/feed"}) == up);
  CHECK(ask.hears("A", "B", {"babbles D X", "dead D"}) == down);
  CHECK(ask.hears("A", "B", {"holds D X", "open 3"}) == up);
}

TEST_CASE("plain: an added device disturbs from the tester's point, or from the first end where there is none") {
  Building b = line(Protocol::can_hs, 100000);
  CHECK(plain(b.network).hears("A", "B", {"added-device X"}) == down);
  CHECK(plain(b.network).hears("A", "B", {"added-device X", "open 5"}) == up);
  b.network.diagnostic_connector.buses.clear();
  CHECK(plain(b.network).hears("A", "B", {"added-device X", "open 3"}) == down);
  CHECK(plain(b.network).hears("C", "D", {"added-device X", "open 3"}) == up);
}

TEST_CASE("plain: an extra terminator makes its island less sure") {
  const Asking ask = plain(line(Protocol::can_hs, 100000).network);
  CHECK(ask.hears("A", "B", {"extra X"}) == unsure);
  CHECK(ask.hears("A", "B", {"extra X", "open 2"}) == up);
}

TEST_CASE("plain: lost terminators make a fast bus less sure") {
  const auto hears = [](int bit_rate, std::initializer_list<const char*> faults) {
    return plain(line(Protocol::can_hs, bit_rate).network).hears("B", "C", faults);
  };
  CHECK(hears(500000, {"missing A X"}) == up);
  CHECK(hears(500001, {"missing A X"}) == unsure);
  CHECK(hears(250000, {"missing A X", "missing D X"}) == unsure);
  CHECK(hears(249999, {"missing A X", "missing D X"}) == up);
  CHECK(plain(line(Protocol::can_hs, 1000000).network).hears("A", "B", {"open 4"}) == unsure);
  CHECK(plain(line(Protocol::j1708, 1000000).network).hears("A", "B", {"missing A X", "missing D X"}) == up);
  Building one = line(Protocol::can_hs, 1000000);
  one.the_bus("X").terminators.pop_back();
  CHECK(plain(one.network).hears("A", "B", {"missing A X"}) == up);
}

TEST_CASE("plain: the fault-tolerant bus goes on with one line") {
  const Asking ask = plain(line(Protocol::can_ft, 100000).network);
  CHECK(ask.hears("A", "D", {"open 3 high"}) == up);
  CHECK(ask.hears("A", "D", {"open 3 high", "open 2 low"}) == down);
  CHECK(ask.hears("A", "D", {"open 3 high", "open 2 high"}) == up);
  CHECK(ask.hears("C", "D", {"open 3 high", "open 2 low"}) == up);
  CHECK(ask.hears("A", "D", {"open 3"}) == down);
  CHECK(ask.hears("A", "D", {"holds B X"}) == unsure);
  CHECK(ask.hears("A", "D", {"babbles B X"}) == down);
  CHECK(ask.hears("A", "D", {"babbles B X", "open 3 high"}) == down);  // it still reaches A
  CHECK(ask.hears("C", "D", {"babbles B X", "open 3 high"}) == up);    // on one line it does not reach these two
}

TEST_CASE("plain: modules of a fault-tolerant bus note a broken line, but not one of the tester's pins") {
  const Asking ask = plain(line(Protocol::can_ft, 100000).network);
  for (const char* fault : {"open 3 high", "open 3 low", "short 2 high ground", "short 2 other-line"}) {
    CAPTURE(fault);
    CHECK(ask.bus("A", "X", {fault}) == unsure);
    CHECK(ask.bus("D", "X", {fault}) == unsure);
    CHECK(ask.hears("A", "D", {fault}) == up);
  }
  CHECK(ask.bus("A", "X", {"open 3"}) == up);  // two pieces, each whole
  CHECK(ask.bus("A", "X", {"open DLC/6"}) == up);
}

TEST_CASE("plain: a resistive segment makes the hops across it less sure") {
  Building b = line(Protocol::can_hs, 100000);
  CHECK(plain(b.network).hears("A", "C", {"resistive 3"}) == unsure);
  CHECK(plain(b.network).hears("A", "B", {"resistive 3"}) == up);
  b.segment("X", "6", "A", "D");  // now there is a way round
  CHECK(plain(b.network).hears("A", "C", {"resistive 3"}) == up);
  CHECK(plain(b.network).hears("A", "C", {"resistive 3", "open 4"}) == unsure);
  const Asking tolerant = plain(line(Protocol::can_ft, 100000).network);
  CHECK(tolerant.hears("A", "C", {"resistive 3"}) == unsure);
}

TEST_CASE("plain: LIN lives and dies with its commander") {
  Building b = line(Protocol::lin, 19200);
  b.the_bus("X").commander = b.module("B");
  b.bus("Y", Protocol::can_hs, 500000);
  b.segment("Y", "Y1", "B", "D");
  const Asking ask = plain(b.network);
  CHECK(ask.hears("A", "C", {}) == up);
  for (const char* fault : {"dead B", "port-dead B X"}) {
    CAPTURE(fault);
    CHECK(ask.bus("A", "X", {fault}) == down);
    CHECK(ask.hears("A", "C", {fault}) == down);
  }
  CHECK(ask.hears("A", "C", {"port-dead B Y"}) == up);
}

TEST_CASE("plain: without its commander a cut-off piece of LIN is down") {
  Building b = line(Protocol::lin, 19200);
  b.the_bus("X").commander = b.module("B");
  const Asking ask = plain(b.network);
  CHECK(ask.hears("C", "D", {"open 3"}) == down);
  CHECK(ask.bus("C", "X", {"open 3"}) == down);
  CHECK(ask.hears("A", "B", {"open 3"}) == up);
  CHECK(ask.bus("A", "X", {"resistive 1"}) == unsure);
  CHECK(ask.hears("C", "D", {"resistive 2"}) == unsure);
}

TEST_CASE("plain: a ring is down with any break or any member that does not pass") {
  Building b;
  for (const char* id : {"A", "B", "C"}) b.module(id);
  b.bus("R", Protocol::ring);
  b.segment("R", "1", "A", "B");
  b.segment("R", "2", "B", "C");
  b.segment("R", "3", "C", "A");
  b.the_module("C").passes_when_dead = true;
  const Asking ask = plain(b.network);
  CHECK(ask.hears("A", "B", {}) == up);
  CHECK(ask.hears("A", "B", {"open 3"}) == down);
  CHECK(ask.hears("A", "B", {"resistive 3"}) == unsure);
  CHECK(ask.hears("A", "C", {"dead B"}) == down);
  CHECK(ask.bus("A", "R", {"dead B"}) == down);
  CHECK(ask.hears("A", "B", {"dead C"}) == up);
  CHECK(ask.hears("A", "C", {"dead C"}) == down);
}

TEST_CASE("plain: a point-to-point link is down with a line open") {
  Building b;
  b.module("A");
  b.module("B");
  b.bus("T", Protocol::ethernet_t1);
  b.segment("T", "1", "A", "B");
  const Asking ask = plain(b.network);
  CHECK(ask.hears("A", "B", {"open 1"}) == down);
  CHECK(ask.hears("A", "B", {"short 1 other-line"}) == down);
  CHECK(ask.bus("A", "T", {"open 1"}) == down);  // alone on its piece
}

TEST_CASE("plain: a route goes through gateways that live and forward, with whole ports") {
  const Asking ask = plain(two_buses().network);
  CHECK(ask.answers("B", {}) == up);
  for (const char* fault :
       {"dead G", "not-forwarding G", "port-dead G P", "port-dead G Q", "open P2", "open Q1", "short Q1 other-line",
        "dead B", "open DLC/6", "open DLC/14", "open DLC/feed", "open DLC/ground"}) {
    CAPTURE(fault);
    CHECK(ask.answers("B", {fault}) == down);
  }
  CHECK(ask.answers("G", {"not-forwarding G"}) == up);
  CHECK(ask.hears("A", "G", {"not-forwarding G"}) == up);
  CHECK(ask.hears("A", "B", {"not-forwarding G"}) == down);
  CHECK(ask.hears("A", "G", {"port-dead G Q"}) == up);
  CHECK(ask.hears("A", "G", {"open DLC/6"}) == unsure);
  CHECK(ask.hears("A", "B", {"open DLC/feed"}) == up);
}

TEST_CASE("plain: the best of two routes counts") {
  Building b = two_buses();
  b.module("H");
  b.segment("P", "P4", "S", "H");
  b.segment("Q", "Q2", "G", "H");
  b.gateway("H", {"P", "Q"});
  const Asking ask = plain(b.network);
  CHECK(ask.answers("B", {"dead G"}) == up);
  CHECK(ask.answers("B", {"dead G", "not-forwarding H"}) == down);
  CHECK(ask.hears("A", "B", {"resistive P2"}) == up);
  CHECK(ask.hears("A", "B", {"resistive P2", "resistive P4"}) == unsure);
}

TEST_CASE("plain: a tool with a battery of its own does not need the connector's supply") {
  Asking ask = plain(two_buses().network);
  ask.circumstances.tool_has_own_battery = true;
  CHECK(ask.answers("B", {"open DLC/feed"}) == up);
  CHECK(ask.answers("B", {"open DLC/6"}) == down);
}

TEST_CASE("plain: K-line carries answers and no messages") {
  const Asking ask = plain(line(Protocol::k_line, 10400).network);
  CHECK(ask.answers("A", {}) == up);
  CHECK(ask.hears("A", "B", {}) == down);
  CHECK_FALSE(test::plain_askable(ask.network, {Question::About::hears, 0, 1}, KeyState::run));
}

TEST_CASE("plain: a module cut off alone sees its bus down, the others do not") {
  const Asking ask = plain(line(Protocol::can_hs, 100000).network);
  CHECK(ask.bus("D", "X", {"open 4"}) == down);
  CHECK(ask.bus("C", "X", {"open 4"}) == up);
  CHECK(ask.bus("D", "X", {"open 3"}) == up);
  CHECK(ask.bus("D", "X", {"dead D"}) == up);
  CHECK(ask.bus("A", "X", {"open 4 low"}) == unsure);
}

TEST_CASE("plain: a function needs its modules and their messages") {
  Building b = two_buses();
  b.network.functions.push_back({"crank", "", {b.module("A")}, {{b.module("B"), b.module("A")}}});
  b.network.functions.push_back({"lamp", "", {b.module("B")}, {}});
  const Asking ask = plain(b.network);
  CHECK(ask.function("crank", {}) == up);
  CHECK(ask.function("crank", {"dead A"}) == down);
  CHECK(ask.function("crank", {"not-forwarding G"}) == down);
  CHECK(ask.function("crank", {"resistive Q1"}) == unsure);
  CHECK(ask.function("lamp", {"not-forwarding G"}) == up);
  CHECK(ask.function("lamp", {"open DLC/6"}) == up);
}

TEST_CASE("plain: what comes and goes leaves codes behind and nothing else") {
  Building b = two_buses();
  b.network.functions.push_back({"crank", "", {b.module("A")}, {{b.module("B"), b.module("A")}}});
  const Asking ask = plain(b.network);
  CHECK(ask.answers("B", {"open P2 comes-and-goes"}) == up);
  CHECK(ask.function("crank", {"open P2 comes-and-goes"}) == up);
  CHECK(ask.hears("A", "B", {"open P2 comes-and-goes"}) == was_down);
  CHECK(ask.hears("A", "B", {"resistive P2 comes-and-goes"}) == was_unsure);
  CHECK(ask.hears("A", "B", {"resistive P2 comes-and-goes", "open P2 comes-and-goes"}) == was_down);
  CHECK(ask.hears("A", "B", {"resistive P2", "open P2 comes-and-goes"}) == unsure);
  CHECK(ask.bus("A", "P", {"short P1 other-line comes-and-goes"}) == was_down);
}

TEST_CASE("plain: a module without supply on the occasion stores nothing about it") {
  const Asking ask = plain(two_buses().network);
  CHECK(ask.hears("A", "B", {"open A/feed comes-and-goes"}) == up);
  CHECK(ask.hears("B", "A", {"open A/feed comes-and-goes"}) == was_down);
}

TEST_CASE("plain: what comes and goes acts on an occasion of its own, alone") {
  const Asking ask = plain(line(Protocol::can_ft, 100000).network);
  CHECK(ask.hears("A", "D", {"open 3 high comes-and-goes", "open 2 low comes-and-goes"}) == up);
  CHECK(ask.hears("A", "D", {"open 3 high", "open 2 low comes-and-goes"}) == up);
}
