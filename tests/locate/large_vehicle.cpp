// Generated, invented vehicles far larger than any shipped one.
#include <doctest/doctest.h>

#include <whichwire/expected_scan.hpp>
#include <whichwire/findings.hpp>

#include "bench/vehicle.hpp"

namespace whichwire::test {

TEST_CASE(
    "a gateway that passes nothing on is proven in front of 149 silent modules, whatever else could be put together") {
  const Network network = *read_network(bench::vehicle_text(150, 20), "generated").network;
  const Effects effects(network);
  const std::vector<Fault> faults = faults_of(network);
  const Fault gateway = *parse_fault(network, "not-forwarding CGW").fault;
  const Ranking ranking = locate(effects, faults, expected_scan(effects, std::vector{gateway}).scan);
  REQUIRE_FALSE(ranking.explanations.empty());
  CHECK(ranking.explanations.front().faults == std::vector{gateway});
  CHECK(ranking.explanations.front().probability.low > 0.99);
  CHECK(ranking.outside <= 1e-4);
}

}  // namespace whichwire::test
