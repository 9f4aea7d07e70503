// Which check a reading answers, from where it was taken and how. Tests: tests/casefile/state.cpp.
#pragma once

#include <string>
#include <whichwire/casefile.hpp>
#include <whichwire/electrical.hpp>

namespace whichwire {

/// The id of the check; empty where none is answered so. `then`: what was off.
std::string check_at(const Network& network, const CaseReading& reading, Reading::Kind kind, const Situation& then);

}  // namespace whichwire
