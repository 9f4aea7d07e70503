// See places.hpp. Tests: tests/planner/evidence.cpp.
#include "planner/places.hpp"

#include <algorithm>

#include "checks/bus_checks.hpp"
#include "checks/supply_checks.hpp"
#include "planner/own_checks.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;

/// Battery connected, key on, buses awake.
Situation awake(const Scan& scan, KeyState key = KeyState::run) {
  Situation made;
  made.key = key;
  made.asleep = key == KeyState::off;
  if (scan.battery_volts)
    made.battery_volts = Interval{*scan.battery_volts - 0.4, *scan.battery_volts, *scan.battery_volts + 0.3};
  return made;
}

Situation for_ohms() {
  Situation made;
  made.battery_connected = false;
  return made;
}

class Map {
 public:
  explicit Map(const Job& job) : job_(job), network_(job.network) {}

  Places make() {
    for (std::size_t m = 0; m < network_.modules.size(); ++m) add_module(m);
    for (std::size_t b = 0; b < network_.buses.size(); ++b) add_bus(b);
    for (std::size_t f = 0; f < network_.feeds.size(); ++f) add_feed(f);
    return std::move(places_);
  }

 private:
  void add(const Candidate& candidate, Measurement how) { places_.emplace(candidate.check.id, std::move(how)); }

  void add_module(std::size_t m) {
    const Module& module = network_.modules[m];
    for (std::size_t i = 0; i < std::max<std::size_t>(module.power.size(), 1); ++i) {
      const std::size_t item = module.power.empty() ? nowhere : i;
      const Candidate check = feed_pin_check(job_, m, item);
      add_lamp(check, power_pin_of(m, item), battery_negative(), {power_pin_of(m, item), battery_negative()}, m);
    }
    for (std::size_t i = 0; i < std::max<std::size_t>(module.ground.size(), 1); ++i) {
      const std::size_t item = module.ground.empty() ? nowhere : i;
      const Candidate check = ground_pin_check(job_, m, item);
      add_lamp(check, battery_positive(), ground_pin_of(m, item), {ground_pin_of(m, item), battery_negative()}, m);
    }
    for (std::size_t r = 0; r < module.references.size(); ++r) add_reference(m, r);
  }

  void add_lamp(const Candidate& check, const Terminal& from, const Terminal& to, std::array<Terminal, 2> probes,
                std::size_t unplugged) {
    Situation how = awake(job_.scan, check.check.key.value_or(KeyState::run));
    how.unplugged = {unplugged};
    how.load = TestLoad{from, to, 5, std::nullopt};
    add(check, {Kind::volts, {probes}, how});
  }

  /// Both contacts loaded; one number for them is the lower.
  void add_feed(std::size_t f) {
    const Candidate check = feed_check(job_, f);
    const Terminal in{.kind = Terminal::Kind::feed_in, .owner = f}, out{.kind = Terminal::Kind::feed_out, .owner = f};
    Situation how = awake(job_.scan, check.check.key.value_or(KeyState::run));
    if (check.check.mode == "volts-loaded") how.load = TestLoad{out, battery_negative(), 5, std::nullopt};
    add(check, {Kind::volts, {{out, battery_negative()}, {in, battery_negative()}}, how});
  }

  void add_reference(std::size_t m, std::size_t r) {
    const std::array<Terminal, 2> probes{reference_of(m, r), battery_negative()};
    Measurement how{Kind::volts, {probes}, awake(job_.scan)};
    add(reference_check(job_, m, r), how);
    const std::size_t loads = network_.modules[m].references[r].loads.size();
    Measurement alone = how;
    for (std::size_t load = 0; load < loads; ++load) {
      Measurement off = how;
      off.situation.loads_off = {{m, r, load}};
      alone.situation.loads_off.push_back({m, r, load});
      add(load_check(job_, m, r, load), off);
    }
    if (loads > 0) add(all_loads_check(job_, m, r), alone);
    alone.kind = Kind::lamp;
    alone.situation.unplugged = {m};
    alone.situation.load = TestLoad{battery_positive(), reference_of(m, r), 5, std::nullopt};
    add(reference_wire_check(job_, m, r), alone);
  }

  void add_bus(std::size_t b) {
    const Bus& bus = network_.buses[b];
    if (bus.protocol == Protocol::ring) return;
    const auto wiring = std::make_shared<const BusWiring>(network_, b);
    std::vector<End> ends;
    const auto note = [&](const End& end) {
      if (std::find(ends.begin(), ends.end(), end) == ends.end()) ends.push_back(end);
    };
    for (const Segment& segment : bus.segments) {
      note(segment.from);
      note(segment.to);
    }
    for (const auto& each : network_.diagnostic_connector.buses) {
      if (each.bus == b) note({End::Kind::diagnostic_connector, nowhere});
    }
    for (const End& end : ends) add_bus_at(wiring, end);
    for (std::size_t t = 0; t < bus.terminators.size(); ++t) {
      if (bus.terminators[t].at.kind != End::Kind::module) continue;
      const std::size_t m = bus.terminators[t].at.index;
      Situation how = for_ohms();
      how.unplugged = {m};
      add(terminator_check(job_, wiring, t),
          {Kind::ohms, {{own_line(b, Line::high, m), own_line(b, Line::low, m)}}, how});
    }
  }

  void add_bus_at(const Wiring& wiring, const End& end) {
    const std::size_t b = wiring->index();
    const bool two = lines_of(wiring->bus().protocol) == 2;
    const Terminal high = line_at(b, Line::high, end), low = line_at(b, Line::low, end);
    if (const auto pair = pair_check(job_, wiring, end)) {
      Situation how = for_ohms();
      const bool through = wiring->segments_at(end).size() > 1;
      if (end.kind == End::Kind::module && !through) how.unplugged = {end.index};
      add(*pair, {Kind::ohms, {{high, low}}, how});
    }
    if (end.kind == End::Kind::point) return;
    Measurement shorts{Kind::ohms, {{high, battery_negative()}}, for_ohms()};
    if (two) shorts.probes.push_back({low, battery_negative()});
    add(line_shorts_check(job_, wiring, end), shorts);
    if (end.kind != End::Kind::diagnostic_connector) return;
    add(bus_volts_check(job_, b, Line::high), {Kind::volts, {{high, battery_negative()}}, awake(job_.scan)});
    if (two) add(bus_volts_check(job_, b, Line::low), {Kind::volts, {{low, battery_negative()}}, awake(job_.scan)});
  }

  const Job& job_;
  const Network& network_;
  Places places_;
};
void append(auto& all, const auto& more) {
  for (const auto& one : more) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
  }
}

}  // namespace

Places places_of(const Job& job) { return Map(job).make(); }

Measurement with_off(Measurement taken, const Situation& now) {
  append(taken.situation.unplugged, now.unplugged);
  append(taken.situation.parted, now.parted);
  append(taken.situation.fuses_out, now.fuses_out);
  append(taken.situation.loads_off, now.loads_off);
  return taken;
}

}  // namespace whichwire
