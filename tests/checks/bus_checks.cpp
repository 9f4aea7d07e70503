// Ohms on a bus: what is expected where, and which faults show. Oracle: two 120-ohm terminators and Ohm's law.
#include "checks/bus_checks.hpp"

#include <doctest/doctest.h>

#include "checks/ranking.hpp"

using namespace moor;

namespace {

const Network net = network();
const Scan scan = scan_with_key_on();
const Job job{net, scan};
const Wiring drv = std::make_shared<const BusWiring>(net, DRV);
const Wiring lin = std::make_shared<const BusWiring>(net, LIN);
const Wiring bdy = std::make_shared<const BusWiring>(net, BDY);

std::string shown(const Candidate& candidate, const std::vector<Fault>& faults) {
  return candidate.outcomes.at(candidate.sees(faults).outcome);
}

const Expectation& expected(const Candidate& candidate, std::string_view name) {
  return candidate.check.expect.at(outcome_named(candidate, name));
}

}  // namespace

TEST_CASE("in the plug of a module on a stub 60 ohms are good, 120 mean a terminator is not seen") {
  const Candidate pair = pair_check(job, drv, module_end(ABS)).value();
  CHECK(pair.check.id == "ohms:DRV@ABS");
  CHECK(pair.check.pin == "20 and 21");
  CHECK(pair.check.wire == "GN/WH and GN");
  CHECK(expected(pair, "good").low.value() == doctest::Approx(55).epsilon(0.01));
  CHECK(expected(pair, "good").high.value() == doctest::Approx(65).epsilon(0.01));
  CHECK(expected(pair, "fewer").outcome == "about 120");
  CHECK(shown(pair, {open_segment(DRV, 1)}) == "fewer");
  CHECK(shown(pair, {open_segment(DRV, 4)}) == "none");
  CHECK(shown(pair, {open_segment(DRV, 5)}) == "good");
  CHECK(shown(pair, {short_of(DRV, 0, Lines::both, ShortTo::other_line)}) == "short");
  CHECK(shown(pair, {dead(ABS)}) == "good");
}

TEST_CASE("in the plug of a module that carries a terminator 120 ohms are good, and nothing else is fewer") {
  const Candidate pair = pair_check(job, drv, module_end(ECM)).value();
  CHECK(expected(pair, "good").low.value() == doctest::Approx(110).epsilon(0.01));
  CHECK(expected(pair, "good").high.value() == doctest::Approx(130).epsilon(0.01));
  CHECK(outcome_named(pair, "fewer") == 0);
  CHECK(shown(pair, {open_segment(DRV, 1)}) == "none");
}

TEST_CASE("forty ohms are a terminator too many") {
  const Fault extra{.kind = FaultKind::extra, .part = PartKind::bus, .owner = DRV, .bus = DRV, .to = {}};
  const Candidate pair = pair_check(job, drv, module_end(TCM)).value();
  CHECK(shown(pair, {extra}) == "more");
  CHECK(expected(pair, "more").low.value() < 40);
  CHECK(expected(pair, "more").high.value() > 40);
}

TEST_CASE("a bus that lists no pair of terminators has no rule of 60 ohms") {
  CHECK_FALSE(pair_check(job, bdy, module_end(HVC)).has_value());
  CHECK_FALSE(pair_check(job, lin, module_end(WIP)).has_value());
}

TEST_CASE("ohms are measured with the battery disconnected, and the check says so") {
  const Check pair = pair_check(job, drv, module_end(ABS)).value().check;
  CHECK(pair.key == KeyState::off);
  CHECK(pair.measure.find("battery disconnected") != std::string::npos);
  bool said = false;
  for (const std::string& caution : pair.cautions) said |= caution.find("Battery disconnected") != std::string::npos;
  CHECK(said);
}

TEST_CASE("each wire to ground and supply tells which short, and a single wire has no pair") {
  const Candidate pair = line_shorts_check(job, drv, module_end(GWM));
  CHECK(shown(pair, {short_of(DRV, 3, Lines::high, ShortTo::ground)}) == "ground");
  CHECK(shown(pair, {short_of(DRV, 3, Lines::low, ShortTo::supply)}) == "supply");
  CHECK(shown(pair, {short_of(DRV, 3, Lines::both, ShortTo::other_line)}) == "together");
  CHECK(shown(pair, {open_segment(DRV, 3)}) == "good");
  const Candidate single = line_shorts_check(job, lin, module_end(BCM));
  CHECK(outcome_named(single, "together") == 0);
  CHECK(shown(single, {short_of(LIN, 0, Lines::both, ShortTo::ground)}) == "ground");
  CHECK(shown(single, {module_fault(FaultKind::holds, WIP, LIN)}) == "ground");
}

TEST_CASE("a parted connector says on which side the fault is") {
  const Candidate split = split_check(job, drv, C50);
  CHECK(split.check.expect.size() == 3);
  CHECK(shown(split, {short_of(DRV, 4, Lines::low, ShortTo::ground)}) == "side DRV-2");
  CHECK(shown(split, {short_of(DRV, 5, Lines::low, ShortTo::ground)}) == "side DRV-3");
  CHECK(shown(split, {open_segment(DRV, 3)}) == "side DRV-3");
  CHECK(shown(split, {dead(ECM)}) == "good");
  CHECK(split.check.expect.at(2).outcome.find("DRV-3 to S311") != std::string::npos);
}

TEST_CASE("a terminator by itself reads its own ohms") {
  const Candidate check = terminator_check(job, drv, 1);
  const Fault missing{
      .kind = FaultKind::missing, .part = PartKind::terminator, .owner = DRV, .item = 1, .bus = DRV, .to = {}};
  CHECK(shown(check, {missing}) == "open");
  CHECK(check.check.part == "ECM");
  CHECK(check.check.expect.at(0).low.value() == doctest::Approx(108));
}

TEST_CASE("where no terminators tell, the wires are measured from plug to plug") {
  const Candidate wire = continuity_check(job, lin, WIP, module_end(BCM));
  CHECK(shown(wire, {open_segment(LIN, 0)}) == "open");
  CHECK(shown(wire, {dead(WIP)}) == "good");
  CHECK(wire.check.expect.at(0).high.value() == doctest::Approx(2));
}

TEST_CASE("a ring link is dark when the fibre is broken or the sender has no supply") {
  Network ring = network();
  ring.buses[BDY].protocol = Protocol::ring;
  const Job other{ring, scan};
  const Wiring wiring = std::make_shared<const BusWiring>(ring, BDY);
  const Candidate link = ring_link_check(other, wiring, 0);
  CHECK(shown(link, {open_segment(BDY, 0)}) == "dark");
  CHECK(shown(link, {open_part(PartKind::feed, F9)}) == "dark");
  CHECK(shown(link, {open_segment(BDY, 1)}) == "good");
  ring.modules[GWM].passes_when_dead = true;
  CHECK(shown(link, {open_part(PartKind::feed, F9)}) == "good");
}
