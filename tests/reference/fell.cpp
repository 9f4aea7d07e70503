// The Brindle Fell: see fell.hpp. Everything in it is invented.
#include "reference/fell.hpp"

#include <algorithm>

namespace fell {
namespace {

using whichwire::test::Building;

void everyone_listens(Building& built, const Ids& modules) {
  for (const std::string& id : modules) {
    std::vector<std::size_t> heard;
    for (const std::string& other : modules) {
      if (other != id) heard.push_back(built.module(other));
    }
    built.the_module(id).listens_to = heard;
  }
}

void also_hears(Building& built, const std::string& id, const Ids& others) {
  auto& heard = built.the_module(id).listens_to;
  if (!heard) heard.emplace();
  for (const std::string& other : others) heard->push_back(built.module(other));
}

void supply(Building& built) {
  built.feed("F1", "", true);
  built.feed("IGN", "", false, Feed::Kind::switched);
  built.feed("F2", "", true);
  for (const char* fuse : {"F3", "F4", "F5", "F6", "F7", "F8", "F10"}) built.feed(fuse, "IGN");
  built.feed("F9", "", true);
  for (const char* ground : {"G1", "G2", "G3", "G4"}) built.ground(ground);
}

void pins(Building& built) {
  const auto fed = [&](const std::string& id, const Ids& feeds, const std::string& ground) {
    for (std::size_t i = 0; i < feeds.size(); ++i) built.power_pin(id, "A-" + std::to_string(i + 1), feeds[i]);
    built.ground_pin(id, "A-9", ground);
  };
  fed("GWM", {"F1"}, "G1");
  fed("ECM", {"F2", "F3"}, "G2");
  fed("TCM", {"F4"}, "G2");
  fed("EPS", {"F10"}, "G4");
  fed("ABS", {"F5"}, "G3");
  fed("IPC", {"F5"}, "G1");
  fed("BCM", {"F6"}, "G4");
  fed("HVC", {"F7"}, "G4");
  fed("SEA", {"F7"}, "G4");
  fed("IMM", {"F8"}, "G1");
  fed("YAW", {"F6"}, "G4");
  built.reference("ECM", "5V-1");
}

void drive_bus(Building& built) {
  built.bus("DRV", Protocol::can_hs, 500000);
  built.point("C1");
  built.network.points[built.point("C1")].kind = Point::Kind::inline_connector;
  built.segment("DRV", "DRV-1", "GWM", "S1");
  built.segment("DRV", "DRV-2", "S1", "C1");
  built.segment("DRV", "DRV-3", "C1", "S2");
  built.segment("DRV", "DRV-4", "S2", "ECM");
  built.segment("DRV", "DRV-5", "S1", "ABS");
  built.segment("DRV", "DRV-6", "S2", "TCM");
  built.segment("DRV", "DRV-7", "S2", "EPS");
  built.the_bus("DRV").called = {"can-high-speed"};
  built.terminator("DRV", "GWM");
  built.terminator("DRV", "ECM");
}

void other_buses(Building& built) {
  built.bus("DIAG", Protocol::can_hs, 500000);
  built.segment("DIAG", "DIAG-1", "DLC", "GWM");
  built.bus("BDY", Protocol::can_hs, 125000);
  built.segment("BDY", "BDY-1", "GWM", "S5");
  built.segment("BDY", "BDY-2", "S5", "BCM");
  built.segment("BDY", "BDY-3", "S5", "HVC");
  built.segment("BDY", "BDY-4", "S5", "IPC");
  built.segment("BDY", "BDY-5", "S5", "SEA");
  built.terminator("BDY", "GWM");
  built.terminator("BDY", "IPC");
  built.bus("LIN", Protocol::lin, 19200);
  built.segment("LIN", "LIN-1", "BCM", "S7");
  built.segment("LIN", "LIN-2", "S7", "WIP");
  built.segment("LIN", "LIN-3", "S7", "RLS");
  built.the_bus("LIN").commander = built.module("BCM");
  built.bus("YAWBUS", Protocol::can_hs, 500000);
  built.segment("YAWBUS", "YAW-1", "ABS", "YAW");
  built.bus("KL", Protocol::k_line, 10400);
  built.segment("KL", "KL-1", "DLC", "IMM");
}

void connector(Building& built) {
  built.connect("DIAG", "6", "14");
  built.connect("KL", "7", "");
  auto& connector = built.network.diagnostic_connector;
  connector.power.push_back({"16", index_of(built.network.feeds, "F9"), "RD"});
  connector.ground.push_back({"4", index_of(built.network.grounds, "G1"), "BN"});
  connector.place.minutes = 0.5;
}

void functions(Building& built) {
  const auto ask = [&](const std::string& id, const Ids& modules) {
    Function made;
    made.id = id;
    for (const std::string& module : modules) made.modules.push_back(built.module(module));
    if (modules.size() > 1) made.messages.push_back({built.module(modules[0]), built.module(modules[1])});
    built.network.functions.push_back(made);
  };
  ask("crank", {"BCM", "ECM"});
  ask("gauges", {"ECM", "IPC"});
  ask("steering assist", {"EPS"});
}

}  // namespace

Network network() {
  Building built;
  built.network.note = "An invented vehicle.";
  built.network.vehicle = {"Brindle", "Fell", "base", 2019};
  for (const char* id : {"GWM", "ECM", "TCM", "EPS", "ABS", "IPC", "BCM", "HVC", "SEA", "IMM", "YAW", "WIP", "RLS"}) {
    built.module(id);
  }
  built.the_module("SEA").optional = true;
  supply(built);
  pins(built);
  drive_bus(built);
  other_buses(built);
  built.gateway("GWM", {"DIAG", "DRV", "BDY"});
  built.gateway("ABS", {"DRV", "YAWBUS"});
  built.gateway("BCM", {"BDY", "LIN"});
  connector(built);
  everyone_listens(built, {"GWM", "ECM", "TCM", "EPS", "ABS"});
  everyone_listens(built, {"BCM", "HVC", "IPC", "SEA"});
  also_hears(built, "IPC", {"ECM", "ABS"});
  also_hears(built, "BCM", {"WIP", "RLS", "ECM"});
  also_hears(built, "ABS", {"YAW"});
  also_hears(built, "GWM", {"BCM", "IPC"});
  for (const char* id : {"IMM", "YAW", "WIP", "RLS"}) built.the_module(id).listens_to.emplace();
  functions(built);
  return built.network;
}

Network ring() {
  Building built;
  built.network.note = "An invented vehicle.";
  for (const char* id : {"HEAD", "AMP", "NAV", "TEL"}) built.module(id);
  built.bus("DIAG", Protocol::can_hs, 500000);
  built.segment("DIAG", "DIAG-1", "DLC", "HEAD");
  built.bus("RING", Protocol::ring);
  built.segment("RING", "R-1", "HEAD", "AMP");
  built.segment("RING", "R-2", "AMP", "NAV");
  built.segment("RING", "R-3", "NAV", "TEL");
  built.segment("RING", "R-4", "TEL", "HEAD");
  built.gateway("HEAD", {"DIAG", "RING"});
  built.connect("DIAG", "6", "14");
  everyone_listens(built, {"HEAD", "AMP", "NAV", "TEL"});
  return built.network;
}

Says::Says(const Network& network) {
  scan_.key_stated = true;
  scan_.battery_volts = 12.5;
  for (const Module& module : network.modules) scan_.modules.push_back({module.id, Answer::yes, {}});
}

ModuleSeen& Says::seen(const std::string& module) {
  const auto found = std::find_if(scan_.modules.begin(), scan_.modules.end(),
                                  [&](const ModuleSeen& each) { return each.module == module; });
  if (found == scan_.modules.end()) throw std::logic_error("the test names a module that is not there: " + module);
  return *found;
}

Says& Says::silent(const Ids& modules) {
  for (const std::string& id : modules) answer(id, Answer::no);
  return *this;
}

Says& Says::all_silent() {
  for (ModuleSeen& module : scan_.modules) module.answer = Answer::no;
  return *this;
}

Says& Says::answer(const std::string& module, Answer answer) {
  seen(module).answer = answer;
  return *this;
}

Says& Says::misses(const std::string& reporter, const Ids& missed, CodeState state, std::optional<double> volts) {
  for (const std::string& id : missed) {
    CodeSeen code;
    code.misses = id;
    code.text = "no messages from " + id;
    code.state = state;
    code.volts = volts;
    seen(reporter).codes.push_back(code);
  }
  return *this;
}

Says& Says::code(const std::string& reporter, const std::string& written, CodeState state) {
  CodeSeen code;
  code.written = written;
  code.code = parse_code(written);
  code.state = state;
  seen(reporter).codes.push_back(code);
  return *this;
}

Says& Says::works(const std::string& function, bool works) {
  scan_.functions.push_back({function, works});
  return *this;
}

Says& Says::key(KeyState key) {
  scan_.key = key;
  return *this;
}

Says& Says::battery(double volts) {
  scan_.battery_volts = volts;
  return *this;
}

Says& Says::own_battery() {
  scan_.tool_has_own_battery = true;
  return *this;
}

Answered locate_in(const Network& network, const Says& says) {
  const Effects effects(network);
  const std::vector<Fault> faults = faults_of(network);
  Answered answered;
  answered.ranking = locate(effects, faults, says.scan());
  answered.verdict = verdict_of(network, answered.ranking);
  answered.plan = plan_checks(effects, faults, answered.ranking, says.scan());
  return answered;
}

std::size_t first_of(const CheckPlan& plan, const Ids& starts) {
  for (std::size_t i = 0; i < plan.checks.size(); ++i) {
    for (const std::string& start : starts) {
      if (plan.checks[i].id.starts_with(start)) return i;
    }
  }
  return plan.checks.size();
}

std::string listed(const Answered& answered) {
  std::string text = answered.verdict.headline + " (" + std::to_string(answered.verdict.probability) + "):";
  for (const Check& check : answered.plan.checks) {
    text +=
        " " + check.id + "[" + std::to_string(check.gain_bits) + " bits, " + std::to_string(check.minutes) + " min]";
  }
  return text;
}

}  // namespace fell
