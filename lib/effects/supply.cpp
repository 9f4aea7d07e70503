#include "effects/supply.hpp"

#include <algorithm>

namespace whichwire {
namespace {

/// A consumer for which no wiring is given has one feed and one ground of its own, unnamed.
const std::vector<PowerPin> unnamed_power(1);
const std::vector<GroundPin> unnamed_ground(1);

bool open_pin(const Fault& fault, const Pins& pins, std::size_t item, bool power) {
  const bool connector = pins.owner == nowhere;
  const auto part = power ? (connector ? PartKind::connector_power_pin : PartKind::power_pin)
                          : (connector ? PartKind::connector_ground_pin : PartKind::ground_pin);
  return fault.kind == FaultKind::open && fault.part == part && (connector || fault.owner == pins.owner) &&
         fault.item == item;
}

bool open_part(const Fault& fault, PartKind part, std::size_t index) {
  return fault.kind == FaultKind::open && fault.part == part && fault.owner == index;
}

std::size_t item_of(std::size_t position, bool unnamed) { return unnamed ? nowhere : position; }

}  // namespace

Supply::Supply(const Network& network, KeyState key)
    : network_(network), key_(key), feed_users_(network.feeds.size()), ground_users_(network.grounds.size()) {
  for (std::size_t m = 0; m < network.modules.size(); ++m) {
    for (const auto& pin : network.modules[m].power) {
      if (!expected(pin)) continue;
      for (auto feed = pin.feed; feed != nowhere; feed = network.feeds[feed].from) feed_users_[feed].push_back(m);
    }
    for (const auto& pin : network.modules[m].ground) {
      if (pin.ground != nowhere) ground_users_[pin.ground].push_back(m);
    }
  }
  for (auto* users : {&feed_users_, &ground_users_}) {
    for (auto& list : *users) {
      std::sort(list.begin(), list.end());
      list.erase(std::unique(list.begin(), list.end()), list.end());
    }
  }
}

bool Supply::expected(const PowerPin& pin) const {
  return pin.feed == nowhere || network_.feeds[pin.feed].live[static_cast<std::size_t>(key_)];
}

bool Supply::hangs_on(std::size_t feed, std::size_t above) const {
  for (; feed != nowhere; feed = network_.feeds[feed].from) {
    if (feed == above) return true;
  }
  return false;
}

bool Supply::tester_uses_feed(std::size_t feed) const {
  const auto& pins = network_.diagnostic_connector.power;
  return std::any_of(pins.begin(), pins.end(),
                     [&](const PowerPin& pin) { return expected(pin) && hangs_on(pin.feed, feed); });
}

bool Supply::tester_uses_ground(std::size_t ground) const {
  const auto& pins = network_.diagnostic_connector.ground;
  return std::any_of(pins.begin(), pins.end(), [&](const GroundPin& pin) { return pin.ground == ground; });
}

bool Supply::pin_whole(const Pins& pins, const PowerPin& pin, std::size_t item,
                       std::span<const Fault* const> faults) const {
  return std::none_of(faults.begin(), faults.end(), [&](const Fault* fault) {
    return open_pin(*fault, pins, item, true) || (fault->kind == FaultKind::open && fault->part == PartKind::feed &&
                                                  pin.feed != nowhere && hangs_on(pin.feed, fault->owner));
  });
}

bool Supply::pin_whole(const Pins& pins, const GroundPin& pin, std::size_t item,
                       std::span<const Fault* const> faults) const {
  return std::none_of(faults.begin(), faults.end(), [&](const Fault* fault) {
    return open_pin(*fault, pins, item, false) ||
           (pin.ground != nowhere && open_part(*fault, PartKind::ground, pin.ground));
  });
}

Level Supply::of(const Pins& pins, std::span<const Fault* const> faults) const {
  const auto& power = pins.power->empty() ? unnamed_power : *pins.power;
  for (std::size_t i = 0; i < power.size(); ++i) {
    if (expected(power[i]) && !pin_whole(pins, power[i], item_of(i, pins.power->empty()), faults)) return Level::down;
  }
  const auto& ground = pins.ground->empty() ? unnamed_ground : *pins.ground;
  std::size_t whole = 0;
  for (std::size_t i = 0; i < ground.size(); ++i) {
    if (pin_whole(pins, ground[i], item_of(i, pins.ground->empty()), faults)) ++whole;
  }
  if (whole == ground.size()) return Level::up;
  return whole == 0 ? Level::down : Level::unsure;
}

Pins Supply::pins_of(std::size_t module) const {
  return {&network_.modules[module].power, &network_.modules[module].ground, module};
}

Level Supply::of(std::size_t module, std::span<const Fault* const> faults) const { return of(pins_of(module), faults); }

Level Supply::of_tester(std::span<const Fault* const> faults) const {
  const auto& connector = network_.diagnostic_connector;
  return of(Pins{&connector.power, &connector.ground, nowhere}, faults);
}

Level Supply::life(std::size_t module, std::span<const Fault* const> faults) const {
  for (const Fault* fault : faults) {
    if (fault->owner != module) continue;
    if (fault->part == PartKind::reference && fault->kind == FaultKind::short_circuit) return Level::down;
    if (fault->part != PartKind::module) continue;
    switch (fault->kind) {
      case FaultKind::dead:
      case FaultKind::unconfigured:
      case FaultKind::back_feeds:
        return Level::down;
      default:
        break;
    }
  }
  return of(module, faults);
}

bool Supply::awake(std::size_t module) const {
  const auto& power = network_.modules[module].power;
  return power.empty() || std::any_of(power.begin(), power.end(), [&](const PowerPin& pin) { return expected(pin); });
}

}  // namespace whichwire
