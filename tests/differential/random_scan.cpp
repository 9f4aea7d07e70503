#include "random_scan.hpp"

#include "plain_effects.hpp"

namespace whichwire::test {

namespace {

struct ScanMaker {
  Dice& dice;
  const Network& network;
  std::span<const Fault> faults;
  const Circumstances& circumstances;

  Level level(const Question& question) const {
    return plain_predict(network, faults, {&question, 1}, circumstances).front();
  }

  bool chance(double probability) { return dice.fraction() < probability; }

  Answer answer_of(std::size_t module) {
    if (dice.one_in(8)) return Answer::not_polled;
    const Level its = level({Question::About::answers, module});
    const double silent = its == Level::down ? 1.0 : its == Level::unsure ? 0.4 : 0.05;
    if (chance(silent)) return dice.one_in(6) ? Answer::not_fitted : Answer::no;
    return dice.one_in(12) ? Answer::refused : Answer::yes;
  }

  /// A sentence that says the reporter misses another module.
  void add_lost(ModuleSeen& seen, std::size_t reporter, std::size_t other) {
    const Level its = level({Question::About::hears, reporter, other});
    const bool was = its == Level::was_down || its == Level::was_unsure;
    if (!chance(its == Level::up ? 0.03 : 0.6)) return;
    CodeSeen code;
    code.misses = network.modules[other].id;
    code.text = "no messages from " + code.misses;
    code.state = was != dice.one_in(6) ? CodeState::history : CodeState::current;
    seen.codes.push_back(code);
  }

  void add_bus_code(ModuleSeen& seen, std::size_t reporter) {
    Level worst = Level::up;
    for (std::size_t b = 0; b < network.buses.size(); ++b) {
      const Question question{Question::About::bus, reporter, b};
      if (plain_askable(network, question, circumstances.key)) worst = std::max(worst, level(question));
    }
    if (!chance(worst == Level::up ? 0.02 : 0.4)) return;
    CodeSeen code;
    code.written = "U0001";  // high-speed CAN bus, SAE J2012
    code.code = parse_code(code.written);
    const bool was = worst == Level::was_down || worst == Level::was_unsure;
    code.state = was ? CodeState::history : CodeState::current;
    seen.codes.push_back(code);
  }

  ModuleSeen module_seen(std::size_t module) {
    ModuleSeen seen{network.modules[module].id, answer_of(module), {}};
    if (seen.answer != Answer::yes) return seen;
    for (std::size_t other = 0; other < network.modules.size(); ++other) {
      if (other != module) add_lost(seen, module, other);
    }
    add_bus_code(seen, module);
    return seen;
  }

  Scan make() {
    Scan scan;
    scan.key = circumstances.key;
    scan.key_stated = true;
    scan.tool_has_own_battery = circumstances.tool_has_own_battery;
    if (dice.one_in(6)) scan.battery_volts = 11.0 + 2.0 * dice.fraction();
    for (std::size_t m = 0; m < network.modules.size(); ++m) scan.modules.push_back(module_seen(m));
    for (std::size_t f = 0; f < network.functions.size(); ++f) {
      const Level its = level({Question::About::function, f});
      scan.functions.push_back({network.functions[f].id, !chance(its == Level::down ? 0.95 : 0.1)});
    }
    return scan;
  }
};

}  // namespace

Scan random_scan(Dice& dice, const Network& network, std::span<const Fault> faults,
                 const Circumstances& circumstances) {
  return ScanMaker{dice, network, faults, circumstances}.make();
}

}  // namespace whichwire::test
