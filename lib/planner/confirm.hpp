// A part is not proven by what was ruled out alone while a direct look at it is to be had: what condemns is a reading
// at the part that is as bad as its fault makes it. Tests: tests/planner/confirm.cpp.
#pragma once

#include "planner/condemn.hpp"

namespace whichwire {

/// One faulty part, and the reading that shows its fault directly.
struct Confirmation {
  std::string part;
  std::string by;                   ///< id of that reading; empty: there is none
  const Prospect* check = nullptr;  ///< the quickest that would show it and is not answered; nullptr: none, or too long
};

/// One for each fault of the suspect that can be looked at directly, those that come and go among them; faults inside a
/// module have a list of their own.
std::vector<Confirmation> confirmations_of(const Court& court, const Suspect& suspect);

}  // namespace whichwire
