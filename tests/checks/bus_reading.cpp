// Ohms on a quiet bus by the plain rules. Oracle: two 120-ohm terminators (ISO 11898-2) and Ohm's law, worked by hand
// for the wiring in moor.hpp.
#include "checks/bus_reading.hpp"

#include <doctest/doctest.h>

#include "checks/ranking.hpp"

using namespace moor;

namespace {

BusReading at(const BusProbe& probe, const std::vector<Fault>& present) {
  const Network net = network();
  return BusWiring(net, DRV).read(probe, present);
}

BusProbe plug(std::size_t module) { return {module_end(module), module, nowhere}; }

}  // namespace

TEST_CASE("with all whole both terminators are seen from a plug, but for the one that is in the unplugged module") {
  CHECK(at(plug(ABS), {}).terminators == 2);
  CHECK(at(plug(ECM), {}).terminators == 1);
  CHECK(at({module_end(ECM), nowhere, nowhere}, {}).terminators == 2);
}

TEST_CASE("an open wire in the trunk hides the terminator behind it, whichever of the two wires it is") {
  for (const Lines lines : {Lines::both, Lines::high, Lines::low}) {
    CHECK(at(plug(ABS), {open_segment(DRV, 1, lines)}).terminators == 1);
    CHECK(at(plug(TCM), {open_segment(DRV, 1, lines)}).terminators == 1);
    CHECK(at(plug(ABS), {open_segment(DRV, 4, lines)}).terminators == 0);
  }
}

TEST_CASE("an open stub is not seen from elsewhere") {
  CHECK(at(plug(TCM), {open_segment(DRV, 4)}) == at(plug(TCM), {}));
}

TEST_CASE("a missing terminator takes one away, one that was added adds one") {
  const Fault missing{
      .kind = FaultKind::missing, .part = PartKind::terminator, .owner = DRV, .item = 1, .bus = DRV, .to = {}};
  const Fault extra{.kind = FaultKind::extra, .part = PartKind::bus, .owner = DRV, .bus = DRV, .to = {}};
  CHECK(at(plug(ABS), {missing}).terminators == 1);
  CHECK(at(plug(ABS), {extra}).terminators == 3);
}

TEST_CASE("a short is seen from everywhere that is joined to it by its wire, and not past a break of that wire") {
  const Fault low = short_of(DRV, 3, Lines::low, ShortTo::ground);
  CHECK(at(plug(ABS), {low}).to_ground);
  CHECK_FALSE(at(plug(ABS), {low, open_segment(DRV, 1, Lines::low)}).to_ground);
  CHECK(at(plug(ABS), {low, open_segment(DRV, 1, Lines::high)}).to_ground);
  CHECK(at(plug(ABS), {short_of(DRV, 3, Lines::high, ShortTo::supply)}).to_supply);
  const Fault together = short_of(DRV, 3, Lines::both, ShortTo::other_line);
  CHECK(at(plug(ABS), {together}).together);
  CHECK_FALSE(at(plug(ABS), {together, open_segment(DRV, 1, Lines::high)}).together);
}

TEST_CASE("a module that holds the bus is seen as the wires together until it is unplugged") {
  const Fault holds = module_fault(FaultKind::holds, TCM, DRV);
  CHECK(at(plug(ABS), {holds}).together);
  CHECK_FALSE(at(plug(TCM), {holds}).together);
}

TEST_CASE("with a connector parted, each side shows its own half") {
  const BusProbe near{point_end(C50), nowhere, 1}, far{point_end(C50), nowhere, 2};
  CHECK(at(near, {}).terminators == 1);
  CHECK(at(far, {}).terminators == 1);
  const Fault low = short_of(DRV, 3, Lines::low, ShortTo::ground);
  CHECK_FALSE(at(near, {low}).to_ground);
  CHECK(at(far, {low}).to_ground);
  const Fault beside = short_of(DRV, 2, Lines::low, ShortTo::ground);
  CHECK(at(far, {beside}).to_ground);
  CHECK_FALSE(at(near, {beside}).to_ground);
}

TEST_CASE("corrosion shows only where it lies on the way to a terminator") {
  Fault corroded = open_segment(DRV, 2);
  corroded.kind = FaultKind::resistive;
  CHECK(at(plug(ABS), {corroded}).corroded);
  corroded.item = 5;
  CHECK_FALSE(at(plug(ABS), {corroded}).corroded);
  CHECK(at(plug(TCM), {corroded}).corroded);
}

TEST_CASE("an open bus pin of the diagnostic connector shows nothing of the bus behind it") {
  Network net = network();
  net.buses[DIAG].terminators = {{module_end(GWM), 120}, {module_end(GWM), 120}};
  const BusWiring wiring(net, DIAG);
  const BusProbe tester{dlc(), nowhere, nowhere};
  CHECK(wiring.read(tester, {}).terminators == 2);
  const Fault pin{.kind = FaultKind::open,
                  .part = PartKind::connector_bus_pin,
                  .item = 0,
                  .bus = DIAG,
                  .lines = Lines::low,
                  .to = {}};
  CHECK(wiring.read(tester, {pin}).terminators == 0);
  CHECK_FALSE(wiring.joined(dlc(), module_end(GWM), {pin}));
  CHECK(wiring.joined(dlc(), module_end(GWM), {}));
}
