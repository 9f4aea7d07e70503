// The next check. Order: a doubtful answer is taken again; then what tells most about the repair; then, where one
// repair is likely enough but means another module, what is still missing on the list of things to rule out; then a
// look at the part itself, and a reading once more that may have been a slip. Where old codes left too much unweighed,
// a scan after clearing them comes before all of these but the first, and so does the scan taken after they were
// cleared. Tests: tests/planner/trade_rules.cpp, tests/planner/confirm.cpp, tests/planner/scan_again.cpp.
#pragma once

#include "planner/condemn.hpp"

namespace whichwire {

/// What the answers come to, and what is to be done next; `now`: what is unplugged at the moment.
Assessment assessment_of(const Court& court, const Situation& now);

}  // namespace whichwire
