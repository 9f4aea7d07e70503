// See predicted.hpp. Tests: tests/planner/trade_rules.cpp.
#include "planner/predicted.hpp"

#include <algorithm>

#include "reading/tables.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;

bool same(const PresentFault& a, const PresentFault& b) {
  return a.fault == b.fault && a.ohms == b.ohms && a.load == b.load;
}

bool of_bus_wiring(const Fault& fault) {
  return fault.part == PartKind::segment || fault.part == PartKind::terminator || fault.part == PartKind::bus ||
         fault.part == PartKind::connector_bus_pin;
}

}  // namespace

/// Only sets that differ in what the meter can feel are computed anew.
bool Predictions::matters(const Fault& fault) const {
  if (how_.probes.empty()) return true;
  const Terminal& red = how_.probes.front()[0];
  if (red.kind != Terminal::Kind::bus_line) return !of_bus_wiring(fault);
  if (kind_ == Kind::ohms) return fault.bus == red.bus || fault.part == PartKind::module;
  return !of_bus_wiring(fault) || fault.bus == red.bus;
}

std::optional<Interval> Predictions::of(const std::vector<PresentFault>& faults) {
  std::vector<PresentFault> felt;
  for (const PresentFault& each : faults) {
    if (!matters(each.fault)) continue;
    felt.push_back(each);
    felt.back().fault.odds = 0;
  }
  for (const Known& known : known_) {
    if (std::equal(known.faults.begin(), known.faults.end(), felt.begin(), felt.end(), same)) return known.value;
  }
  known_.push_back({felt, take(felt)});
  return known_.back().value;
}

std::optional<Interval> Predictions::take(const std::vector<PresentFault>& faults) const {
  Situation situation = how_.situation;
  switch (kind_) {
    case Kind::lamp:
      return electrical_.lamp(faults, situation).value;
    case Kind::ohms:
      situation.battery_connected = false;
      situation.key = KeyState::off;
      situation.asleep = true;
      situation.load.reset();
      return lowest(faults, situation);
    case Kind::drop:
      if (how_.probes.empty()) return std::nullopt;
      // On a feed what is lost from battery positive, on a ground what is lost to battery negative.
      if (how_.probes.front()[0].kind != Terminal::Kind::power_pin) return lowest(faults, situation);
      return electrical_.volts(faults, situation, battery_positive(), how_.probes.front()[0]).value;
    case Kind::volts:
      return with_stray(lowest(faults, situation));
    default:
      return std::nullopt;
  }
}

/// A feed that nothing drives does not read zero to the last digit: something leaks back through other consumers.
std::optional<Interval> Predictions::with_stray(std::optional<Interval> volts) const {
  if (!volts || how_.probes.empty()) return volts;
  const Terminal::Kind at = how_.probes.front()[0].kind;
  const bool feed = at == Terminal::Kind::power_pin || at == Terminal::Kind::feed_in || at == Terminal::Kind::feed_out;
  const double stray = meter_value("dead-feed-volts");
  if (feed && volts->nominal < stray) volts->high = std::max(volts->high, stray);
  return volts;
}

std::optional<Interval> Predictions::lowest(const std::vector<PresentFault>& faults, const Situation& situation) const {
  std::optional<Interval> least;
  for (const auto& [red, black] : how_.probes) {
    const std::optional<Interval> own = kind_ == Kind::ohms ? electrical_.ohms(faults, situation, red, black).value
                                                            : electrical_.volts(faults, situation, red, black).value;
    if (!own) continue;
    if (!least) {
      least = own;
    } else {
      least = Interval{std::min(least->low, own->low), std::min(least->nominal, own->nominal),
                       std::min(least->high, own->high)};
    }
  }
  return least;
}

}  // namespace whichwire
