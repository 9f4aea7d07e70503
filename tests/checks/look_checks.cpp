// Looks, unplugging, questions and the scan again: which faults they show.
#include "checks/look_checks.hpp"

#include <doctest/doctest.h>

#include "checks/ranking.hpp"

using namespace moor;

namespace {

const Network net = network();
const Scan scan = scan_with_key_on();
const Job job{net, scan};

std::string shown(const Candidate& candidate, const Fault& fault) {
  return candidate.outcomes.at(candidate.sees({fault}).outcome);
}

bool says(const std::vector<std::string>& lines, std::string_view words) {
  for (const std::string& line : lines) {
    if (line.find(words) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("a look at the plug finds its pins, half of the faults of a wire that ends there, and no dead module") {
  const Candidate plug = plug_check(job, ECM);
  CHECK(shown(plug, open_part(PartKind::power_pin, ECM, 0)) == "found");
  CHECK(shown(plug, open_segment(DRV, 3)) == "found");
  CHECK(plug.sees({open_segment(DRV, 3)}).share == doctest::Approx(0.5));
  CHECK(shown(plug, dead(ECM)) == "good");
  CHECK(shown(plug, open_part(PartKind::power_pin, TCM, 0)) == "good");
}

TEST_CASE("a splice, a connector and the diagnostic connector show the wires that end there") {
  CHECK(shown(point_check(job, C50), open_segment(DRV, 1)) == "found");
  CHECK(shown(point_check(job, C50), open_segment(DRV, 4)) == "good");
  CHECK(point_check(job, S310).check.measure.find("splice S310") != std::string::npos);
  CHECK(shown(connector_look_check(job), open_segment(DIAG, 0)) == "found");
  CHECK(shown(connector_look_check(job), open_part(PartKind::connector_power_pin, nowhere, 0)) == "found");
}

TEST_CASE("a bus that comes back when a module is unplugged does not condemn the module") {
  const Candidate unplug = unplug_check(job, ABS, DRV);
  for (const FaultKind kind : {FaultKind::holds, FaultKind::babbles, FaultKind::back_feeds}) {
    CHECK(shown(unplug, module_fault(kind, ABS, DRV)) == "back");
    CHECK(shown(unplug, module_fault(kind, TCM, DRV)) == "same");
  }
  CHECK(unplug.check.expect.at(1).means.find("not condemned") != std::string::npos);
  CHECK(says(unplug.check.cautions, "plug it back in"));
}

TEST_CASE("what was added comes off before anything is measured for it") {
  const Fault device{.kind = FaultKind::added_device, .part = PartKind::bus, .owner = DRV, .bus = DRV, .to = {}};
  CHECK(shown(added_check(job), device) == "back");
  CHECK(shown(added_check(job), dead(ECM)) == "same");
}

TEST_CASE("whether a module is there and whether it was set up are questions, not measurements") {
  CHECK(shown(fitted_check(job, HVC), module_fault(FaultKind::not_fitted, HVC)) == "not-fitted");
  CHECK(shown(fitted_check(job, HVC), dead(HVC)) == "fitted");
  CHECK(shown(configured_check(job, HVC), module_fault(FaultKind::unconfigured, HVC)) == "not-set-up");
  CHECK(shown(configured_check(job, GWM), module_fault(FaultKind::not_forwarding, GWM)) == "not-set-up");
  CHECK(fitted_check(job, HVC).check.mode == "look");
  CHECK(configured_check(job, HVC).check.mode == "ask");
  CHECK(shown(set_up_check(job, HVC), module_fault(FaultKind::unconfigured, HVC)) == "takes");
  CHECK(shown(set_up_check(job, HVC), module_fault(FaultKind::dead, HVC)) == "no-change");
  CHECK(says(set_up_check(job, HVC).check.cautions, "stable supply"));
  CHECK(set_up_check(job, SRS).hazards == std::vector<std::string>{"restraint"});  // only who is authorised
}

TEST_CASE("codes that do not return after clearing were left by something past") {
  CHECK(shown(rescan_check(job), dead(ECM)) == "back");
  CHECK(rescan_check(job).outcomes.at(rescan_check(job).sees({}).outcome) == "clean");
  CHECK(says(rescan_check(job).check.cautions, "Save the codes first"));
}

TEST_CASE("a battery is low by what was measured or by what the codes were stored with, in 12 and 24 volt systems") {
  Scan seen;
  CHECK_FALSE(battery_was_low(seen));
  seen.battery_volts = 11.4;
  CHECK(battery_was_low(seen));
  seen.battery_volts = 12.5;
  CHECK_FALSE(battery_was_low(seen));
  seen.battery_volts = 23.0;
  CHECK(battery_was_low(seen));
  seen.battery_volts = 25.0;
  CHECK_FALSE(battery_was_low(seen));
  CodeSeen code;
  code.volts = 8.2;
  seen.battery_volts.reset();
  seen.modules.push_back({"ECM", Answer::yes, {code}});
  CHECK(battery_was_low(seen));
}

TEST_CASE("every check ends with the line that the maker's information and local rules come first") {
  for (const Candidate& candidate : {plug_check(job, ECM), point_check(job, C50), unplug_check(job, ABS, DRV),
                                     added_check(job), fitted_check(job, HVC), rescan_check(job), battery_check(job)}) {
    CHECK(candidate.check.cautions.back() == knowledge().caution("always").text);
  }
}

TEST_CASE("the hazards of a place bring their cautions") {
  Network fuel = network();
  fuel.modules[TCM].place.hazards = {"fuel", "moving-parts", "hot"};
  const Check plug = plug_check({fuel, scan}, TCM).check;
  CHECK(says(plug.cautions, "Fuel vapour"));
  CHECK(says(plug.cautions, "moving parts"));
  CHECK(says(plug.cautions, "Hot parts"));
}
