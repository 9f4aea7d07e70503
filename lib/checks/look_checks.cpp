// See look_checks.hpp. Tests: tests/checks/look_checks.cpp.
#include "checks/look_checks.hpp"

#include <algorithm>

#include "checks/sight.hpp"

namespace whichwire {
namespace {

constexpr double one_end = 0.5;  // a fault of a wire is as likely at its other end

bool of_pins(const Fault& fault, std::size_t module) {
  const bool pin = fault.part == PartKind::power_pin || fault.part == PartKind::ground_pin ||
                   (fault.part == PartKind::reference && fault.kind == FaultKind::open);
  return fault.owner == module && (pin || of_module(fault, FaultKind::back_feeds, module));
}

bool of_connector(const Fault& fault) {
  return fault.part == PartKind::connector_bus_pin || fault.part == PartKind::connector_power_pin ||
         fault.part == PartKind::connector_ground_pin;
}

Site site_of(const Module& module) { return {module.id, "", "", module.place, {}}; }

}  // namespace

Candidate plug_check(const Job& job, std::size_t module) {
  const Module& owner = job.network.modules.at(module);
  Candidate made = build(job, "plug", site_of(owner), {}, "plug:" + owner.id);
  made.plug = owner.id;
  made.sees = first_seen([&network = job.network, module](const Fault& fault) {
    if (of_pins(fault, module)) return sight(true, 1);
    return sight(of_segment_at(network, fault, {End::Kind::module, module}), 1, one_end);
  });
  return made;
}

Candidate point_check(const Job& job, std::size_t point) {
  const Point& part = job.network.points.at(point);
  Candidate made = build(job, word_for(part.kind), {part.id, "", "", part.place, {}}, {}, "look:" + part.id);
  made.sees = first_seen([&network = job.network, point](const Fault& fault) {
    return sight(of_segment_at(network, fault, {End::Kind::point, point}), 1, one_end);
  });
  return made;
}

Candidate connector_look_check(const Job& job) {
  const Site site{"DLC", "", "", job.network.diagnostic_connector.place, {}};
  Candidate made = build(job, "connector-look", site, {}, "look:DLC");
  made.sees = first_seen([&network = job.network](const Fault& fault) {
    if (of_connector(fault)) return sight(true, 1);
    return sight(of_segment_at(network, fault, {End::Kind::diagnostic_connector, nowhere}), 1, one_end);
  });
  return made;
}

Candidate unplug_check(const Job& job, std::size_t module, std::size_t bus) {
  const Module& owner = job.network.modules.at(module);
  const std::string& on = job.network.buses.at(bus).id;
  Candidate made = build(job, "unplug", site_of(owner), {{"bus", on}}, "unplug:" + owner.id + "@" + on);
  made.plug = owner.id;
  made.sees = first_seen([module, bus](const Fault& fault) {
    const bool disturbs =
        fault.kind == FaultKind::holds || fault.kind == FaultKind::babbles || fault.kind == FaultKind::back_feeds;
    return sight(disturbs && fault.owner == module && fault.bus == bus, 1);
  });
  return made;
}

Candidate added_check(const Job& job) {
  Candidate made = build(job, "added", {}, {}, "added");
  made.sees = first_seen([](const Fault& fault) {
    return sight(fault.kind == FaultKind::added_device || fault.kind == FaultKind::extra, 1);
  });
  return made;
}

Candidate fitted_check(const Job& job, std::size_t module) {
  const Module& owner = job.network.modules.at(module);
  Candidate made = build(job, "fitted", {owner.id, "", "", {}, {}}, {}, "fitted:" + owner.id);
  made.sees =
      first_seen([module](const Fault& fault) { return sight(of_module(fault, FaultKind::not_fitted, module), 1); });
  return made;
}

bool of_configuration(const Fault& fault) {
  return fault.kind == FaultKind::unconfigured || fault.kind == FaultKind::not_forwarding;
}

namespace {

/// A check, by its row, of the configuration of a module.
Candidate of_its_configuration(const Job& job, const std::string& row, std::size_t module) {
  const Module& owner = job.network.modules.at(module);
  Candidate made = build(job, row, {owner.id, "", "", {}, {}}, {}, row + ":" + owner.id);
  made.place = "configuration of " + owner.id;
  made.sees =
      first_seen([module](const Fault& fault) { return sight(fault.owner == module && of_configuration(fault), 1); });
  return made;
}

}  // namespace

Candidate configured_check(const Job& job, std::size_t module) {
  return of_its_configuration(job, "configured", module);
}

Candidate set_up_check(const Job& job, std::size_t module) {
  Candidate made = of_its_configuration(job, "set-up", module);
  made.hazards = job.network.modules.at(module).place.hazards;
  return made;
}

Candidate rescan_check(const Job& job) {
  Candidate made = build(job, "rescan", {}, {}, "rescan");
  made.sees = first_seen([](const Fault& fault) { return sight(fault.kind != FaultKind::not_fitted, 1); });
  return made;
}

Candidate hand_in_check(const Job& job) { return build(job, "hand-in", {}, {}, "rescan"); }

Candidate battery_check(const Job& job) {
  Candidate made = build(job, "battery", {"battery", "", "", {}, {}}, {}, "battery");
  made.sees = [](const std::vector<Fault>&) { return Sight{}; };
  return made;
}

bool battery_was_low(const Scan& scan) {
  const double nominal = scan.battery_volts.value_or(0) > 16 ? 2 : 1;  // 24 V systems
  if (scan.battery_volts && *scan.battery_volts < nominal * knowledge().limit("low-battery-volts")) return true;
  const double low = nominal * knowledge().limit("low-code-volts");
  return std::any_of(scan.modules.begin(), scan.modules.end(), [&](const ModuleSeen& module) {
    return std::any_of(module.codes.begin(), module.codes.end(),
                       [&](const CodeSeen& code) { return code.volts && *code.volts < low; });
  });
}

}  // namespace whichwire
