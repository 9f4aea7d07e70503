// The class of an explanation, by the wiring of the invented Hollin Moor. Oracle: the definitions of the classes.
#include "locate/verdict_class.hpp"

#include <doctest/doctest.h>

#include "asking.hpp"
#include "building.hpp"
#include "checks/moor.hpp"
#include "locate/sides.hpp"

using namespace moor;
using Class = VerdictClass;

namespace {

Class of(const std::vector<Fault>& faults) { return class_of(network(), faults); }
std::vector<std::string> parts(const std::vector<Fault>& faults) { return class_parts_of(network(), faults); }
using Ids = std::vector<std::string>;

Fault short_on(std::size_t on_bus, std::size_t item) {
  Fault fault = open_segment(on_bus, item);
  fault.kind = FaultKind::short_circuit;
  fault.to = ShortTo::ground;
  return fault;
}

}  // namespace

TEST_CASE("no fault, or only an optional module that is not there, is class none") {
  CHECK(of({}) == Class::none);
  CHECK(of({module_fault(FaultKind::not_fitted, HVC)}) == Class::none);
  CHECK(of({module_fault(FaultKind::not_fitted, HVC), module_fault(FaultKind::not_fitted, WIP)}) == Class::none);
  CHECK(parts({module_fault(FaultKind::not_fitted, HVC)}).empty());
}

TEST_CASE("a module that is not fitted beside another fault counts for nothing") {
  CHECK(of({module_fault(FaultKind::not_fitted, HVC), dead(ECM)}) == Class::module);
  CHECK(parts({module_fault(FaultKind::not_fitted, HVC), dead(ECM)}) == Ids{"ECM"});
}

TEST_CASE("what is wrong in one module or in its own wiring is one silent module") {
  for (const Fault& fault : {dead(ECM), module_fault(FaultKind::unconfigured, ECM),
                             module_fault(FaultKind::port_dead, ECM, DRV), open_part(PartKind::power_pin, ECM, 0),
                             open_part(PartKind::ground_pin, ECM, 1), open_part(PartKind::reference, ECM, 0),
                             open_segment(DRV, 3), open_segment(DRV, 3, Lines::high), open_part(PartKind::feed, F11)}) {
    CAPTURE(static_cast<int>(fault.part));
    CHECK(of({fault}) == Class::module);
    CHECK(parts({fault}) == Ids{"ECM"});
  }
}

TEST_CASE("the same things of a gateway are the gateway") {
  for (const Fault& fault :
       {dead(GWM), module_fault(FaultKind::not_forwarding, GWM), module_fault(FaultKind::port_dead, GWM, DRV),
        open_part(PartKind::feed, F9), open_segment(DRV, 0), open_segment(BDY, 0)}) {
    CHECK(of({fault}) == Class::gateway);
    CHECK(parts({fault}) == Ids{"GWM"});
  }
}

TEST_CASE("one broken line that a fault-tolerant bus bears is a segment, also in the stub of a module") {
  test::Building built;
  for (const char* id : {"A", "B", "C"}) built.module(id);
  built.bus("FT", Protocol::can_ft, 125'000);
  built.segment("FT", "1", "A", "S");
  built.segment("FT", "2", "S", "B");
  built.segment("FT", "3", "S", "C");
  const auto classed = [&](const char* fault) {
    return class_of(built.network, test::faults_from(built.network, {fault}));
  };
  CHECK(classed("open 1 high") == Class::segment);
  CHECK(classed("open 1") == Class::module);
}

TEST_CASE("a break that parts a bus between several modules is a segment") {
  for (const std::size_t item : {1U, 2U}) CHECK(of({open_segment(DRV, item)}) == Class::segment);
  CHECK(of({open_segment(BDY, 1)}) == Class::segment);
  CHECK(parts({open_segment(DRV, 1)}) == Ids{"DRV-2"});
}

TEST_CASE("the last segment of a chain is the stub of the module at its end") {
  CHECK(of({open_segment(BDY, 2)}) == Class::module);
  CHECK(parts({open_segment(BDY, 2)}) == Ids{"HVC"});
}

TEST_CASE("whatever interrupts a ring is the ring: a break, or a member without supply that passes nothing on") {
  Network ring = network();
  ring.buses[BDY].protocol = Protocol::ring;
  ring.buses[BDY].segments.push_back(segment("BDY-4", module_end(HVC), module_end(GWM)));
  const std::vector<std::vector<Fault>> sets = {
      {open_segment(BDY, 0)}, {open_segment(BDY, 2)}, {dead(HVC)}, {open_part(PartKind::feed, F7)}};
  for (const auto& faults : sets) {
    CHECK(class_of(ring, faults) == Class::bus);
    CHECK(class_parts_of(ring, faults) == Ids{"BDY"});
  }
  CHECK(class_of(ring, {dead(GWM)}) == Class::gateway);
  ring.modules[HVC].passes_when_dead = true;
  CHECK(class_of(ring, {dead(HVC)}) == Class::module);
  CHECK_FALSE(sides_of(ring.buses[BDY], 0).parted);
}

TEST_CASE("the commander's own segment of a LIN cuts off all responders, a responder's cuts off itself") {
  Network lin = network();
  CHECK(class_parts_of(lin, {open_segment(LIN, 0)}) == Ids{"WIP"});
  lin.buses[LIN].segments = {segment("LIN-1", module_end(BCM), point_end(S310)),
                             segment("LIN-2", point_end(S310), module_end(WIP)),
                             segment("LIN-3", point_end(S310), module_end(HVC))};
  CHECK(class_of(lin, {open_segment(LIN, 0)}) == Class::segment);
  CHECK(class_parts_of(lin, {open_segment(LIN, 0)}) == Ids{"LIN-1"});
  CHECK(class_parts_of(lin, {open_segment(LIN, 1)}) == Ids{"WIP"});
}

TEST_CASE("whatever disturbs a whole bus is the bus") {
  const Fault extra{.kind = FaultKind::extra, .part = PartKind::bus, .owner = DRV, .bus = DRV, .to = {}};
  const Fault missing{
      .kind = FaultKind::missing, .part = PartKind::terminator, .owner = DRV, .item = 0, .bus = DRV, .to = {}};
  for (const Fault& fault :
       {short_on(DRV, 3), module_fault(FaultKind::holds, ABS, DRV), extra, missing,
        module_fault(FaultKind::babbles, ABS, DRV), module_fault(FaultKind::back_feeds, ABS, DRV)}) {
    CHECK(of({fault}) == Class::bus);
    CHECK(parts({fault}) == Ids{"DRV"});
  }
}

TEST_CASE("a feed or ground that several modules share is a supply fault, also a feed further up") {
  CHECK(of({open_part(PartKind::feed, F20)}) == Class::supply);
  CHECK(parts({open_part(PartKind::feed, F20)}) == Ids{"F20"});
  CHECK(of({open_part(PartKind::feed, IGN)}) == Class::supply);
  CHECK(of({open_part(PartKind::ground, G12)}) == Class::supply);
  CHECK(of({open_part(PartKind::ground, G31)}) == Class::module);
}

TEST_CASE("the diagnostic connector's pins, its own feed and its stub are the connector") {
  for (const Fault& fault : {open_part(PartKind::connector_bus_pin, DIAG, 0),
                             open_part(PartKind::connector_power_pin, nowhere, 0), open_part(PartKind::feed, F30)}) {
    CHECK(of({fault}) == Class::connector);
    CHECK(parts({fault}) == Ids{"DLC"});
  }
  CHECK(of({open_segment(DIAG, 0)}) == Class::connector);
}

TEST_CASE("one fault that comes and goes is intermittent, two of any sort are several") {
  Fault loose = open_segment(DRV, 1);
  loose.comes_and_goes = true;
  CHECK(of({loose}) == Class::intermittent);
  CHECK(parts({loose}) == Ids{"DRV-2"});
  CHECK(of({loose, dead(ABS)}) == Class::several);
  CHECK(of({dead(ABS), dead(ECM)}) == Class::several);
  CHECK(parts({dead(ABS), dead(ECM)}) == Ids{"ABS", "ECM"});
}

TEST_CASE("the sides of a segment name its modules, terminators and the diagnostic connector") {
  const Sides sides = sides_of(network().buses[DRV], 1);
  CHECK(sides.parted);
  CHECK(sides.from.modules == std::vector<std::size_t>{GWM, ABS});
  CHECK(sides.to.modules == std::vector<std::size_t>{ECM, TCM});
  CHECK(sides.from.terminators == 1);
  CHECK(sides.to.terminators == 1);
  CHECK_FALSE(sides.from.connector);
}
