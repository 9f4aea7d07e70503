// The ranking as weighted sets, grouped by what has to be repaired.
#include "checks/hypotheses.hpp"

#include <doctest/doctest.h>

#include "checks/ranking.hpp"

using namespace moor;

TEST_CASE("a line of alike sets shares its probability in proportion to the product of their odds") {
  const Fault likely = with_odds(open_part(PartKind::power_pin, ECM, 1), 0.003);
  const Fault rare = with_odds(dead(ECM), 0.001);
  const Explanation line = explained(0.8, {likely}, {{rare}});
  CHECK(shares_of(line)[0] == doctest::Approx(0.75));
  CHECK(shares_of(line)[1] == doctest::Approx(0.25));
  const Hypotheses all = hypotheses_of(network(), ranked({line}));
  CHECK(all.sets.at(0).weight == doctest::Approx(0.6));
  CHECK(all.sets.at(1).weight == doctest::Approx(0.2));
  CHECK(all.neutral == doctest::Approx(0.2));
}

TEST_CASE("an interval counts by its lower end, and what may lie outside the list is neutral") {
  Explanation line = explained(0, {dead(ECM)});
  line.probability = {0.5, 0.7};
  const Hypotheses all = hypotheses_of(network(), ranked({line}));
  CHECK(all.sets.at(0).weight == doctest::Approx(0.5));
  CHECK(all.neutral == doctest::Approx(0.5));
}

TEST_CASE("a break that comes and goes needs the same repair as one that is there") {
  const Hypotheses all = hypotheses_of(
      network(), ranked({explained(0.5, {open_segment(DRV, 3)}), explained(0.5, {passing(open_segment(DRV, 3))})}));
  CHECK(all.repairs == std::vector<std::string>{"DRV-4"});
  CHECK(all.sets[0].present.size() + all.sets[0].passing.size() == 1);
}

TEST_CASE("a module to be configured is another job than the module itself, and one that is not fitted is no job") {
  const Hypotheses all = hypotheses_of(
      network(), ranked({explained(0.4, {dead(HVC)}), explained(0.3, {module_fault(FaultKind::unconfigured, HVC)}),
                         explained(0.2, {module_fault(FaultKind::not_fitted, HVC)}), explained(0.1, {})}));
  CHECK(all.repairs == std::vector<std::string>{"HVC", "configure HVC", ""});
  CHECK(all.sets[2].repair == all.sets[3].repair);
}

TEST_CASE("two faults in either order are one job") {
  const Hypotheses all = hypotheses_of(
      network(), ranked({explained(0.5, {dead(ECM), dead(TCM)}), explained(0.5, {dead(TCM), dead(ECM)})}));
  CHECK(all.repairs.size() == 1);
}

TEST_CASE("sets beyond the likeliest few are left out as neutral mass") {
  const Ranking three = ranked({explained(0.5, {dead(ECM)}), explained(0.3, {dead(TCM)}), explained(0.2, {dead(ABS)})});
  const Hypotheses two = hypotheses_of(network(), three, 2);
  CHECK(two.sets.size() == 2);
  CHECK(two.neutral == doctest::Approx(0.2));
}
