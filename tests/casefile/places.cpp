// Which place is meant, and the cautions that belong to it.
#include <algorithm>

#include "casefile/jobs.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

bool any_with(const std::vector<std::string>& texts, std::string_view part) {
  return std::ranges::any_of(texts, [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

const Network& electric_car() {
  static const NetworkResult result = load_network(WHICHWIRE_SOURCE_DIR "/topologies/electric-car.json");
  REQUIRE(result.network);
  return *result.network;
}

}  // namespace

TEST_CASE("a plug is found by id, whatever the case, by name, alias and as a load of a reference") {
  for (const char* typed : {"ECM", "ecm", "Engine control module", "engine computer"}) {
    CAPTURE(typed);
    const PlaceFound found = work_place(compact_car(), WorkKind::unplug, typed);
    CHECK(found.what == "ECM");
    CHECK(found.known);
    CHECK(found.error == "");
  }
  CHECK(work_place(compact_car(), WorkKind::unplug, "Camshaft Sensor").what == "camshaft sensor");
  CHECK(work_place(compact_car(), WorkKind::replug, "dlc").what == "DLC");
}

TEST_CASE("a fuse is found by id; a slip gets a suggestion, an unknown one is taken as typed") {
  CHECK(work_place(compact_car(), WorkKind::fuse_out, "f3").what == "F3");
  const PlaceFound slip = work_place(compact_car(), WorkKind::unplug, "camshaft sensr");
  CHECK(slip.error == "the network has no `camshaft sensr`; did you mean `camshaft sensor`?");
  const PlaceFound own = work_place(compact_car(), WorkKind::unplug, "trailer socket");
  CHECK(own.what == "trailer socket");
  CHECK_FALSE(own.known);
  CHECK(own.error == "");
  CHECK(work_place(compact_car(), WorkKind::jumper, "whatever to whatever").known);
}

TEST_CASE("a hazard of the place stands with the step") {
  CHECK(any_with(cautions_at(compact_car(), WorkKind::unplug, "SRS"), "restraint"));
  CHECK(any_with(cautions_at(compact_car(), WorkKind::unplug, "ECM"), "Hot parts"));
  CHECK_FALSE(any_with(cautions_at(compact_car(), WorkKind::unplug, "HVAC"), "Hot parts"));
  CHECK(any_with(cautions_at(compact_car(), WorkKind::jumper, "x"), "Fused lead"));
  CHECK(any_with(cautions_at(compact_car(), WorkKind::unplug, "HVAC"), "codes behind"));
  CHECK(cautions_at(compact_car(), WorkKind::programmed, "HVAC").empty());
  bool high_voltage = false;
  for (const Module& module : electric_car().modules) {
    const bool dangerous = std::ranges::find(module.place.hazards, "high-voltage") != module.place.hazards.end();
    high_voltage |= dangerous;
    CHECK(any_with(cautions_at(electric_car(), WorkKind::unplug, module.id), "high-voltage") == dangerous);
  }
  CHECK(high_voltage);
}

TEST_CASE("a fuse that feeds a restraint module is said to, also through what hangs from it") {
  const std::size_t srs = index_of(compact_car().modules, "SRS");
  REQUIRE(srs != nowhere);
  REQUIRE(!compact_car().modules[srs].power.empty());
  std::size_t feed = compact_car().modules[srs].power[0].feed;
  for (; feed != nowhere; feed = compact_car().feeds[feed].from) {
    CAPTURE(compact_car().feeds[feed].id);
    CHECK(any_with(cautions_at(compact_car(), WorkKind::fuse_out, compact_car().feeds[feed].id), "restraint module"));
  }
}
