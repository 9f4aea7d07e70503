// Which network is a unit's.
#include "fleet/units.hpp"

using namespace whichwire;
using test::fleet_of;

namespace {

Scan healthy(const char* name) {
  const Network network = test::shipped(name);
  return expected_scan(Effects(network), {}).scan;
}

UnitFinding matched(const Fleet& fleet, const Scan& scan) { return *fleet.row_of(test::line_of(scan), "x").finding; }

}  // namespace

TEST_CASE(
    "the vehicle that a scan states tells the network, whatever the spelling; what is not stated may be anything") {
  const Fleet fleet = fleet_of({"compact-car", "van-base", "van-high"});
  Scan scan = healthy("van-base");
  scan.vehicle = {"HOLLIN", "moor", "Base", 0};
  UnitFinding found = matched(fleet, scan);
  CHECK(found.network == "van-base");
  CHECK(found.matched == MatchedBy::vehicle);
  scan = healthy("compact-car");
  scan.vehicle = {"", "Thimble 1.2", "", 2015};
  found = matched(fleet, scan);
  CHECK(found.network == "compact-car");
  CHECK(found.matched == MatchedBy::vehicle);
}

TEST_CASE("a vehicle that no network is of is an error, not a guess") {
  Scan scan = healthy("van-base");
  scan.vehicle = {"Hollin", "Moor", "base", 2019};
  CHECK(matched(fleet_of({"compact-car", "van-base"}), scan).error ==
        "no network is of this vehicle: Hollin Moor 2019 base");
}

TEST_CASE("without a vehicle each healthy unit is matched to its own network by fit") {
  const Fleet fleet = fleet_of({"compact-car", "van-base", "van-high", "tractor", "older-single-wire", "ring-saloon"});
  for (const char* name : {"compact-car", "van-base", "van-high", "tractor", "older-single-wire", "ring-saloon"}) {
    const UnitFinding found = matched(fleet, healthy(name));
    CHECK(found.network == name);
    CHECK(found.matched == MatchedBy::fit);
  }
}

TEST_CASE("of two networks that a scan fits equally the row says that it is not told") {
  std::vector<Network> twins = {test::shipped("template-one-bus"), test::shipped("template-one-bus")};
  twins[1].name = "twin.json";
  const Fleet fleet(std::move(twins));
  const UnitFinding found = matched(fleet, healthy("template-one-bus"));
  CHECK(found.network == "template-one-bus");
  CHECK(found.matched == MatchedBy::fit_of_several);
}

TEST_CASE("a scan of modules that no network knows is an error") {
  Scan scan;
  scan.modules = {{"QQQ", Answer::yes, {}}};
  CHECK(matched(fleet_of({"compact-car", "van-base"}), scan).error == "no network knows any of its modules");
}

TEST_CASE("a network that the user gives is taken for all, an only one too") {
  Scan scan = healthy("van-base");
  scan.functions.clear();  // the other network has others
  const UnitFinding given = matched(fleet_of({"compact-car", "van-base"}, {default_rates(), "compact-car"}), scan);
  CHECK(given.network == "compact-car");
  CHECK(given.matched == MatchedBy::given);
  CHECK(matched(fleet_of({"van-base"}), scan).matched == MatchedBy::only_one);
}
