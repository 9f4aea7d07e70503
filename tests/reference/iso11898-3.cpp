// Low-speed fault-tolerant CAN (ISO 11898-3) goes on in each of its nine single failures.
// Source: NXP TJA1055 data sheet, Rev 4/5, table 4, which numbers the failures as ISO 11898-3 does: in failures 1, 2
// and 5 the receiver stays differential, in the others it listens to the whole line alone.
#include <doctest/doctest.h>

#include "asking.hpp"

using namespace whichwire;
using test::Asking;
using test::Building;
using test::by_effects;

namespace {

Asking tolerant_line() {
  Building b;
  for (const char* id : {"A", "B", "C", "D"}) b.module(id);
  b.bus("FT", Protocol::can_ft, 125'000);
  b.segment("FT", "1", "A", "B");
  b.segment("FT", "2", "B", "S");
  b.segment("FT", "3", "S", "C");
  b.segment("FT", "4", "C", "D");
  return by_effects(b.network);
}

}  // namespace

// SAE J2012 has codes of their own for the failures that modules note while they go on: U0021 to U0027, "Low Speed CAN
// Communication Bus (+) Open" and so on.
TEST_CASE("ISO 11898-3: the bus goes on in all nine failures, and its modules may store a code about it") {
  const Asking bus = tolerant_line();
  struct Failure {
    const char* number;
    const char* fault;
  };
  for (const Failure& failure : {
           Failure{"1, CAN_H open", "open 3 high"},
           Failure{"2, CAN_L open", "open 3 low"},
           Failure{"3, CAN_H to battery", "short 2 high supply"},
           Failure{"3a, CAN_H to VCC", "short 2 high supply"},
           Failure{"4, CAN_L to ground", "short 2 low ground"},
           Failure{"5, CAN_H to ground", "short 2 high ground"},
           Failure{"6, CAN_L to battery", "short 2 low supply"},
           Failure{"6a, CAN_L to VCC", "short 2 low supply"},
           Failure{"7, CAN_H to CAN_L", "short 2 other-line"},
       }) {
    CAPTURE(failure.number);
    for (const char* module : {"A", "B", "C", "D"}) {
      for (const char* other : {"A", "B", "C", "D"}) {
        if (module != other) CHECK(bus.hears(module, other, {failure.fault}) == Level::up);
      }
      CHECK(bus.bus(module, "FT", {failure.fault}) == Level::unsure);
    }
  }
}

TEST_CASE("ISO 11898-3: what the nine failures do not cover parts the bus") {
  // The table speaks of one line at a time; both lines open at one place leave no way across (physics).
  const Asking bus = tolerant_line();
  CHECK(bus.hears("A", "D", {"open 3"}) == Level::down);
  CHECK(bus.hears("A", "D", {"open 3 high", "open 3 low"}) == Level::down);
  CHECK(bus.hears("A", "B", {"open 3"}) == Level::up);
}
