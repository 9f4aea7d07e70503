// The list of what must be ruled out. See condemn.hpp. Tests: tests/planner/trade_rules.cpp.
#include <algorithm>

#include "checks/bus_checks.hpp"
#include "checks/sight.hpp"
#include "planner/condemn.hpp"
#include "planner/numbers.hpp"

namespace whichwire {
namespace {

constexpr const char* by_scan = "scan";
constexpr const char* by_network = "network";

class List {
 public:
  List(const Court& court, const Fault& fault)
      : court_(court), network_(court.effects.network()), fault_(fault), module_(network_.modules[fault.owner]) {}

  std::vector<RuleOut> make() {
    add_fitted();
    add_reached();
    add_battery();
    add_supply();
    add_buses();
    for (const Reference& reference : module_.references) add_reference(reference);
    add("the plug of " + module_.id + " is seated, dry and clean, no pin bent, spread or burnt",
        {"plug:" + module_.id});
    add(module_.id + " is set up for this vehicle", {"configured:" + module_.id, "set-up:" + module_.id});
    add_effect();
    return std::move(made_);
  }

 private:
  /// `good`: the outcome that ticks, where it is not the good one.
  void add(std::string what, const std::vector<std::string>& checks, std::string by = "", std::string_view ticks = "",
           std::size_t after = 0) {
    RuleOut item{std::move(what), {}, std::move(by), 0};
    for (const std::string& check : checks) {
      const Prospect* prospect = court_.bench.find(check);
      if (item.by.empty()) item.by = ticked(check, ticks, after);
      if (prospect == nullptr) continue;
      item.checks.push_back(check);
      const double minutes = prospect->candidate.check.minutes;
      item.minutes = item.checks.size() == 1 ? minutes : std::min(item.minutes, minutes);
    }
    made_.push_back(std::move(item));
  }

  /// The reading that answers the check as wanted; answers that were taken again or are doubtful tick nothing.
  std::string ticked(const std::string& check, std::string_view ticks, std::size_t after = 0) const {
    const Prospect* prospect = court_.bench.find(check);
    const Answered* const from = court_.weighing.answers.data() + after;
    return answered_by(court_.weighing, check, [&](const Answered& answer) {
      if (&answer < from) return false;
      if (ticks.empty()) return answer.weighed.good;
      return prospect != nullptr && answer.outcome && prospect->candidate.outcomes[*answer.outcome] == ticks;
    });
  }

  void add_fitted() {
    add(module_.id + " is fitted in this vehicle", {"fitted:" + module_.id}, module_.optional ? "" : by_network);
    const bool awake = court_.effects.awake(fault_.owner, court_.scan.key);
    add(module_.id + " should answer in this key state, and its codes are not history only", {"poll:" + module_.id},
        awake && !history_only() ? by_scan : "", "silent");
  }

  bool history_only() const { return fault_.comes_and_goes; }

  /// Something on one of its buses answered: tool, cable and the way there are proven.
  void add_reached() {
    const std::vector<std::size_t> own = buses_of(network_, fault_.owner);
    const bool reached =
        std::any_of(court_.scan.modules.begin(), court_.scan.modules.end(), [&](const ModuleSeen& seen) {
          const std::size_t m = index_of(network_.modules, seen.module);
          if (m == nowhere || m == fault_.owner) return false;
          if (seen.answer != Answer::yes && seen.answer != Answer::refused) return false;
          const std::vector<std::size_t> other = buses_of(network_, m);
          return std::any_of(own.begin(), own.end(), [&](std::size_t bus) {
            return std::find(other.begin(), other.end(), bus) != other.end();
          });
        });
    add("tool, cable and protocol reach its bus", {"look:DLC"}, reached ? by_scan : "");
  }

  void add_battery() {
    const auto volts = court_.scan.battery_volts;
    const double least = number_of(court_.bench.numbers, "good-battery-volts") * (volts.value_or(0) > 16 ? 2 : 1);
    add("the battery was good during the test", {"battery"}, volts && *volts >= least ? by_scan : "");
  }

  void add_supply() {
    const auto pin = [&](const std::string& kind, const std::string& name) {
      return kind + module_.id + (name.empty() ? "" : "/" + name);
    };
    const auto called = [](const std::string& name) { return name.empty() ? std::string() : " at pin " + name; };
    if (module_.power.empty()) add("its feeds carry a load", {pin("feed:", "")});
    for (const PowerPin& each : module_.power) {
      add("the feed" + called(each.pin) + " carries a load", {pin("feed:", each.pin)});
    }
    if (module_.ground.empty()) add("its grounds are good under load", {pin("ground:", "")});
    for (const GroundPin& each : module_.ground) {
      add("the ground" + called(each.pin) + " is good under load", {pin("ground:", each.pin)});
    }
  }

  /// At its own plug; where no terminators tell, the wires from plug to plug. Of a line that it leads: not shorted.
  void add_buses() {
    for (const std::size_t b : buses_of(network_, fault_.owner)) {
      const Bus& bus = network_.buses[b];
      if (bus.protocol == Protocol::ring) {
        add("light or signal reaches it on ring " + bus.id, with_prefix("ring:" + bus.id + "@"));
        continue;
      }
      const std::string at = bus.id + "@" + module_.id;
      std::vector<std::string> checks = {"ohms:" + at};
      for (const std::string& id : with_prefix("continuity:" + at + "-")) checks.push_back(id);
      if (bus.commander == fault_.owner || court_.bench.find("ohms:" + at) == nullptr) checks.push_back("shorts:" + at);
      add("bus " + bus.id + " is good at its plug", checks);
    }
  }

  /// It is up; or it is down with all loads off, and its wire is whole.
  void add_reference(const Reference& reference) {
    const std::string id = module_.id + "/" + reference.id;
    const std::string up = ticked("reference:" + id, "");
    add("the wire of supply " + reference.id + " is not shorted", {"reference:" + id, "wire:" + id});
    if (reference.loads.empty()) return;
    std::vector<std::string> checks = {"loads:" + id};
    std::string by = up.empty() ? bad("loads:" + id) : up;
    std::string one_by_one;
    for (const std::string& load : reference.loads) {
      one_by_one = bad(std::string("load:").append(id).append("/").append(load));
      if (one_by_one.empty()) break;
    }
    if (reference.loads.size() == 1) checks = {"load:" + id + "/" + reference.loads.front()};
    if (by.empty()) by = one_by_one;
    add("no load pulls supply " + reference.id + " down", checks, by, "none");
  }

  /// The reading that shows the supply still down.
  std::string bad(const std::string& check) const {
    return answered_by(court_.weighing, check, [](const Answered& answer) { return !answer.weighed.good; });
  }

  std::vector<std::string> with_prefix(const std::string& prefix) const {
    std::vector<std::string> ids;
    for (const Prospect& prospect : court_.bench.prospects) {
      if (prospect.candidate.check.id.starts_with(prefix)) ids.push_back(prospect.candidate.check.id);
    }
    return ids;
  }

  /// What takes a bus down must let it come back when unplugged; what is silent must stay so with its plug back in.
  void add_effect() {
    const bool disturbs = fault_.kind == FaultKind::holds || fault_.kind == FaultKind::babbles;
    if (disturbs && fault_.bus != nowhere) {
      const std::string& bus = network_.buses[fault_.bus].id;
      add("the others on bus " + bus + " come back when it is unplugged", {"unplug:" + module_.id + "@" + bus}, "",
          "back");
      return;
    }
    if (fault_.kind == FaultKind::dead) {
      add("it stays silent with its plug back in and its feeds and grounds proven", {"poll:" + module_.id}, "",
          "silent", proven_supply());
    }
  }

  /// The answers up to here proved feeds and grounds; those to come are given with the supply known to be good.
  std::size_t proven_supply() const {
    const auto& answers = court_.weighing.answers;
    std::size_t end = 0;
    for (std::size_t i = 0; i < answers.size(); ++i) {
      const bool supply =
          answers[i].check.starts_with("feed:" + module_.id) || answers[i].check.starts_with("ground:" + module_.id);
      if (supply && !answers[i].repeats) end = i + 1;
    }
    return end;
  }

  const Court& court_;
  const Network& network_;
  const Fault& fault_;
  const Module& module_;
  std::vector<RuleOut> made_;
};

}  // namespace

bool inside_module(const Fault& fault) {
  if (fault.part != PartKind::module) return false;
  switch (fault.kind) {
    case FaultKind::dead:
    case FaultKind::holds:
    case FaultKind::babbles:
    case FaultKind::not_forwarding:
    case FaultKind::port_dead:
      return true;
    default:
      return false;
  }
}

std::vector<RuleOut> to_rule_out(const Court& court, const Fault& fault) { return List(court, fault).make(); }

}  // namespace whichwire
