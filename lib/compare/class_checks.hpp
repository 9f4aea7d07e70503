// The checks that alike faults call for, and what each would show under each of them. Only checks that see a fault as
// good as surely, at places that may be measured. Tests: tests/compare/separating.cpp.
#pragma once

#include <whichwire/check.hpp>
#include <whichwire/fault.hpp>

#include "compare/separate.hpp"

namespace whichwire {

struct ClassChecks {
  std::vector<Check> checks;
  OutcomeTable table;  ///< a fault a row; with `and_none` one more: no fault
};

/// Numbers for repairs: equal where one repair mends both faults. A module that is not fitted needs none.
std::vector<std::size_t> repairs_of(const Network& network, const std::vector<Fault>& faults);

ClassChecks checks_for(const Network& network, const std::vector<Fault>& faults, bool and_none);

}  // namespace whichwire
