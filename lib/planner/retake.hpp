// A part is not condemned while one reading may well have been a slip of the hand. Of what still speaks for another
// repair, a share is that this reading slipped. Where that chance, times what a wrong repair costs, is more than the
// minutes of taking it once more, it is taken once more before anything is called proven: what is then proven rests on
// two readings. Tests: tests/planner/retake.cpp.
#pragma once

#include "planner/condemn.hpp"

namespace whichwire {

/// The check whose answer is to be taken once more before the repair is called proven; of several the one of most
/// worth, nullptr: none.
const Prospect* retake_before(const Court& court, const Repair& repair);

/// Minutes that it costs to do this repair in vain: the part, and the vehicle that comes back.
double cost_of_wrong(const Court& court, const Repair& repair);

}  // namespace whichwire
