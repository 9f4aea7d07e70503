// For orders: what weighs the same in truth differs by the rounding of long sums, which must not decide what people
// read first. Ties are then broken by what does not depend on any sum.
#pragma once

#include <cmath>

namespace whichwire {

inline double coarse_log(double log) { return std::round(log * 1e6); }
inline double coarse(double weight) { return weight > 0 ? coarse_log(std::log(weight)) : -INFINITY; }

}  // namespace whichwire
