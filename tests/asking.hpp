// Asks one question about a network under faults given in the words of the command line. How it is predicted is the
// caller's choice: by the library, or by the plain reference in tests/differential.
#pragma once

#include <doctest/doctest.h>

#include <array>
#include <functional>
#include <initializer_list>
#include <string>
#include <vector>
#include <whichwire/prediction.hpp>

#include "building.hpp"

namespace whichwire {

/// For the messages of failed checks.
inline doctest::String toString(Level level) {  // NOLINT(readability-identifier-naming): doctest looks for this name
  constexpr std::array names = {"up", "was_unsure", "was_down", "unsure", "down"};
  return names[static_cast<std::size_t>(level)];
}

}  // namespace whichwire

namespace whichwire::test {

using Words = std::initializer_list<const char*>;

/// The faults of `words`, each as on the command line. Throws std::logic_error with the reader's message.
inline std::vector<Fault> faults_from(const Network& network, Words words) {
  std::vector<Fault> faults;
  for (const char* each : words) {
    const FaultResult read = parse_fault(network, each);
    if (!read.fault) throw std::logic_error(std::string(each) + ": " + read.error);
    faults.push_back(*read.fault);
  }
  return faults;
}

struct Asking {
  using Predict = std::function<std::vector<Level>(const Network&, std::span<const Fault>, std::span<const Question>,
                                                   const Circumstances&)>;
  Network network;
  Predict predict;
  Circumstances circumstances = {};

  Level ask(const Question& question, Words words) const {
    return predict(network, faults_from(network, words), {&question, 1}, circumstances).front();
  }
  Level answers(const std::string& module, Words faults) const {
    return ask({Question::About::answers, index_of(network.modules, module)}, faults);
  }
  Level hears(const std::string& module, const std::string& other, Words faults) const {
    return ask({Question::About::hears, index_of(network.modules, module), index_of(network.modules, other)}, faults);
  }
  Level bus(const std::string& module, const std::string& bus, Words faults) const {
    return ask({Question::About::bus, index_of(network.modules, module), index_of(network.buses, bus)}, faults);
  }
  Level function(const std::string& function, Words faults) const {
    return ask({Question::About::function, index_of(network.functions, function)}, faults);
  }
};

/// By the library.
inline Asking by_effects(const Network& network, const Circumstances& circumstances = {}) {
  const auto predict = [](const Network& its, std::span<const Fault> faults, std::span<const Question> questions,
                          const Circumstances& how) { return Effects(its).predict(faults, questions, how); };
  return {network, predict, circumstances};
}

}  // namespace whichwire::test
