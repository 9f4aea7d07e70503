// A part is not proven by what was ruled out alone while a direct look at it is to be had: what condemns is a reading
// at the part that is as bad as its fault makes it. Nor is a vehicle sent away as whole before its codes were cleared
// and it was scanned again, and before somebody has looked whether what is silent is fitted at all. Tests:
// tests/planner/confirm.cpp.
#pragma once

#include "planner/condemn.hpp"

namespace whichwire {

/// One thing to be seen directly, as a faulty part, and the reading that shows it.
struct Confirmation {
  std::string what;                 ///< in words
  std::string by;                   ///< id of that reading; empty: there is none
  const Prospect* check = nullptr;  ///< the quickest that would show it and is not answered; nullptr: none, or too long
};

/// One for each fault that the suspect's repair is about and that can be looked at directly, those that come and go
/// among them; faults inside a module have a list of their own. Where nothing is to be repaired: what shows that.
std::vector<Confirmation> confirmations_of(const Court& court, const Suspect& suspect);

/// The check, not answered yet, that would show most of the suspect's faults; nullptr: none shows any.
const Prospect* best_look(const Court& court, const Suspect& suspect);

}  // namespace whichwire
