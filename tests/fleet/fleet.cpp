// One unit after another: the row says what `locate` says, with memory or without, and nothing that a unit holds ends
// the run.
#include <set>
#include <whichwire/check.hpp>

#include "differential/random_network.hpp"
#include "differential/random_scan.hpp"
#include "effort.hpp"
#include "fleet/finding.hpp"
#include "fleet/memory.hpp"
#include "fleet/units.hpp"

using namespace whichwire;
using test::Dice;
using test::fleet_of;
using test::unit_line;

namespace {

bool same(const UnitFinding& a, const UnitFinding& b) {
  return a.error == b.error && a.network == b.network && a.matched == b.matched && a.verdict.parts == b.verdict.parts &&
         a.verdict.headline == b.verdict.headline && a.verdict.probability == b.verdict.probability &&
         a.fault == b.fault && a.silent == b.silent && a.check == b.check && a.doubts == b.doubts &&
         a.outside == b.outside && a.suspected == b.suspected;
}

}  // namespace

TEST_CASE("a row says what the ranking of its scan says, with a prior for units that nobody complained of") {
  const Fleet fleet = fleet_of({"compact-car"});
  const Network network = test::shipped("compact-car");
  const std::string text = unit_line(network, "V-4", {"open F3"});
  const FleetRow row = fleet.row_of(text, "a.json");
  CHECK(row.scan == "a.json");
  CHECK(row.unit == "V-4");
  const Effects effects(network);
  const auto faults = faults_of(network);
  LocateOptions options;
  options.no_fault = 1;
  const Scan scan = *read_scan(text, "", &network).scan;
  const Ranking ranking = locate(effects, faults, scan, options);
  const Verdict verdict = verdict_of(network, ranking);
  CHECK(row.finding->verdict.verdict_class == verdict.verdict_class);
  CHECK(row.finding->verdict.parts == verdict.parts);
  CHECK(row.finding->verdict.probability == doctest::Approx(verdict.probability).epsilon(2e-2).scale(0));
  CHECK(row.finding->check.id == plan_checks(effects, faults, ranking, scan).checks.front().id);
  CHECK(row.finding->silent == std::vector<std::string>{"ECM"});
  CHECK(row.finding->outside <= 1e-2);
}

TEST_CASE("a unit in order needs no fault, no check and no suspects") {
  const Fleet fleet = fleet_of({"van-base"});
  const FleetRow row = fleet.row_of(unit_line(test::shipped("van-base"), "V-1", test::Words{}), "a");
  CHECK(row.finding->verdict.verdict_class == VerdictClass::none);
  CHECK(row.finding->verdict.probability > 0.99);
  CHECK(row.finding->suspected.empty());
  CHECK(row.finding->check.id.empty());
  CHECK(urgency_of(*row.finding) < 0.05);
}

TEST_CASE("a complaint in the scan makes a fault likelier") {
  const Fleet fleet = fleet_of({"compact-car"});
  const Network network = test::shipped("compact-car");
  Scan scan = expected_scan(Effects(network), {}).scan;
  const std::size_t radio = index_of(network.modules, "RAD");
  scan.modules[radio].codes.push_back({"U0100", parse_code("U0100"), CodeState::history, {}, "", "", {}});
  const double quiet = fleet.row_of(test::line_of(scan), "a").finding->fault;
  scan.complaint = "engine cut out twice";
  const double complained = fleet.row_of(test::line_of(scan), "a").finding->fault;
  CHECK(complained > quiet);
}

TEST_CASE("rows are the same with memory and without, on random scans of random networks") {
  std::size_t remembered = 0;
  for (std::uint64_t seed = 1; seed <= test::share_of(10); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    std::vector<Network> one, other;
    one.push_back(test::random_network(dice, {4, 1}));
    const Network network = one.front();
    other.push_back(network);
    const Fleet with(std::move(one)), without(std::move(other), {default_rates(), "", false});
    const auto faults = faults_of(network);
    std::set<const UnitFinding*> findings;
    for (int i = 0; i < 6; ++i) {
      const auto present = test::random_faults(dice, faults, dice.below(2));
      Scan scan = dice.one_in(2) ? expected_scan(Effects(network), present).scan
                                 : test::random_scan(dice, network, present, {});
      scan.battery_volts = 9 + static_cast<double>(dice.below(1600)) / 100;  // both sides of every threshold
      scan.unit = "U-" + std::to_string(i);
      const std::string text = test::line_of(scan);
      const FleetRow row = with.row_of(text, "x"), again = with.row_of(text, "x"), plain = without.row_of(text, "x");
      CHECK(same(*row.finding, *plain.finding));
      CHECK(again.finding == row.finding);
      CHECK(row.unit == plain.unit);
      findings.insert(row.finding.get());
    }
    remembered += 6 - findings.size();
  }
  CHECK(remembered > 0);
}

TEST_CASE("a scan that cannot be read is a row with the place of its mistake and its unit") {
  const Fleet fleet = fleet_of({"compact-car"});
  std::string text = unit_line(test::shipped("compact-car"), "V-9", test::Words{});
  text.replace(text.find("\"yes\""), 5, "\"yess\"");
  const FleetRow row = fleet.row_of(text, "fleet.ndjson:7");
  CHECK(row.unit == "V-9");
  CHECK(row.scan == "fleet.ndjson:7");
  CHECK(row.finding->error.starts_with("column "));
  CHECK(row.finding->error.find("did you mean `yes`?") != std::string::npos);
  for (const char* broken : {"", "{", "{}", "[]", "null", "\xff\xfe", "{\"format\":\"whichwire.scan.v1\"}"})
    CHECK(!fleet.row_of(broken, "x").finding->error.empty());
}

TEST_CASE("a text that was refused is not remembered as one that is fine") {
  const Fleet fleet = fleet_of({"compact-car"});
  const std::string good = unit_line(test::shipped("compact-car"), "V-9", test::Words{});
  const std::string bad = good.substr(0, good.size() - 1) + ",\"unit\":\"V-10\"}";
  CHECK(fleet.row_of(good, "x").finding->error.empty());
  CHECK(!fleet.row_of(bad, "x").finding->error.empty());
  CHECK(!fleet.row_of(bad, "x").finding->error.empty());
}

TEST_CASE("pasted text is a unit as well") {
  const Fleet fleet = fleet_of({"compact-car"});
  const FleetRow row = fleet.row_of("Unit Y-1, key on\nECM no reply\nall others answer\n", "yard.txt");
  CHECK(row.unit == "Y-1");
  CHECK(row.finding->silent == std::vector<std::string>{"ECM"});
  CHECK(row.finding->verdict.parts == std::vector<std::string>{"ECM"});
}

TEST_CASE("the memory of findings stays within its size and answers by the whole key") {
  Memory memory(16 * 4000);
  const auto finding = std::make_shared<const UnitFinding>();
  for (int i = 0; i < 10'000; ++i) memory.put("key " + std::to_string(i), finding);
  std::size_t kept = 0;
  for (int i = 0; i < 10'000; ++i) kept += memory.find("key " + std::to_string(i)) != nullptr ? 1 : 0;
  CHECK(kept > 0);
  CHECK(kept <= 16 * 4000 / sizeof(UnitFinding));
  CHECK(memory.find("key") == nullptr);
}
