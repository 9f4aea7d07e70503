// Idea and tests: see bus_circuit.hpp.
#include "electrical/bus_circuit.hpp"

#include <algorithm>

#include "electrical/bus_segments.hpp"

namespace whichwire {
namespace {

std::size_t number(Line line) { return static_cast<std::size_t>(line); }

class Builder {
 public:
  Builder(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
          const Situation& situation)
      : ready_(ready),
        parts_(ready.parts),
        bus_(ready.network.buses[bus]),
        bus_index_(bus),
        plan_(ready.buses[bus]),
        faults_(faults),
        situation_(situation),
        battery_(ready.battery(situation)) {
    for (const PresentFault& each : faults) pointers_.push_back(&each.fault);
  }

  BusCircuit make() {
    add_rail();
    add_places();
    add_segments(made_, plan_, bus_index_, parts_, faults_);
    add_connector();
    add_terminators();
    for (const End& end : plan_.ends) {
      if (end.kind == End::Kind::module) add_module(end.index);
    }
    for (const PresentFault& each : faults_) add_disturbance(each);
    return std::move(made_);
  }

 private:
  Circuit& circuit() { return made_.circuit; }
  Interval ohms_or(const PresentFault& each, const Interval& usual) const { return each.ohms.value_or(usual); }

  void add_rail() {
    made_.rail = circuit().add();
    if (situation_.battery_connected) {
      circuit().source(made_.rail, battery_, parts_.battery_ohms);
    } else {
      circuit().resistor(made_.rail, ground_node, parts_.off_rail);
    }
  }

  LinePair add_pair() {
    LinePair pair{no_node, no_node};
    for (std::size_t l = 0; l < plan_.lines; ++l) pair[l] = circuit().add();
    return pair;
  }

  bool apart(const End& end) const {
    if (end.kind == End::Kind::module) return contains(situation_.unplugged, end.index);
    return end.kind == End::Kind::point && contains(situation_.parted, end.index);
  }

  void add_places() {
    for (std::size_t e = 0; e < plan_.ends.size(); ++e) made_.places.push_back(add_pair());
    for (const auto& ends : plan_.segments) {
      std::array<LinePair, 2> plugs{};
      for (std::size_t side = 0; side < 2; ++side) {
        plugs[side] = apart(plan_.ends[ends[side]]) ? add_pair() : made_.places[ends[side]];
      }
      made_.plugs.push_back(plugs);
    }
  }

  /// The pins of the diagnostic connector, which may have lost their wire.
  void add_connector() {
    if (plan_.connector == nowhere) return;
    made_.connector_pins = made_.places[plan_.connector];
    for (const PresentFault& each : faults_) {
      const Fault& fault = each.fault;
      if (fault.kind != FaultKind::open || fault.part != PartKind::connector_bus_pin || fault.bus != bus_index_)
        continue;
      for (std::size_t l = 0; l < plan_.lines; ++l) {
        if (!concerns(fault, l)) continue;
        made_.connector_pins[l] = circuit().add();
        circuit().resistor(made_.connector_pins[l], made_.places[plan_.connector][l],
                           ohms_or(each, exactly(open_circuit)));
      }
    }
    add_tester();
  }

  void add_tester() {
    if (!situation_.tester) return;
    for (std::size_t l = 0; l < plan_.lines; ++l) {
      const auto line = static_cast<Line>(l);
      const LineLevel& own = ready_.levels.of(bus_.protocol, LineState::tester, line);
      const LineState state = situation_.asleep ? LineState::asleep : LineState::rest;
      const LineLevel& level = own ? own : ready_.levels.of(bus_.protocol, state, line);
      if (level) add_level(made_.connector_pins[l], ground_node, *level, {});
    }
  }

  bool gone(FaultKind kind, std::size_t module) const {
    return std::any_of(faults_.begin(), faults_.end(), [&](const PresentFault& each) {
      return each.fault.kind == kind && each.fault.part == PartKind::module && each.fault.owner == module;
    });
  }

  bool missing(std::size_t terminator) const {
    const End& at = bus_.terminators[terminator].at;
    if (at.kind == End::Kind::module && gone(FaultKind::not_fitted, at.index)) return true;
    return std::any_of(faults_.begin(), faults_.end(), [&](const PresentFault& each) {
      return each.fault.kind == FaultKind::missing && each.fault.bus == bus_index_ && each.fault.item == terminator;
    });
  }

  void add_terminators() {
    if (plan_.lines != 2) return;
    for (std::size_t t = 0; t < bus_.terminators.size(); ++t) {
      if (missing(t)) continue;
      const LinePair& at = made_.places[plan_.end_of(bus_.terminators[t].at)];
      const Interval ohms = bus_.terminators[t].ohms * parts_.terminator_share;
      if (!parts_.split_terminators) {
        circuit().resistor(at[0], at[1], ohms);
        continue;
      }
      const Node middle = circuit().add();
      circuit().resistor(at[0], middle, 0.5 * ohms);
      circuit().resistor(middle, at[1], 0.5 * ohms);
    }
  }

  /// A level to `common`, the ground of its part.
  void add_level(Node at, Node common, const LineSource& level, const Interval& lifted) {
    circuit().elements.push_back({at, common, level.ohms, volts_of(level, battery_, lifted), level.way});
  }

  bool supplied(std::size_t module) const {
    if (!situation_.battery_connected) return false;
    const Supply& supply = ready_.supply[static_cast<std::size_t>(situation_.key)];
    return supply.awake(module) && supply.of(module, pointers_) != Level::down;
  }

  /// A dead module may still bias its lines, or no longer.
  LineSource dead_level(const LineSource& off, const LineLevel& rest) const {
    LineSource level = off;
    if (rest && situation_.battery_connected) {
      level.ohms = {std::min(off.ohms.low, rest->ohms.low), rest->ohms.nominal, off.ohms.high};
      const Interval volts = volts_of(*rest, battery_, {});
      level.volts = {std::min(0.0, volts.low), 0, std::max(0.0, volts.high)};
    }
    return level;
  }

  bool without_ground(std::size_t module) const {
    const Module& its = ready_.network.modules[module];
    const auto lost = [&](std::size_t item, std::size_t ground) {
      return std::any_of(faults_.begin(), faults_.end(), [&](const PresentFault& each) {
        const Fault& f = each.fault;
        const bool pin = f.part == PartKind::ground_pin && f.owner == module && f.item == item;
        const bool point = f.part == PartKind::ground && ground != nowhere && f.owner == ground;
        return f.kind == FaultKind::open && (pin || point) && !each.ohms;
      });
    };
    if (its.ground.empty()) return lost(nowhere, nowhere);
    for (std::size_t i = 0; i < its.ground.size(); ++i) {
      if (!lost(i, its.ground[i].ground)) return false;
    }
    return true;
  }

  void add_module(std::size_t module) {
    if (gone(FaultKind::not_fitted, module)) return;
    const LinePair& at = made_.places[plan_.end_of({End::Kind::module, module})];
    const bool in_place = !contains(situation_.unplugged, module);
    const bool live = in_place && supplied(module);
    const bool sound = !gone(FaultKind::dead, module) && !port_dead(module);
    const LineState awake = situation_.asleep ? LineState::asleep : LineState::rest;
    const Node common = in_place && !without_ground(module) ? ground_node : circuit().add();
    for (std::size_t l = 0; l < plan_.lines; ++l) {
      const auto line = static_cast<Line>(l);
      const LineLevel& off = ready_.levels.of(bus_.protocol, LineState::off, line);
      const LineLevel& own = ready_.levels.of(bus_.protocol, awake, line);
      if (live && sound && own) {
        add_level(at[l], common, *own, lift_of(situation_, module));
      } else if (off) {
        add_level(at[l], common, live ? dead_level(*off, own) : *off, {});
      }
      if (module == bus_.commander) add_commander(at[l], common, line, live && sound);
    }
    if (live && sound && !gone(FaultKind::unconfigured, module)) made_.able.push_back(module);
  }

  bool port_dead(std::size_t module) const {
    return std::any_of(faults_.begin(), faults_.end(), [&](const PresentFault& each) {
      return each.fault.kind == FaultKind::port_dead && each.fault.owner == module && each.fault.bus == bus_index_;
    });
  }

  void add_commander(Node at, Node common, Line line, bool live) {
    LineLevel level = ready_.levels.of(bus_.protocol, LineState::commander, line);
    if (!level) return;
    if (!live || situation_.asleep) level->ohms.high = open_circuit;  // its pull-up may be switched off
    if (!live) level->volts = level->battery = {};
    if (!live) level->way = Way::both;
    add_level(at, common, *level, {});
  }

  /// What a module or an added part does to a bus beyond its own input.
  void add_disturbance(const PresentFault& each) {
    const Fault& fault = each.fault;
    if (fault.bus != bus_index_) return;
    if (fault.kind == FaultKind::extra || fault.kind == FaultKind::added_device) {
      const bool terminator = fault.kind == FaultKind::extra;
      return bridge(plan_.added, ohms_or(each, terminator ? parts_.terminator_added : parts_.added_device));
    }
    const std::size_t end = plan_.end_of({End::Kind::module, fault.owner});
    if (end == nowhere) return;
    if (fault.kind == FaultKind::holds) bridge(end, ohms_or(each, parts_.holds));
    if (fault.kind != FaultKind::back_feeds || contains(situation_.unplugged, fault.owner)) return;
    for (std::size_t l = 0; l < plan_.lines; ++l) {
      circuit().resistor(made_.places[end][l], made_.rail, ohms_or(each, parts_.back_feed));
    }
  }

  /// Between the lines; a single line: to ground.
  void bridge(std::size_t end, const Interval& ohms) {
    if (end == nowhere) return;
    const LinePair& at = made_.places[end];
    circuit().resistor(at[0], plan_.lines == 2 ? at[1] : ground_node, ohms);
  }

  const ReadyNetwork& ready_;
  const PartValues& parts_;
  const Bus& bus_;
  std::size_t bus_index_;
  const BusPlan& plan_;
  const std::vector<PresentFault>& faults_;
  const Situation& situation_;
  Interval battery_;
  std::vector<const Fault*> pointers_;
  BusCircuit made_;
};

}  // namespace

Interval volts_of(const LineSource& level, const Interval& battery, const Interval& lifted) {
  return level.battery * battery + level.volts + lifted;
}

Interval lift_of(const Situation& situation, std::size_t module) {
  for (const LiftedGround& each : situation.lifted) {
    if (each.module == module) return each.volts;
  }
  return {};
}

BusCircuit circuit_of(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
                      const Situation& situation) {
  return Builder(ready, bus, faults, situation).make();
}

Node BusCircuit::node_at(const BusPlan& plan, const Terminal& terminal) const {
  if (terminal.kind == Terminal::Kind::battery_positive) return rail;
  if (terminal.kind == Terminal::Kind::battery_negative || terminal.kind == Terminal::Kind::body) return ground_node;
  const std::size_t line = number(terminal.line);
  if (terminal.kind != Terminal::Kind::bus_line || line >= plan.lines) return no_node;
  if (terminal.at.kind == End::Kind::diagnostic_connector && connector_pins[line] != no_node) {
    return connector_pins[line];
  }
  const std::size_t end = plan.end_of(terminal.at);
  if (end == nowhere) return no_node;
  if (terminal.in_part) return places[end][line];
  for (std::size_t s = 0; s < plan.segments.size(); ++s) {
    if (terminal.segment != nowhere && terminal.segment != s) continue;
    for (std::size_t side = 0; side < 2; ++side) {
      if (plan.segments[s][side] == end) return plugs[s][side][line];
    }
  }
  return places[end][line];
}

}  // namespace whichwire
