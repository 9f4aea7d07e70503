// The words of the faults of every network that comes with the program.
#include "round_trip.hpp"
#include "shipped.hpp"

using namespace whichwire;

TEST_CASE("every fault of every network that comes with the program is read back from its own words") {
  for (const std::string& name : test::shipped_names()) {
    CAPTURE(name);
    test::check_round_trip(test::shipped(name));
  }
}
