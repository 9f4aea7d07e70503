// See simulated_vehicle.hpp.
#include "planner/simulated_vehicle.hpp"

#include <algorithm>
#include <cmath>

#include "checks/knowledge.hpp"
#include "locate/likelihoods.hpp"
#include "planner/numbers.hpp"

namespace whichwire::test {
namespace {

constexpr double two_faults = 0.1;

std::vector<Fault> drawn(const Network& network, Dice& dice) {
  std::vector<Fault> all;
  std::vector<double> odds;
  for (const Fault& fault : faults_of(network)) {
    if (fault.kind == FaultKind::not_fitted) continue;
    all.push_back(fault);
    odds.push_back(fault.odds);
  }
  std::vector<Fault> faults = {all[dice.by_weight(odds)]};
  if (dice.of(two_faults)) {
    const Fault second = all[dice.by_weight(odds)];
    if (!(second == faults.front())) faults.push_back(second);
  }
  return faults;
}

bool of_supply(const Fault& fault) {
  return fault.part == PartKind::power_pin || fault.part == PartKind::ground_pin || fault.part == PartKind::feed ||
         fault.part == PartKind::ground || fault.part == PartKind::connector_power_pin ||
         fault.part == PartKind::connector_ground_pin;
}

/// The pin that a back-feeding module has lost.
Fault lost_pin(const Module& module, std::size_t owner, Dice& dice) {
  const std::size_t feeds = std::max<std::size_t>(module.power.size(), 1);
  const std::size_t pin = dice.below(feeds + std::max<std::size_t>(module.ground.size(), 1));
  const bool feed = pin < feeds;
  const bool listed = feed ? !module.power.empty() : !module.ground.empty();
  return {.kind = FaultKind::open,
          .part = feed ? PartKind::power_pin : PartKind::ground_pin,
          .owner = owner,
          .item = !listed ? nowhere
                  : feed  ? pin
                          : pin - feeds};
}

/// An open supply may be a bad contact; a pulled-down reference is so in a load or in the wire.
std::vector<PresentFault> as_measured(const Network& network, Fault fault, Dice& dice) {
  fault.comes_and_goes = false;
  PresentFault made{fault};
  const PlannerNumbers& numbers = default_planner_numbers();
  if (of_supply(fault) && fault.kind == FaultKind::open && dice.of(number_of(numbers, "bad-contact"))) {
    const double low = number_of(numbers, "bad-contact-low"), high = number_of(numbers, "bad-contact-high");
    made.ohms = exactly(low * std::pow(high / low, dice.fraction()));
  }
  if (fault.part == PartKind::reference && fault.kind == FaultKind::short_circuit) {
    const auto loads = network.modules[fault.owner].references[fault.item].loads.size();
    if (loads > 0 && !dice.of(knowledge().limit("reference-short-in-wire"))) made.load = dice.below(loads);
  }
  if (fault.kind != FaultKind::back_feeds) return {made};
  return {made, {lost_pin(network.modules[fault.owner], fault.owner, dice)}};
}

bool seen_at(const char* row, Level level, Dice& dice) {
  return dice.of(std::exp(log_likelihood_of(row)[static_cast<std::size_t>(level)]));
}

/// Each answer, code and function falls as likelihood.csv says for its level; nothing old where codes were `cleared`.
Scan noisy(const Network& network, const ExpectedScan& expected, bool cleared, Dice& dice) {
  Scan scan = expected.scan;
  scan.battery_volts = 12.5;
  for (ModuleSeen& seen : scan.modules) {
    std::erase_if(seen.codes, [&](const CodeSeen& code) {
      const bool of_bus = code.misses.empty() && code.code && meaning_of(*code.code).kind == CodeKind::bus_fault;
      const bool gone = cleared && code.state != CodeState::current;
      return !of_bus || gone || !seen_at("bus-current", Level::down, dice);
    });
  }
  for (std::size_t i = 0; i < expected.questions.size(); ++i) {
    const Question& question = expected.questions[i];
    const Level level = expected.levels[i];
    if (question.about == Question::About::answers) {
      scan.modules[question.a].answer = seen_at("answer-no", level, dice) ? Answer::no : Answer::yes;
    } else if (question.about == Question::About::hears) {
      const bool now = seen_at("lost-current", level, dice);
      if (!now && (cleared || !seen_at("lost-history", level, dice))) continue;
      CodeSeen code;
      code.misses = network.modules[question.b].id;
      code.text = "no messages from " + code.misses;
      code.state = now ? CodeState::current : CodeState::history;
      scan.modules[question.a].codes.push_back(code);
    }
  }
  for (ModuleSeen& seen : scan.modules) {
    if (seen.answer != Answer::yes) seen.codes.clear();
  }
  for (FunctionSeen& seen : scan.functions) {
    const std::size_t function = index_of(network.functions, seen.function);
    for (std::size_t i = 0; i < expected.questions.size(); ++i) {
      if (expected.questions[i].about == Question::About::function && expected.questions[i].a == function)
        seen.works = !seen_at("function-fails", expected.levels[i], dice);
    }
  }
  return scan;
}

bool abnormal(const Scan& scan) {
  return std::ranges::any_of(scan.modules,
                             [](const ModuleSeen& seen) { return seen.answer == Answer::no || !seen.codes.empty(); }) ||
         std::ranges::any_of(scan.functions, [](const FunctionSeen& seen) { return !seen.works; });
}

}  // namespace

std::optional<SimulatedVehicle> simulated_vehicle(const Effects& effects, Dice& dice) {
  SimulatedVehicle made;
  made.faults = drawn(effects.network(), dice);
  const ExpectedScan expected = expected_scan(effects, made.faults);
  const auto felt = [](Level level) { return level == Level::down || level == Level::was_down; };
  if (std::ranges::none_of(expected.levels, felt)) return std::nullopt;
  made.scan = noisy(effects.network(), expected, false, dice);
  if (!abnormal(made.scan)) return std::nullopt;
  for (const Fault& fault : made.faults) {
    std::vector<PresentFault> measured = as_measured(effects.network(), fault, dice);
    if (fault.comes_and_goes) {
      made.at_times.push_back(std::move(measured));
    } else {
      made.there.insert(made.there.end(), measured.begin(), measured.end());
    }
  }
  return made;
}

Scan scan_after_clearing(const Effects& effects, const SimulatedVehicle& vehicle, Dice& dice) {
  return noisy(effects.network(), expected_scan(effects, vehicle.faults), true, dice);
}

}  // namespace whichwire::test
