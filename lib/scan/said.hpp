// What a single word or phrase says: an answer, or the state of a code. Tested in tests/scan/pasted_scan.cpp.
#pragma once

#include <whichwire/scan.hpp>

#include "scan/elements.hpp"

namespace whichwire {

/// The state that the element gives a code. `present` counts only where it is `of_code`.
std::optional<CodeState> state_said(const LineElement& element, bool of_code);

/// The answer that the element gives a module.
std::optional<Answer> answer_said(const LineElement& element);

/// Whether such an answer gives way to a plainer one, as `ok` does.
bool said_weakly(const LineElement& element);

/// Of two states said of one code the one that weighs more is meant.
int weight_of(CodeState state);

}  // namespace whichwire
