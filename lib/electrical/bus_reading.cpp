// Idea, source and tests: see bus_reading.hpp.
#include "electrical/bus_reading.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "electrical/nodal.hpp"

namespace whichwire {
namespace {

Predicted nothing(std::string why) { return {std::nullopt, std::move(why)}; }

/// Both probes on a bus that a meter can be put to.
struct Probes {
  BusCircuit made;
  Node red = no_node, black = no_node;
  std::string why;  ///< why not
};

Probes probe(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
             const Situation& situation, const Terminal& red, const Terminal& black) {
  if (ready.network.buses[bus].protocol == Protocol::ring)
    return {{}, no_node, no_node, "a ring shows nothing to a meter"};
  Probes probes{circuit_of(ready, bus, faults, situation), no_node, no_node, ""};
  probes.red = probes.made.node_at(ready.buses[bus], red);
  probes.black = probes.made.node_at(ready.buses[bus], black);
  if (probes.red == no_node || probes.black == no_node) probes.why = "the bus does not come to this place";
  return probes;
}

/// Whether something keeps the lines under voltage although nobody is awake.
bool fed(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
         const Situation& situation) {
  if (!situation.battery_connected) return false;
  const Protocol protocol = ready.network.buses[bus].protocol;
  for (const Line line : {Line::high, Line::low}) {
    const LineLevel& level = ready.levels.of(protocol, LineState::asleep, line);
    if (level && level->battery.nominal > 0) return true;
  }
  return std::any_of(faults.begin(), faults.end(), [&](const PresentFault& each) {
    const Fault& fault = each.fault;
    const bool to_supply = fault.kind == FaultKind::short_circuit && fault.to == ShortTo::supply;
    return fault.bus == bus && (to_supply || fault.kind == FaultKind::back_feeds);
  });
}

/// A sender that stands for `count` of them.
struct Sender {
  std::size_t module = nowhere;
  double count = 0;
};

/// Groups the modules that may send by the pieces of wire that their lines are on.
std::vector<Sender> senders(const BusPlan& plan, const BusCircuit& made, const std::vector<PresentFault>& faults,
                            std::size_t bus) {
  std::vector<Node> piece(made.circuit.nodes);
  std::iota(piece.begin(), piece.end(), Node{0});
  const auto root = [&](Node n) {
    while (piece[n] != n) n = piece[n] = piece[piece[n]];
    return n;
  };
  std::vector<std::array<bool, 2>> broken(plan.segments.size(), {false, false});
  for (const PresentFault& each : faults) {
    const Fault& fault = each.fault;
    const bool gap = fault.kind == FaultKind::open || fault.kind == FaultKind::resistive;
    if (!gap || fault.part != PartKind::segment || fault.bus != bus || fault.item >= broken.size()) continue;
    if (fault.lines != Lines::low) broken[fault.item][0] = true;
    if (fault.lines != Lines::high) broken[fault.item][1] = true;
  }
  for (std::size_t s = 0; s < plan.segments.size(); ++s) {
    for (std::size_t l = 0; l < plan.lines; ++l) {
      if (!broken[s][l]) piece[root(made.plugs[s][0][l])] = root(made.plugs[s][1][l]);
    }
  }
  std::map<std::pair<Node, Node>, Sender> groups;
  for (const std::size_t module : made.able) {
    const LinePair& at = made.places[plan.end_of({End::Kind::module, module})];
    Sender& group = groups[{root(at[0]), plan.lines == 2 ? root(at[1]) : no_node}];
    if (group.module == nowhere || module < group.module) group.module = module;
    group.count += 1;
  }
  std::vector<Sender> all;
  all.reserve(groups.size());
  for (const auto& [pieces, group] : groups) all.push_back(group);
  return all;
}

/// What shows while `module` sends a dominant bit; nullopt: the protocol drives both ways alike, or not at all.
std::optional<Interval> driven(const ReadyNetwork& ready, std::size_t bus, const Probes& probes, std::size_t module,
                               const Situation& situation) {
  const BusPlan& plan = ready.buses[bus];
  Circuit circuit = probes.made.circuit;
  const LinePair& at = probes.made.places[plan.end_of({End::Kind::module, module})];
  bool drives = false;
  for (std::size_t l = 0; l < plan.lines; ++l) {
    const LineLevel& level = ready.levels.of(ready.network.buses[bus].protocol, LineState::drive, static_cast<Line>(l));
    if (!level) continue;
    drives = true;
    circuit.source(at[l], volts_of(*level, ready.battery(situation), lift_of(situation, module)), level->ohms,
                   level->way);
  }
  if (!drives) return std::nullopt;
  return volts_between(circuit, probes.red, probes.black, ready.parts.meter_ohms);
}

/// How much of the time frames are on the bus. Where it is disturbed, nodes give up or keep trying.
Interval load_of(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
                 const Situation& situation) {
  Interval load = situation.bus_load.value_or(ready.bus_load[bus]);
  for (const PresentFault& each : faults) {
    if (each.fault.bus != bus) continue;
    if (each.fault.kind == FaultKind::babbles) load = {load.low, 1, 1};
    load.low = 0;
  }
  return load;
}

/// Adds one sender's share to the average: the limits take whichever end of the share is further out.
void mix(Interval& average, const Interval& rest, const Interval& drive, const Interval& share) {
  const double lower = drive.low - rest.low, upper = drive.high - rest.high;
  average.low += std::min(share.low * lower, share.high * lower);
  average.nominal += share.nominal * (drive.nominal - rest.nominal);
  average.high += std::max(share.low * upper, share.high * upper);
}

}  // namespace

Predicted bus_ohms(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
                   const Situation& situation, const Terminal& red, const Terminal& black) {
  if (situation.battery_connected && !situation.asleep)
    return nothing("there is voltage on a bus that is awake: no ohms");
  if (fed(ready, bus, faults, situation))
    return nothing("there is voltage on the line: disconnect the battery for ohms");
  const Probes probes = probe(ready, bus, faults, situation, red, black);
  if (!probes.why.empty()) return nothing(probes.why);
  return {ohms_between(probes.made.circuit, probes.red, probes.black), ""};
}

Predicted bus_volts(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
                    const Situation& situation, const Terminal& red, const Terminal& black) {
  const Probes probes = probe(ready, bus, faults, situation, red, black);
  if (!probes.why.empty()) return nothing(probes.why);
  const Interval rest = volts_between(probes.made.circuit, probes.red, probes.black, ready.parts.meter_ohms);
  if (situation.asleep || !situation.battery_connected) return {rest, ""};
  const std::vector<Sender> all = senders(ready.buses[bus], probes.made, faults, bus);
  const double count =
      std::accumulate(all.begin(), all.end(), 0.0, [](double n, const Sender& s) { return n + s.count; });
  const Interval dominant = load_of(ready, bus, faults, situation) * ready.parts.bus_dominant;
  Interval average = rest;
  for (const Sender& sender : all) {
    const auto drive = driven(ready, bus, probes, sender.module, situation);
    if (drive) mix(average, rest, *drive, (sender.count / count) * dominant);
  }
  return {average, ""};
}

}  // namespace whichwire
