// The plain reference for lib/effects: the rules of lib/effects/meanings.md, written from the page alone.
// Slow and obvious on purpose: question by question, path by path, nothing kept from one to the next. It shares no
// code with lib/effects, so where the two agree the page has been read alike twice.
// Tested by hand-worked cases in plain_effects_test.cpp, and used by effects_test.cpp to judge lib/effects.
#pragma once

#include <span>
#include <vector>
#include <whichwire/prediction.hpp>

namespace whichwire::test {

/// Level of each question when exactly `faults` are there.
std::vector<Level> plain_predict(const Network& network, std::span<const Fault> faults,
                                 std::span<const Question> questions, const Circumstances& circumstances);

/// Whether the page lets the question be asked: the modules are awake, the two share a route, the module is on the bus.
bool plain_askable(const Network& network, const Question& question, KeyState key);

}  // namespace whichwire::test
