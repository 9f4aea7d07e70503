// Two large networks of one build compared: what differs, which faults look different, which are told apart.
#include <whichwire/compare.hpp>

#include "parts.hpp"
#include "table.hpp"
#include "timing.hpp"
#include "vehicle.hpp"

namespace whichwire::bench {

namespace {

/// Another trim: a module less, a fuse elsewhere, a bus at another rate.
Network other_trim(Network network) {
  network.modules.back().power.clear();
  network.modules.front().name += " B";
  network.feeds.back().place.where += " B";
  network.buses.back().bit_rate /= 2;
  return network;
}

}  // namespace

void measure_comparing() {
  const NetworkResult read = read_network(vehicle_text(150, 20), "generated");
  if (!read.network) {
    print("150 modules on 20 buses: refused");
    return;
  }
  const Network other = other_trim(*read.network);
  const std::string name = "150 modules on 20 buses: ";
  std::size_t found = 0, shared = 0;
  print({name + "compare", "ms", median_ms([&] {
           const Comparison comparison = compare(Effects(*read.network), Effects(other));
           found = comparison.differences.size();
           shared = comparison.faults_shared;
         }),
         "limit", 200});
  print({name + "differences", "", static_cast<double>(found), "", 0});
  print({name + "faults in both", "", static_cast<double>(shared), "", 0});
}

}  // namespace whichwire::bench
