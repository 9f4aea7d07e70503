// The front door: which circuit two terminals belong to, and the lamp put into it. Tests: tests/electrical.
#include <cmath>
#include <whichwire/electrical.hpp>

#include "electrical/bus_reading.hpp"
#include "electrical/lamp.hpp"
#include "electrical/nodal.hpp"
#include "electrical/reference_circuit.hpp"
#include "electrical/supply_circuit.hpp"

namespace whichwire {

struct Electrical::Ready : ReadyNetwork {
  using ReadyNetwork::ReadyNetwork;
};

Electrical::Electrical(const Network& network, const ElectricalValues& values)
    : ready_(std::make_unique<const Ready>(network, values)) {}
Electrical::~Electrical() = default;
Electrical::Electrical(Electrical&&) noexcept = default;
Electrical& Electrical::operator=(Electrical&&) noexcept = default;

namespace {

using Kind = Terminal::Kind;

Predicted nothing(std::string why) { return {std::nullopt, std::move(why)}; }

bool common(const Terminal& t) {
  return t.kind == Kind::battery_positive || t.kind == Kind::battery_negative || t.kind == Kind::body;
}

/// The circuit that both terminals are in.
enum class Side : std::uint8_t { bus, supply, reference, none };

Side side_of(const Terminal& t) {
  if (t.kind == Kind::bus_line) return Side::bus;
  return t.kind == Kind::reference ? Side::reference : Side::supply;
}

Side side_of(const Terminal& a, const Terminal& b) {
  if (common(a)) return side_of(b);
  if (common(b) || side_of(a) == side_of(b)) return side_of(a);
  return Side::none;
}

bool known(const ReadyNetwork& ready, const Terminal& t) {
  if (t.kind == Kind::bus_line) return t.bus < ready.buses.size();
  if (t.kind != Kind::reference) return true;
  const auto& modules = ready.network.modules;
  return t.owner < modules.size() && t.item < modules[t.owner].references.size();
}

Predicted measured(const Interval& value) { return {value, ""}; }
Interval negative(const Interval& x) { return {-x.high, -x.nominal, -x.low}; }

/// Volts of one place against battery negative where it is no node of a circuit.
Interval fixed_volts(const ReadyNetwork& ready, const Situation& situation, const Terminal& t) {
  return t.kind == Kind::battery_positive ? ready.battery(situation) : Interval{};
}

/// Ground ends of wires are the negative side of a reference: one probe must be there, or at the battery.
Predicted reference_reading(const ReadyNetwork& ready, const std::vector<PresentFault>& faults,
                            const Situation& situation, const Terminal& red, const Terminal& black, bool ohms) {
  const bool at_red = red.kind == Kind::reference;
  const Terminal &wire = at_red ? red : black, &other = at_red ? black : red;
  if (other.kind == Kind::reference) return nothing("put one probe to the battery or the body");
  if (ohms && situation.battery_connected) return nothing("disconnect the battery for ohms");
  if (ohms) return measured(reference_ohms(ready, wire.owner, wire.item, faults, situation));
  const Interval up = reference_volts(ready, wire.owner, wire.item, faults, situation);
  const Interval against = up + negative(fixed_volts(ready, situation, other));
  return measured(at_red ? against : negative(against));
}

/// Volts across the load put to `open` volts behind `ohms`, limits taken at their worst together.
Interval loaded(const TestLoad& load, const PartValues& parts, const Interval& open, const Interval& ohms) {
  return {lamp_volts(load, parts, open.low, open.low < 0 ? ohms.low : ohms.high),
          lamp_volts(load, parts, open.nominal, ohms.nominal),
          lamp_volts(load, parts, open.high, open.high < 0 ? ohms.high : ohms.low)};
}

constexpr const char* elsewhere = "no wiring is known between these two places";

/// Puts the load of the situation into the circuit, with the ohms it has at its volts.
void add_load(const ReadyNetwork& ready, const Situation& situation, SupplyCircuit& made) {
  if (!situation.load) return;
  const Node from = made.node_at(situation.load->from), to = made.node_at(situation.load->to);
  if (from == no_node || to == no_node) return;
  const Interval open = volts_between(made.circuit, from, to, ready.parts.meter_ohms);
  const Interval volts = loaded(*situation.load, ready.parts, open, ohms_between(made.circuit, from, to));
  const auto ohms = [&](double at) { return lamp_ohms(*situation.load, ready.parts, at); };
  const double least = std::min(std::abs(volts.low), std::abs(volts.high));
  const double most = std::max(std::abs(volts.low), std::abs(volts.high));
  made.circuit.resistor(from, to, {ohms(least), ohms(volts.nominal), ohms(most)});
}

}  // namespace

Predicted Electrical::ohms(const std::vector<PresentFault>& faults, const Situation& situation, const Terminal& red,
                           const Terminal& black) const {
  if (!known(*ready_, red) || !known(*ready_, black)) return nothing(elsewhere);
  const std::vector<PresentFault> now = acting(faults, situation);
  switch (side_of(red, black)) {
    case Side::bus: {
      const std::size_t bus = red.kind == Kind::bus_line ? red.bus : black.bus;
      const bool same = common(red) || common(black) || red.bus == black.bus;
      return same ? bus_ohms(*ready_, bus, now, situation, red, black) : nothing(elsewhere);
    }
    case Side::reference:
      return reference_reading(*ready_, now, situation, red, black, true);
    case Side::supply:
      break;
    case Side::none:
      return nothing(elsewhere);
  }
  if (situation.battery_connected) return nothing("disconnect the battery for ohms");
  const SupplyCircuit made = supply_circuit_of(*ready_, now, situation);
  const Node a = made.node_at(red), b = made.node_at(black);
  return a == no_node || b == no_node ? nothing(elsewhere) : measured(ohms_between(made.circuit, a, b));
}

Predicted Electrical::volts(const std::vector<PresentFault>& faults, const Situation& situation, const Terminal& red,
                            const Terminal& black) const {
  if (!known(*ready_, red) || !known(*ready_, black)) return nothing(elsewhere);
  const std::vector<PresentFault> now = acting(faults, situation);
  switch (side_of(red, black)) {
    case Side::bus: {
      const std::size_t bus = red.kind == Kind::bus_line ? red.bus : black.bus;
      const bool same = common(red) || common(black) || red.bus == black.bus;
      return same ? bus_volts(*ready_, bus, now, situation, red, black) : nothing(elsewhere);
    }
    case Side::reference:
      return reference_reading(*ready_, now, situation, red, black, false);
    case Side::supply:
      break;
    case Side::none:
      return nothing(elsewhere);
  }
  SupplyCircuit made = supply_circuit_of(*ready_, now, situation);
  add_load(*ready_, situation, made);
  const Node a = made.node_at(red), b = made.node_at(black);
  if (a == no_node || b == no_node) return nothing(elsewhere);
  return measured(volts_between(made.circuit, a, b, ready_->parts.meter_ohms));
}

Predicted Electrical::lamp(const std::vector<PresentFault>& faults, const Situation& situation) const {
  if (!situation.load) return nothing("no lamp is put anywhere");
  const TestLoad& load = *situation.load;
  if (side_of(load.from, load.to) == Side::bus) return nothing("no lamp on data wires");
  if (side_of(load.from, load.to) == Side::supply) return volts(faults, situation, load.from, load.to);
  if (side_of(load.from, load.to) == Side::none) return nothing(elsewhere);
  // A reference wire: the one lamp test allowed there, from battery positive with its module unplugged.
  const Terminal& wire = load.from.kind == Kind::reference ? load.from : load.to;
  if (!known(*ready_, wire)) return nothing(elsewhere);
  if (!contains(situation.unplugged, wire.owner))
    return nothing("no lamp on a reference while its module is plugged in");
  const std::vector<PresentFault> now = acting(faults, situation);
  Situation off = situation;
  off.battery_connected = false;
  const Interval behind = reference_ohms(*ready_, wire.owner, wire.item, now, off) + ready_->parts.battery_ohms;
  const Interval wired = reference_volts(*ready_, wire.owner, wire.item, now, situation);
  const Terminal& other = load.from.kind == Kind::reference ? load.to : load.from;
  const Interval open = fixed_volts(*ready_, situation, other) + negative(wired);
  return measured(loaded(load, ready_->parts, load.from.kind == Kind::reference ? negative(open) : open, behind));
}

std::vector<PresentFault> present(const std::vector<Fault>& faults) {
  std::vector<PresentFault> all;
  all.reserve(faults.size());
  for (const Fault& fault : faults) all.push_back({fault});
  return all;
}

Terminal battery_positive() { return {.kind = Kind::battery_positive}; }
Terminal battery_negative() { return {.kind = Kind::battery_negative}; }

Terminal line_at(std::size_t bus, Line line, End at, std::size_t segment) {
  return {.kind = Kind::bus_line, .bus = bus, .line = line, .at = at, .segment = segment};
}

Terminal own_line(std::size_t bus, Line line, std::size_t module) {
  return {.kind = Kind::bus_line, .bus = bus, .line = line, .at = {End::Kind::module, module}, .in_part = true};
}

Terminal power_pin_of(std::size_t module, std::size_t item) {
  return {.kind = Kind::power_pin, .owner = module, .item = item};
}

Terminal ground_pin_of(std::size_t module, std::size_t item) {
  return {.kind = Kind::ground_pin, .owner = module, .item = item};
}

Terminal reference_of(std::size_t module, std::size_t item) {
  return {.kind = Kind::reference, .owner = module, .item = item};
}

}  // namespace whichwire
