// Sources and tests: see bus_limits.hpp.
#include "electrical/bus_limits.hpp"

namespace whichwire {

double longest_bus_by_delay_m(double bits_per_second, const DelayBudget& budget) {
  constexpr double ns_a_second = 1e9;
  const double one_way_ns = budget.share_of_bit / (2 * bits_per_second) * ns_a_second;
  return (one_way_ns - budget.circuits_ns) / budget.ns_per_m;
}

double longest_stub_m(double edge_ns, double ns_per_m) {
  constexpr double share = 1.0 / 3;
  return share * edge_ns / (2 * ns_per_m);
}

}  // namespace whichwire
