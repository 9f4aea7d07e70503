#include <algorithm>

#include "effects/compiled.hpp"
#include "effects/predictor.hpp"
#include "effects/routes.hpp"

namespace whichwire {

Effects::Compiled::Compiled(const Network& given)
    : network(given),
      supply{Supply(given, KeyState::off), Supply(given, KeyState::accessory), Supply(given, KeyState::run),
             Supply(given, KeyState::start)},
      buses_of(given.modules.size()),
      gateways_at(given.buses.size()) {
  for (std::size_t bus = 0; bus < given.buses.size(); ++bus) {
    wiring.push_back(wiring_of(given, bus));
    for (std::size_t module = 0; module < given.modules.size(); ++module) {
      if (wiring.back().point_of(module) != no_point) buses_of[module].push_back(bus);
    }
  }
  for (std::size_t g = 0; g < given.gateways.size(); ++g) {
    for (const auto bus : given.gateways[g].joins) gateways_at[bus].push_back(g);
  }
  joined_for_tester = joined_buses(*this, false);
  joined_for_modules = joined_buses(*this, true);
}

Effects::Effects(const Network& network) : compiled_(std::make_unique<Compiled>(network)) {}
Effects::~Effects() = default;
Effects::Effects(Effects&&) noexcept = default;
Effects& Effects::operator=(Effects&&) noexcept = default;

const Network& Effects::network() const { return compiled_->network; }

bool Effects::awake(std::size_t module, KeyState key) const { return compiled_->supply_in(key).awake(module); }

bool Effects::answerable(const Question& question) const {
  switch (question.about) {
    case Question::About::answers:
      return reachable(*compiled_, nowhere, question.a);
    case Question::About::hears:
      return question.a != question.b && reachable(*compiled_, question.b, question.a);
    case Question::About::bus:
      return compiled_->wiring[question.b].point_of(question.a) != no_point;
    case Question::About::function: {
      const auto& messages = compiled_->network.functions[question.a].messages;
      return std::all_of(messages.begin(), messages.end(),
                         [&](const auto& message) { return reachable(*compiled_, message.from, message.to); });
    }
    case Question::About::fitted:
      return true;
  }
  return false;
}

std::vector<Level> Effects::predict(std::span<const Fault> faults, std::span<const Question> questions,
                                    const Circumstances& circumstances) const {
  Predictor predictor(*compiled_, questions, circumstances);
  std::vector<Level> levels(questions.size(), Level::up);
  std::vector<Raised> raised;
  const auto merge = [&] {
    for (const auto& [question, level] : raised) levels[question] = std::max(levels[question], level);
  };
  std::vector<const Fault*> present;
  for (const Fault& fault : faults) {
    if (!fault.comes_and_goes) present.push_back(&fault);
  }
  predictor.present(present, {}, raised);
  merge();
  for (const Fault& fault : faults) {
    if (!fault.comes_and_goes) continue;
    predictor.left_behind(fault, raised);
    merge();
  }
  return levels;
}

}  // namespace whichwire
