// Between the two wires of a terminated pair: 60 ohms with both terminators in reach, 120 with one, open with none.
// Source: Ohm's law (two 120-ohm terminators of ISO 11898-2 in parallel). Tests: tests/checks/bus_checks.cpp.
#include <algorithm>
#include <cmath>

#include "checks/bus_site.hpp"
#include "checks/sight.hpp"

namespace whichwire {
namespace {

constexpr double open_ohms = 1000;  // "open" on the meter: above anything that terminators make
constexpr double short_ohms = 10;

/// Terminators in reach with all whole, in parallel.
double ohms_of(const Bus& bus, const BusProbe& probe) {
  double siemens = 0;
  for (const Terminator& terminator : bus.terminators) {
    const bool out = terminator.at.kind == End::Kind::module && terminator.at.index == probe.unplugged;
    if (!out && terminator.ohms > 0) siemens += 1 / terminator.ohms;
  }
  return siemens > 0 ? 1 / siemens : 0;
}

std::string whole_number(double value) { return std::to_string(std::lround(value)); }

void set_ranges(Candidate& made, double good) {
  const double tolerance = knowledge().limit("pair-tolerance");
  const double fewer = 2 * good;  // one of two alike
  const auto set = [&](std::string_view name, std::optional<double> low, std::optional<double> high) {
    const std::size_t at = outcome_named(made, name);
    if (at == 0 && name != "good") return;
    made.check.expect[at].low = low;
    made.check.expect[at].high = high;
  };
  const bool has_fewer = outcome_named(made, "fewer") > 0;
  set("good", good * (1 - tolerance), good * (1 + tolerance));
  set("fewer", fewer * (1 - tolerance), fewer * (1 + tolerance));
  set("none", open_ohms, {});
  set("between", good * (1 + tolerance), has_fewer ? fewer * (1 - tolerance) : open_ohms);
  set("more", short_ohms, good * (1 - tolerance));
  set("short", 0.0, short_ohms);
}

std::string_view name_of(const BusReading& reading, std::size_t expected) {
  if (reading.together) return "short";
  if (reading.terminators == 0) return "none";
  if (reading.terminators < expected) return "fewer";
  if (reading.terminators > expected) return "more";
  return reading.corroded ? "between" : "good";
}

std::string_view kind_at(const End& at, bool passes_through) {
  if (at.kind == End::Kind::diagnostic_connector) return "pair-connector";
  return passes_through ? "pair-through" : "pair-plug";
}

}  // namespace

bool has_pair_rule(const Bus& bus) { return bus.protocol == Protocol::can_hs && bus.terminators.size() >= 2; }

std::optional<Candidate> pair_check(const Job& job, const Wiring& wiring, const End& at) {
  const bool module = at.kind == End::Kind::module;
  const bool through = module && wiring->segments_at(at).size() > 1;
  const BusProbe probe{at, module && !through ? at.index : nowhere, nowhere};
  const std::size_t expected = wiring->read(probe, {}).terminators;
  if (expected == 0 || !has_pair_rule(wiring->bus())) return std::nullopt;

  const double good = ohms_of(wiring->bus(), probe);
  const Site site = bus_site(job.network, *wiring, at);
  Fields fields = bus_fields(*wiring, site);
  fields.emplace_back("fewer", whole_number(2 * good));
  Candidate made = build(job, kind_at(at, through), site, fields, "ohms:" + wiring->bus().id + "@" + site.part, "pair");
  if (expected != 2) drop_outcome(made, "fewer");
  set_ranges(made, good);
  if (module) made.plug = site.part;
  made.sees = [wiring, probe, expected, names = made.outcomes,
               bus = wiring->index()](const std::vector<Fault>& present) {
    if (!any_on_bus(present, bus)) return Sight{};
    const std::string_view name = name_of(wiring->read(probe, present), expected);
    const auto found = std::find(names.begin(), names.end(), name);
    // Three terminators with one lost read between three and two: named as something in between.
    const auto other = std::find(names.begin(), names.end(), "between");
    return sight(true, static_cast<std::size_t>((found == names.end() ? other : found) - names.begin()));
  };
  return made;
}

}  // namespace whichwire
