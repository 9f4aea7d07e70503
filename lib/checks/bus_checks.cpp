// See bus_checks.hpp. Tests: tests/checks/bus_checks.cpp.
#include "checks/bus_checks.hpp"

#include <algorithm>
#include <cmath>

#include "checks/bus_site.hpp"
#include "checks/sight.hpp"

namespace whichwire {
namespace {

std::string id_at(std::string_view kind, const BusWiring& wiring, const std::string& part) {
  return std::string(kind) + ":" + wiring.bus().id + "@" + part;
}

const End& other_end(const Segment& segment, const End& end) { return segment.from == end ? segment.to : segment.from; }

Candidate at_plug(Candidate made, const End& at) {
  if (at.kind == End::Kind::module) made.plug = made.check.part;
  return made;
}

/// One outcome for each side of the parted place, in place of the table's one.
void add_sides(Candidate& made, const Job& job, const BusWiring& wiring, const End& at) {
  const Expectation side = made.check.expect.at(1);
  drop_outcome(made, "side");
  for (const std::size_t i : wiring.segments_at(at)) {
    const Segment& segment = wiring.bus().segments[i];
    const Fields fields = {{"side", segment.id + " to " + id_of(job.network, other_end(segment, at))}};
    made.outcomes.push_back("side " + segment.id);
    made.check.expect.push_back({fill(side.outcome, fields), {}, {}, fill(side.means, fields), made.outcomes.back()});
  }
}

/// What to measure on each side of a parted place.
std::string rule_for(const Bus& bus) {
  if (has_pair_rule(bus)) {
    const long ohms = std::lround(bus.terminators.front().ohms);
    return "between the wires (one terminator a side: " + std::to_string(ohms) + " ohms) and each wire to ground";
  }
  return lines_of(bus.protocol) == 2 ? "wire to wire, and each wire to ground and supply"
                                     : "the wire to ground and supply";
}

/// Some places are parted by hand, others have to be undone and made again.
std::string_view way_apart(Point::Kind kind) {
  if (kind == Point::Kind::hidden) return "centre-apart";
  return kind == Point::Kind::splice ? "splice-apart" : "split";
}

}  // namespace

Candidate line_shorts_check(const Job& job, const Wiring& wiring, const End& at) {
  const Site site = bus_site(job.network, *wiring, at);
  Candidate made =
      at_plug(build(job, "line-shorts", site, bus_fields(*wiring, site), id_at("shorts", *wiring, site.part)), at);
  if (lines_of(wiring->bus().protocol) != 2) drop_outcome(made, "together");
  const std::size_t ground = outcome_named(made, "ground"), supply = outcome_named(made, "supply");
  const std::size_t together = outcome_named(made, "together");
  made.sees = [=](const std::vector<Fault>& present) {
    if (!any_on_bus(present, wiring->index())) return Sight{};
    const BusReading reading = wiring->read({at, nowhere, nowhere}, present);
    if (reading.to_ground) return sight(true, ground);
    if (reading.to_supply) return sight(true, supply);
    return sight(reading.together, together);
  };
  return made;
}

Candidate split_check(const Job& job, const Wiring& wiring, std::size_t point) {
  const End at{End::Kind::point, point};
  const Point::Kind kind = job.network.points[point].kind;
  Site site = bus_site(job.network, *wiring, at);
  if (kind == Point::Kind::hidden) site.part = wiring->bus().id;
  Fields fields = bus_fields(*wiring, site);
  fields.emplace_back("rule", rule_for(wiring->bus()));
  Candidate made = build(job, way_apart(kind), site, fields, id_at("split", *wiring, site.part), "split");
  if (kind == Point::Kind::hidden) made.check.part.clear();
  add_sides(made, job, *wiring, at);
  const std::vector<std::size_t> sides = wiring->segments_at(at);
  std::vector<BusReading> whole;
  whole.reserve(sides.size());
  for (const std::size_t side : sides) whole.push_back(wiring->read({at, nowhere, side}, {}));
  made.sees = [=](const std::vector<Fault>& present) {
    if (!any_on_bus(present, wiring->index())) return Sight{};
    for (std::size_t i = 0; i < sides.size(); ++i) {
      if (wiring->read({at, nowhere, sides[i]}, present) != whole[i]) return sight(true, i + 1);
    }
    return Sight{};
  };
  return made;
}

Candidate terminator_check(const Job& job, const Wiring& wiring, std::size_t terminator) {
  const Terminator& part = wiring->bus().terminators.at(terminator);
  const Site site = bus_site(job.network, *wiring, part.at);
  const double tolerance = knowledge().limit("terminator-tolerance");
  Candidate made = at_plug(
      build(job, "terminator", site, bus_fields(*wiring, site), id_at("terminator", *wiring, site.part)), part.at);
  made.check.expect[0].low = part.ohms * (1 - tolerance);
  made.check.expect[0].high = part.ohms * (1 + tolerance);
  made.check.expect[1].low = made.check.expect[0].high;
  made.sees = first_seen([bus = wiring->index(), terminator](const Fault& fault) {
    return sight(fault.part == PartKind::terminator && fault.bus == bus && fault.item == terminator, 1);
  });
  return made;
}

Candidate continuity_check(const Job& job, const Wiring& wiring, std::size_t module, const End& other) {
  const End at{End::Kind::module, module};
  const Site site = bus_site(job.network, *wiring, at);
  const Site far = bus_site(job.network, *wiring, other);
  Fields fields = bus_fields(*wiring, site);
  fields.emplace_back("other", far.part + pins_phrase(far));
  Candidate made =
      at_plug(build(job, "continuity", site, fields, id_at("continuity", *wiring, site.part) + "-" + far.part), at);
  made.place = wiring->bus().id + " " + std::min(site.part, far.part) + " " + std::max(site.part, far.part);
  made.check.minutes += far.place.minutes.value_or(made.kind->reach);
  made.hazards.insert(made.hazards.end(), far.place.hazards.begin(), far.place.hazards.end());
  made.sees = [=](const std::vector<Fault>& present) {
    if (!any_on_bus(present, wiring->index())) return Sight{};
    return sight(!wiring->joined(other, at, present), 1);
  };
  return made;
}

Candidate ring_link_check(const Job& job, const Wiring& wiring, std::size_t segment) {
  const Segment& link = wiring->bus().segments.at(segment);
  const Site site = bus_site(job.network, *wiring, link.to);
  Fields fields = bus_fields(*wiring, site);
  fields.emplace_back("segment", link.id);
  fields.emplace_back("other", id_of(job.network, link.from));
  Candidate made = at_plug(build(job, "ring-link", site, fields, id_at("ring", *wiring, link.id)), link.to);
  const std::size_t sender = link.from.kind == End::Kind::module ? link.from.index : nowhere;
  made.sees = first_seen([&network = job.network, bus = wiring->index(), segment, sender](const Fault& fault) {
    const bool own = fault.part == PartKind::segment && fault.bus == bus && fault.item == segment;
    const bool silent = sender != nowhere && !network.modules[sender].passes_when_dead &&
                        (of_module(fault, FaultKind::dead, sender) || unpowers(network, fault, sender));
    return sight(own || silent, 1);
  });
  return made;
}

}  // namespace whichwire
