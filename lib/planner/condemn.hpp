// When a module may be condemned: everything else is ruled out, each thing by a reading that says so. The list is the
// trade's (common practice, no source). Tests: tests/planner/trade_rules.cpp.
#pragma once

#include "planner/evidence.hpp"

namespace whichwire {

/// What the decision rests on.
struct Court {
  const Effects& effects;
  const Scan& scan;
  const Bench& bench;
  const Weighing& weighing;
};

/// Whether so many codes of the scan may have been stored long ago that it is worth clearing them.
bool worth_clearing(const Court& court);

/// Whether it was answered what returns after clearing, be it that this tells nothing of what is held possible.
bool was_cleared(const Weighing& weighing);

/// Whether the fault is one of the module's own inside, so that its repair is another module.
bool inside_module(const Fault& fault);

/// All that must be ruled out before the module is condemned for this fault; ticked where the answers do.
std::vector<RuleOut> to_rule_out(const Court& court, const Fault& fault);

Decision decide(const Court& court, const std::vector<Repair>& repairs, const std::optional<Check>& next);

/// The likeliest set of faults of a repair, by its name; nullptr: none.
const Suspect* likeliest(const Suspects& suspects, std::string_view repair);

}  // namespace whichwire
