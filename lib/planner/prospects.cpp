// See prospects.hpp. Tests: tests/planner/evidence.cpp.
#include "planner/prospects.hpp"

#include <algorithm>

#include "checks/collector.hpp"
#include "checks/look_checks.hpp"
#include "planner/own_checks.hpp"

namespace whichwire {
namespace {

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

/// A link and the module that sends over it are dark alike at the far end.
void add_senders(const Job& job, std::size_t ring, const std::vector<Fault>& faults, std::vector<Candidate>& made) {
  const auto wiring = std::make_shared<const BusWiring>(job.network, ring);
  for (const Fault& fault : faults) {
    if (fault.part != PartKind::segment || fault.owner != ring) continue;
    const End& from = wiring->bus().segments[fault.item].from;
    const bool may_be_silent = from.kind == End::Kind::module && !job.network.modules[from.index].passes_when_dead;
    if (may_be_silent) made.push_back(ring_sender_check(job, wiring, fault.item));
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
    (job.network.buses[bus].protocol == Protocol::ring ? add_senders : add_wires)(job, bus, faults, made);
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
