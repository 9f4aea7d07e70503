// Idea and tests: see supply_circuit.hpp.
#include "electrical/supply_circuit.hpp"

#include <algorithm>

namespace whichwire {
namespace {

const std::vector<PowerPin> unnamed_power(1);
const std::vector<GroundPin> unnamed_ground(1);

class Builder {
 public:
  Builder(const ReadyNetwork& ready, const std::vector<PresentFault>& faults, const Situation& situation)
      : ready_(ready), parts_(ready.parts), network_(ready.network), faults_(faults), situation_(situation) {}

  SupplyCircuit make() {
    add_battery();
    add_feeds();
    add_grounds();
    for (std::size_t m = 0; m < network_.modules.size(); ++m) {
      add_consumer(m, network_.modules[m].power, network_.modules[m].ground);
    }
    add_consumer(nowhere, network_.diagnostic_connector.power, network_.diagnostic_connector.ground);
    return std::move(made_);
  }

 private:
  Circuit& circuit() { return made_.circuit; }

  void add_battery() {
    made_.positive = circuit().add();
    made_.body = circuit().add();
    if (situation_.battery_connected) circuit().source(made_.positive, ready_.battery(situation_), parts_.battery_ohms);
    circuit().resistor(made_.body, ground_node, parts_.strap);
  }

  /// What an open in this part leaves; `whole` where there is none.
  Interval broken_or(const Interval& whole, PartKind part, std::size_t owner, std::size_t item) const {
    for (const PresentFault& each : faults_) {
      const Fault& fault = each.fault;
      if (fault.kind != FaultKind::open || fault.part != part || fault.item != item) continue;
      if (fault.owner == owner) return whole + each.ohms.value_or(exactly(open_circuit));
    }
    return whole;
  }

  bool live(std::size_t feed) const {
    return feed == nowhere || network_.feeds[feed].live[static_cast<std::size_t>(situation_.key)];
  }

  void add_feeds() {
    const std::size_t count = network_.feeds.size();
    for (std::size_t f = 0; f < count; ++f) made_.feed_out.push_back(circuit().add());
    made_.feed_in.assign(count, no_node);
    for (std::size_t f = 0; f < count; ++f) {
      const Feed& feed = network_.feeds[f];
      made_.feed_in[f] = circuit().add();
      const Node above = feed.from == nowhere ? made_.positive : made_.feed_out[feed.from];
      circuit().resistor(above, made_.feed_in[f], parts_.contact + parts_.contact);
      const bool switched_off = !live(f) && live(feed.from);
      const Interval whole = switched_off ? exactly(open_circuit) : parts_.feed[static_cast<std::size_t>(feed.kind)];
      circuit().resistor(made_.feed_in[f], made_.feed_out[f], broken_or(whole, PartKind::feed, f, nowhere));
    }
  }

  void add_grounds() {
    for (std::size_t g = 0; g < network_.grounds.size(); ++g) {
      made_.ground_points.push_back(circuit().add());
      circuit().resistor(made_.ground_points[g], made_.body,
                         broken_or(parts_.ground_point, PartKind::ground, g, nowhere));
    }
  }

  /// A module, or the diagnostic connector, which has no load of its own.
  void add_consumer(std::size_t module, const std::vector<PowerPin>& power, const std::vector<GroundPin>& ground) {
    const bool connector = module == nowhere;
    const auto item = [](std::size_t i, bool unnamed) { return unnamed ? nowhere : i; };
    const auto& feeds = power.empty() ? unnamed_power : power;
    const auto& returns = ground.empty() ? unnamed_ground : ground;
    made_.power.emplace_back();
    made_.ground.emplace_back();
    const Node inside = circuit().add();
    const bool draws = !connector && !contains(situation_.unplugged, module) && !not_fitted(module);
    for (std::size_t i = 0; i < feeds.size(); ++i) {
      const Node pin = circuit().add();
      const Node above = feeds[i].feed == nowhere ? made_.positive : made_.feed_out[feeds[i].feed];
      const PartKind part = connector ? PartKind::connector_power_pin : PartKind::power_pin;
      circuit().resistor(above, pin, broken_or(ready_.supply_wire, part, module, item(i, power.empty())));
      if (draws) circuit().resistor(pin, inside, situation_.asleep ? parts_.module_load_asleep : parts_.module_load);
      made_.power.back().push_back(pin);
    }
    for (std::size_t i = 0; i < returns.size(); ++i) {
      const Node pin = circuit().add();
      const Node below = returns[i].ground == nowhere ? made_.body : made_.ground_points[returns[i].ground];
      const PartKind part = connector ? PartKind::connector_ground_pin : PartKind::ground_pin;
      circuit().resistor(pin, below, broken_or(ready_.supply_wire, part, module, item(i, ground.empty())));
      if (draws) circuit().resistor(inside, pin, parts_.contact);
      made_.ground.back().push_back(pin);
    }
  }

  bool not_fitted(std::size_t module) const {
    return std::any_of(faults_.begin(), faults_.end(), [&](const PresentFault& each) {
      return each.fault.kind == FaultKind::not_fitted && each.fault.owner == module;
    });
  }

  const ReadyNetwork& ready_;
  const PartValues& parts_;
  const Network& network_;
  const std::vector<PresentFault>& faults_;
  const Situation& situation_;
  SupplyCircuit made_;
};

Node at(const std::vector<Node>& all, std::size_t i) { return i < all.size() ? all[i] : no_node; }

}  // namespace

SupplyCircuit supply_circuit_of(const ReadyNetwork& ready, const std::vector<PresentFault>& faults,
                                const Situation& situation) {
  return Builder(ready, faults, situation).make();
}

Node SupplyCircuit::node_at(const Terminal& terminal) const {
  const auto pin = [&](const std::vector<std::vector<Node>>& pins) {
    const std::size_t owner = terminal.owner == nowhere ? pins.size() - 1 : terminal.owner;
    return owner < pins.size() ? at(pins[owner], terminal.item == nowhere ? 0 : terminal.item) : no_node;
  };
  switch (terminal.kind) {
    case Terminal::Kind::battery_positive:
      return positive;
    case Terminal::Kind::battery_negative:
      return ground_node;
    case Terminal::Kind::body:
      return body;
    case Terminal::Kind::feed_in:
      return at(feed_in, terminal.owner);
    case Terminal::Kind::feed_out:
      return at(feed_out, terminal.owner);
    case Terminal::Kind::power_pin:
      return pin(power);
    case Terminal::Kind::ground_pin:
      return pin(ground);
    case Terminal::Kind::ground_point:
      return at(ground_points, terminal.owner);
    case Terminal::Kind::bus_line:
    case Terminal::Kind::reference:
      return no_node;
  }
  return no_node;
}

}  // namespace whichwire
