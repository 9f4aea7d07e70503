// See places.hpp. Tests: tests/planner/evidence.cpp.
#include "planner/places.hpp"

#include <algorithm>

#include "checks/bus_checks.hpp"
#include "checks/collector.hpp"
#include "checks/look_checks.hpp"
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

/// Faults that are suspected enough for checks of their own, each once.
std::vector<Fault> suspected(const Suspects& suspects) {
  std::vector<std::pair<Fault, double>> weights;
  double sum = 0;
  const auto add = [&](Fault fault, double weight) {
    fault.odds = 0;
    for (auto& [known, own] : weights) {
      if (known == fault) {
        own += weight;
        return;
      }
    }
    weights.emplace_back(fault, weight);
  };
  for (const Suspect& suspect : suspects.all) {
    sum += suspect.weight;
    for (const Fault& fault : suspect.set.present) add(fault, suspect.weight);
    for (const auto& alone : suspect.set.passing) add(alone[0], suspect.weight);
  }
  std::stable_sort(weights.begin(), weights.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  std::vector<Fault> faults;
  for (const auto& [fault, weight] : weights) {
    if (weight >= knowledge().limit("least-suspicion") * sum) faults.push_back(fault);
  }
  return faults;
}

void append(auto& all, const auto& more) {
  for (const auto& one : more) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
  }
}

/// Wires that meet in a splice, or follow each other, show one and the same at every plug. With the splice undone, or
/// each wire from end to end, they are told apart.
void add_wires(const Job& job, std::size_t bus, const std::vector<Fault>& faults, std::vector<Candidate>& made) {
  const auto wiring = std::make_shared<const BusWiring>(job.network, bus);
  std::set<std::size_t> points;
  for (const Segment& segment : wiring->bus().segments) {
    for (const End& end : {segment.from, segment.to}) {
      if (end.kind == End::Kind::point && wiring->segments_at(end).size() > 1) points.insert(end.index);
    }
  }
  for (const std::size_t point : points) {
    const Point::Kind kind = job.network.points[point].kind;
    if (kind == Point::Kind::splice || kind == Point::Kind::hidden) made.push_back(split_check(job, wiring, point));
  }
  for (const Fault& fault : faults) {
    if (fault.part == PartKind::segment && fault.owner == bus) made.push_back(wire_check(job, wiring, fault.item));
  }
}

/// What the library's own list of checks does not have.
std::vector<Candidate> own_checks(const Job& job, const Effects& effects, const std::vector<Fault>& faults,
                                  const std::set<std::size_t>& modules) {
  std::vector<Candidate> made;
  std::set<std::size_t> owners = modules, buses;
  for (const Fault& fault : faults) {
    const bool of_module = fault.part == PartKind::module || fault.part == PartKind::power_pin ||
                           fault.part == PartKind::ground_pin || fault.part == PartKind::reference;
    if (of_module) owners.insert(fault.owner);
    if (fault.bus != nowhere) buses.insert(fault.bus);
  }
  for (const std::size_t m : owners) {
    const Module& module = job.network.modules[m];
    made.push_back(poll_check(job, effects, m));
    made.push_back(label_check(job, m));
    for (std::size_t r = 0; r < module.references.size(); ++r) {
      made.push_back(reference_volts_check(job, m, r));
      made.push_back(reference_wire_check(job, m, r));
      if (module.references[r].loads.size() > 1) made.push_back(all_loads_check(job, m, r));
      for (std::size_t load = 0; load < module.references[r].loads.size(); ++load) {
        made.push_back(load_check(job, m, r, load));
      }
    }
  }
  for (const std::size_t bus : buses) {
    if (job.network.buses[bus].protocol != Protocol::ring) add_wires(job, bus, faults, made);
  }
  for (const auto& each : job.network.diagnostic_connector.buses) {
    const Protocol protocol = job.network.buses[each.bus].protocol;
    if (!buses.contains(each.bus) || protocol == Protocol::ring || protocol == Protocol::ethernet_t1) continue;
    made.push_back(bus_volts_check(job, each.bus, Line::high));
    if (lines_of(protocol) == 2) made.push_back(bus_volts_check(job, each.bus, Line::low));
  }
  return made;
}

/// Two outcomes have one range, as at a fuse with one contact dead or both: words tell more than a number.
bool told_in_words(const Check& check) {
  for (auto one = check.expect.begin(); one != check.expect.end(); ++one) {
    const auto same = [&](const Expectation& other) {
      return (one->low || one->high) && one->low == other.low && one->high == other.high;
    };
    if (std::any_of(std::next(one), check.expect.end(), same)) return true;
  }
  return false;
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

std::vector<std::size_t> buses_of(const Network& network, std::size_t module) {
  std::vector<std::size_t> on;
  const End end{End::Kind::module, module};
  for (std::size_t b = 0; b < network.buses.size(); ++b) {
    const auto& segments = network.buses[b].segments;
    const bool here = std::any_of(segments.begin(), segments.end(),
                                  [&](const Segment& segment) { return segment.from == end || segment.to == end; });
    if (here) on.push_back(b);
  }
  return on;
}

std::string refused_for(const Candidate& candidate) {
  const auto hazard = std::find_if(candidate.hazards.begin(), candidate.hazards.end(), refused);
  return hazard == candidate.hazards.end() ? "" : *hazard;
}

std::vector<Prospect> prospects_of(const Job& job, const Effects& effects, const Places& places,
                                   const Suspects& suspects, const std::set<std::size_t>& modules) {
  Collector collector(job);
  std::vector<Fault> faults = suspected(suspects);
  for (const std::size_t m : modules) {
    faults.push_back({.kind = FaultKind::dead, .part = PartKind::module, .owner = m});
    for (const std::size_t b : buses_of(job.network, m)) {
      faults.push_back({.kind = FaultKind::holds, .part = PartKind::module, .owner = m, .bus = b});
    }
    if (job.network.modules[m].optional) {
      faults.push_back({.kind = FaultKind::not_fitted, .part = PartKind::module, .owner = m});
    }
    faults.push_back({.kind = FaultKind::unconfigured, .part = PartKind::module, .owner = m});
  }
  for (const Fault& fault : faults) collector.add_for(fault);
  Hypotheses hypotheses;
  for (const Suspect& suspect : suspects.all) {
    hypotheses.sets.push_back(suspect.set);
    hypotheses.sets.back().weight = suspect.weight;
  }
  collector.add_general(hypotheses);
  std::vector<Candidate> candidates = own_checks(job, effects, faults, modules);  // these first, where both have an id
  for (Candidate& listed : collector.candidates) candidates.push_back(std::move(listed));
  if (battery_was_low(job.scan) || !job.scan.battery_volts) candidates.push_back(battery_check(job));
  std::vector<Prospect> all;
  std::set<std::string> seen;
  for (Candidate& candidate : candidates) {
    if (!seen.insert(candidate.check.id).second) continue;
    const auto place = places.find(candidate.check.id);
    std::optional<Measurement> how;
    if (place != places.end() && !told_in_words(candidate.check)) how = place->second;
    all.push_back({std::move(candidate), std::move(how)});
  }
  return all;
}

}  // namespace whichwire
