// See predicted.hpp. Tests: tests/planner/trade_rules.cpp.
#include "planner/predicted.hpp"

#include <algorithm>

#include "reading/tables.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;

/// The bytes of everything that makes a difference: equal prints, equal readings.
class Fingerprint {
 public:
  template <class T>
  requires std::is_arithmetic_v<T> || std::is_enum_v<T>
  void add(T value) { text.append(reinterpret_cast<const char*>(&value), sizeof value); }
  void add(const Interval& value) {
    add(value.low);
    add(value.nominal);
    add(value.high);
  }
  void add(const Terminal& at) {
    add(at.kind);
    for (const std::size_t number : {at.owner, at.item, at.bus, at.at.index, at.segment}) add(number);
    add(at.line);
    add(at.at.kind);
    add(at.in_part);
  }
  void add(const LoadOff& off) {
    for (const std::size_t number : {off.module, off.reference, off.load}) add(number);
  }
  void add(const LiftedGround& lifted) {
    add(lifted.module);
    add(lifted.volts);
  }
  void add(const TestLoad& load) {
    add(load.from);
    add(load.to);
    add(load.watts);
    add(load.ohms);
  }
  void add(const std::array<Terminal, 2>& probes) {
    add(probes[0]);
    add(probes[1]);
  }
  void add(const PresentFault& each) {
    const Fault& fault = each.fault;
    add(fault.kind);
    add(fault.part);
    for (const std::size_t number : {fault.owner, fault.item, fault.bus, each.load}) add(number);
    add(fault.lines);
    add(fault.to);
    add(fault.comes_and_goes);
    add(each.ohms);
  }
  template <class T>
  void add(const std::optional<T>& value) {
    add(value.has_value());
    if (value) add(*value);
  }
  template <class T>
  void add(const std::vector<T>& all) {
    add(all.size());
    for (const T& each : all) add(each);
  }
  void add(const Situation& how) {
    add(how.key);
    for (const bool so : {how.battery_connected, how.asleep, how.tester}) add(so);
    add(how.battery_volts);
    add(how.bus_load);
    add(how.unplugged);
    add(how.parted);
    add(how.fuses_out);
    add(how.loads_off);
    add(how.lifted);
    add(how.load);
  }

  std::string text;
};

bool of_bus_wiring(const Fault& fault) {
  return fault.part == PartKind::segment || fault.part == PartKind::terminator || fault.part == PartKind::bus ||
         fault.part == PartKind::connector_bus_pin;
}

}  // namespace

KnownValues& Meter::known(const Measurement& how, Reading::Kind kind) const {
  Fingerprint print;
  print.add(kind);
  print.add(how.probes);
  print.add(how.situation);
  return known_[print.text];
}

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
  Fingerprint print;
  for (const PresentFault& each : faults) {
    if (!matters(each.fault)) continue;
    felt.push_back(each);
    print.add(each);
  }
  const auto [at, fresh] = known_.try_emplace(std::move(print.text));
  if (fresh) at->second = take(felt);
  return at->second;
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
