// A reading of a case as an answer that the planner weighs. Tests: tests/casefile/state.cpp.
#pragma once

#include <whichwire/case_state.hpp>

namespace whichwire {

/// How the vehicle stood when the entry was made, by what was off.
Situation situation_at(const Case& job, std::size_t entry);

/// The reading of this entry, with the check that it answers and how it was taken.
Taken taken_from(const Case& job, std::size_t entry, const Planner& planner);

}  // namespace whichwire
