#include "plain_world.hpp"

namespace whichwire::test {

namespace {

/// "A power pin is expected when its feed is live in this key state with no fault present."
bool expected(const Network& network, const PowerPin& pin, KeyState key) {
  return pin.feed == nowhere || network.feeds[pin.feed].live[static_cast<std::size_t>(key)];
}

}  // namespace

bool PlainWorld::has(FaultKind kind, PartKind part, std::size_t owner, std::size_t item) const {
  for (const Fault& fault : faults) {
    if (fault.kind == kind && fault.part == part && fault.owner == owner && fault.item == item) return true;
  }
  return false;
}

bool PlainWorld::port_dead(std::size_t module, std::size_t bus) const {
  for (const Fault& fault : faults) {
    if (fault.kind == FaultKind::port_dead && fault.owner == module && fault.bus == bus) return true;
  }
  return false;
}

bool PlainWorld::live(std::size_t feed) const {
  if (!network.feeds[feed].live[static_cast<std::size_t>(circumstances.key)]) return false;
  for (std::size_t f = feed; f != nowhere; f = network.feeds[f].from) {
    if (open(PartKind::feed, f)) return false;
  }
  return true;
}

Level PlainWorld::supply(const std::vector<PowerPin>& power, const std::vector<GroundPin>& ground, PartKind power_part,
                         PartKind ground_part, std::size_t owner) const {
  if (power.empty() && open(power_part, owner)) return Level::down;
  for (std::size_t pin = 0; pin < power.size(); ++pin) {
    if (!expected(network, power[pin], circumstances.key)) continue;
    if (open(power_part, owner, pin)) return Level::down;
    if (power[pin].feed != nowhere && !live(power[pin].feed)) return Level::down;
  }
  if (ground.empty()) return open(ground_part, owner) ? Level::down : Level::up;
  std::size_t whole = 0;
  for (std::size_t pin = 0; pin < ground.size(); ++pin) {
    const bool point_open = ground[pin].ground != nowhere && open(PartKind::ground, ground[pin].ground);
    if (!open(ground_part, owner, pin) && !point_open) ++whole;
  }
  if (whole == 0) return Level::down;
  return whole < ground.size() ? Level::unsure : Level::up;
}

Level PlainWorld::supply_of(std::size_t module) const {
  const Module& its = network.modules[module];
  return supply(its.power, its.ground, PartKind::power_pin, PartKind::ground_pin, module);
}

Level PlainWorld::supply_of_tester() const {
  if (circumstances.tool_has_own_battery) return Level::up;
  const DiagnosticConnector& its = network.diagnostic_connector;
  return supply(its.power, its.ground, PartKind::connector_power_pin, PartKind::connector_ground_pin, nowhere);
}

Level PlainWorld::life_of(std::size_t module) const {
  for (const Fault& fault : faults) {
    if (fault.owner != module) continue;
    if (fault.part == PartKind::reference && fault.kind == FaultKind::short_circuit) return Level::down;
    if (fault.part != PartKind::module) continue;
    if (fault.kind == FaultKind::dead || fault.kind == FaultKind::unconfigured || fault.kind == FaultKind::back_feeds) {
      return Level::down;
    }
  }
  return supply_of(module);
}

Level PlainWorld::work_of(std::size_t module) const {
  return has(FaultKind::not_fitted, PartKind::module, module) ? Level::down : life_of(module);
}

bool plain_asleep(const Network& network, std::size_t module, KeyState key) {
  const std::vector<PowerPin>& power = network.modules[module].power;
  for (const PowerPin& pin : power) {
    if (expected(network, pin, key)) return false;
  }
  return !power.empty();
}

}  // namespace whichwire::test
