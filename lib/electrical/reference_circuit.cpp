// Idea and tests: see reference_circuit.hpp.
#include "electrical/reference_circuit.hpp"

#include <algorithm>
#include <cmath>

namespace whichwire {
namespace {

/// What hangs on the wire, as siemens: infinite ohms are none.
struct Hanging {
  Interval to_ground, to_supply;  ///< siemens; `low` belongs to the lowest ohms
  bool cut = false;               ///< the wire is broken at the module: its output is not on it
};

double siemens(double ohms) { return std::isinf(ohms) ? 0 : 1 / std::max(ohms, least_ohms); }

void hang(Interval& sum, const Interval& ohms) {
  sum.low += siemens(ohms.low);
  sum.nominal += siemens(ohms.nominal);
  sum.high += siemens(ohms.high);
}

bool off(const Situation& situation, std::size_t module, std::size_t item, std::size_t load) {
  return std::find(situation.loads_off.begin(), situation.loads_off.end(), LoadOff{module, item, load}) !=
         situation.loads_off.end();
}

Hanging hanging(const ReadyNetwork& ready, std::size_t module, std::size_t item,
                const std::vector<PresentFault>& faults, const Situation& situation) {
  Hanging all;
  const std::size_t loads = ready.network.modules[module].references[item].loads.size();
  for (std::size_t load = 0; load < loads; ++load) {
    if (!off(situation, module, item, load)) hang(all.to_ground, ready.parts.reference_load);
  }
  for (const PresentFault& each : faults) {
    const Fault& fault = each.fault;
    if (fault.part != PartKind::reference || fault.owner != module || fault.item != item) continue;
    if (fault.kind == FaultKind::open) all.cut = true;
    if (fault.kind != FaultKind::short_circuit) continue;
    if (each.load != nowhere && off(situation, module, item, each.load)) continue;
    hang(fault.to == ShortTo::supply ? all.to_supply : all.to_ground, each.ohms.value_or(ready.parts.reference_short));
  }
  return all;
}

/// The output of the module: what it gives, and whether it is there at all.
bool puts_out(const ReadyNetwork& ready, std::size_t module, const std::vector<PresentFault>& faults,
              const Situation& situation) {
  if (!situation.battery_connected || contains(situation.unplugged, module)) return false;
  std::vector<const Fault*> pointers;
  for (const PresentFault& each : faults) {
    pointers.push_back(&each.fault);
    const bool own = each.fault.part == PartKind::module && each.fault.owner == module;
    if (own && (each.fault.kind == FaultKind::dead || each.fault.kind == FaultKind::not_fitted)) return false;
  }
  const Supply& supply = ready.supply[static_cast<std::size_t>(situation.key)];
  return supply.awake(module) && supply.of(module, pointers) != Level::down;
}

/// One output working on a source of `volts` behind 1/`siemens`.
double settle(double output_volts, double output_ohms, double most_amps, double hanging_siemens, double pushed_amps) {
  const double alone = hanging_siemens > 0 ? pushed_amps / hanging_siemens : 0;
  if (alone >= output_volts && hanging_siemens > 0) return alone;  // it takes no current back
  const double own = 1 / output_ohms;
  const double together = (output_volts * own + pushed_amps) / (own + hanging_siemens);
  if ((output_volts - together) * own <= most_amps) return together;
  return (most_amps + pushed_amps) / hanging_siemens;
}

}  // namespace

Interval reference_volts(const ReadyNetwork& ready, std::size_t module, std::size_t item,
                         const std::vector<PresentFault>& faults, const Situation& situation) {
  const Hanging all = hanging(ready, module, item, faults, situation);
  const bool output = !all.cut && puts_out(ready, module, faults, situation);
  const Interval volts = ready.network.modules[module].references[item].volts * ready.parts.reference_share;
  const Interval battery = ready.battery(situation);
  const Interval& ohms = ready.parts.reference_ohms;
  // It is built for its own loads at their most, and limits above that.
  const auto loads = static_cast<double>(ready.network.modules[module].references[item].loads.size());
  const Interval amps = ready.parts.reference_current + exactly(loads * volts.nominal / ready.parts.reference_load.low);
  const double meter = 1 / ready.parts.meter_ohms;
  const auto at = [&](double Interval::*value, double Interval::*ground, double Interval::*other) {
    // `ground` belongs to ohms: the lowest ohms to ground give the lowest volts.
    const double conducted = all.to_ground.*ground + all.to_supply.*other + meter;
    const double pushed = all.to_supply.*other * battery.*value;
    return settle(output ? volts.*value : 0, ohms.*other, output ? amps.*value : 0, conducted, pushed);
  };
  return {at(&Interval::low, &Interval::low, &Interval::high),
          at(&Interval::nominal, &Interval::nominal, &Interval::nominal),
          at(&Interval::high, &Interval::high, &Interval::low)};
}

Interval reference_ohms(const ReadyNetwork& ready, std::size_t module, std::size_t item,
                        const std::vector<PresentFault>& faults, const Situation& situation) {
  Hanging all = hanging(ready, module, item, faults, situation);
  if (!all.cut && !contains(situation.unplugged, module)) hang(all.to_ground, ready.parts.reference_unpowered);
  // The battery is off: the feeds lead to ground through whatever is on them.
  const auto through_rail = [&](double s, double rail) { return s > 0 ? siemens(1 / s + rail) : 0.0; };
  const Interval& rail = ready.parts.off_rail;
  const auto ohms = [&](double Interval::*limit) {
    const double total = all.to_ground.*limit + through_rail(all.to_supply.*limit, rail.*limit);
    return total > 0 ? 1 / total : open_circuit;
  };
  return {ohms(&Interval::low), ohms(&Interval::nominal), ohms(&Interval::high)};
}

}  // namespace whichwire
