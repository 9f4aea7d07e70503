// How often each kind of fault is there, looked up by the keys of rates.csv. Tested in tests/faults/rates.cpp.
#pragma once

#include <whichwire/fault.hpp>

namespace whichwire {

/// The odds of the row `what`. Throws std::logic_error when the table lacks it: a key of the code that no row has.
double odds_of(const Rates& rates, std::string_view what);

}  // namespace whichwire
