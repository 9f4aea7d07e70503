// What recurs: the tail against sums by hand, false alarms and power on simulated fleets, narrowing against the
// formula.
#include "fleet/recurring.hpp"

#include <cmath>
#include <map>

#include "differential/random_network.hpp"
#include "effort.hpp"
#include "fleet/numbers.hpp"
#include "fleet/units.hpp"

using namespace whichwire;
using test::Dice;

namespace {

/// A fleet of one network whose units are simulated: faults drawn by the rates' odds, scans as the faults show them.
class Yard {
 public:
  explicit Yard(const char* name) : network_(test::shipped(name)), effects_(network_), fleet_(test::fleet_of({name})) {
    const Build build(test::shipped(name), default_rates());
    const Groups groups = groups_of(build);
    for (const Fault& fault : build.faults) {
      // Present ones only: each of these takes a module off.
      if (fault.comes_and_goes || !groups.of_fault.contains(text_of(network_, fault))) continue;
      faults_.push_back(fault);
      all_odds_ += fault.odds;
    }
  }

  Fault draw(Dice& dice) const {
    double left = dice.fraction() * all_odds_;
    for (const Fault& fault : faults_) {
      left -= fault.odds;
      if (left < 0) return fault;
    }
    return faults_.back();
  }

  FleetRow row(const Fault& fault) {
    auto& text = texts_[text_of(network_, fault)];
    if (text.empty()) text = test::line_of(expected_scan(effects_, {&fault, 1}).scan);
    return fleet_.row_of(text, "unit " + std::to_string(count_++));
  }

  std::vector<FleetRow> by_chance(Dice& dice, std::size_t units) {
    std::vector<FleetRow> rows;
    for (std::size_t i = 0; i < units; ++i) rows.push_back(row(draw(dice)));
    return rows;
  }

  FleetReport report(std::vector<FleetRow> rows, bool independent = true) {
    return report_of(fleet_, std::move(rows), independent);
  }

  Fault fault(const char* words) const { return test::faults_from(network_, {words}).front(); }

 private:
  Network network_;
  Effects effects_;
  Fleet fleet_;
  std::vector<Fault> faults_;
  double all_odds_ = 0;
  std::map<std::string, std::string> texts_;
  std::size_t count_ = 0;
};

/// One for all tests: it remembers what its scans mean.
Yard& yard() {
  static Yard made("older-single-wire");
  return made;
}

double binomial_by_sum(int trials, double share, int count) {
  double tail = 0;
  for (int k = count; k <= trials; ++k)
    tail += std::exp(std::lgamma(trials + 1) - std::lgamma(k + 1) - std::lgamma(trials - k + 1) + k * std::log(share) +
                     (trials - k) * std::log1p(-share));
  return tail;
}

}  // namespace

TEST_CASE("the binomial tail is the sum of its terms at whole numbers, and falls between them") {
  for (const int trials : {1, 3, 20, 200}) {
    for (const double share : {0.001, 0.03, 0.4}) {
      for (const int count : {1, 2, 3, 7, 20}) {
        if (count > trials) continue;
        CAPTURE(trials);
        CAPTURE(count);
        const double sum = binomial_by_sum(trials, share, count);
        CHECK(binomial_tail(trials, share, count) == doctest::Approx(sum).epsilon(1e-9));
        CHECK(binomial_tail(trials, share, count - 0.5) >= binomial_tail(trials, share, count));
      }
    }
  }
  CHECK(binomial_tail(10, 0.1, 0) == 1);
  CHECK(binomial_tail(2, 0.1, 4) == 0);
}

TEST_CASE("shares of parts add up to all, and a class holds the parts that break the same modules off") {
  const Build build(test::shipped("compact-car"), default_rates());
  const Groups groups = groups_of(build);
  double parts = 0, states = 0;
  for (const Group& group : groups.all) {
    if (group.sort == Group::Sort::part) parts += group.share;
    if (group.sort == Group::Sort::state) states += group.share;
  }
  CHECK(parts == doctest::Approx(1));
  CHECK(states == doctest::Approx(1));
  const auto dead = groups.of_fault.at("dead ECM"), pin = groups.of_fault.at("open ECM/A-1");
  CHECK(dead[1] == pin[1]);
  CHECK(dead[0] == groups.part_group("ECM"));
  CHECK(groups.of_fault.at("dead ECM comes-and-goes")[0] == dead[0]);
  CHECK(groups.of_fault.at("dead ABS")[1] != dead[1]);
}

TEST_CASE("without anything that recurs at most about one fleet in a hundred gives a false alarm") {
  std::size_t alarms = 0;
  const std::size_t fleets = test::share_of(600);
  for (std::size_t seed = 1; seed <= fleets; ++seed) {
    Dice dice(seed);
    alarms += yard().report(yard().by_chance(dice, dice.between(3, 60))).recurring.empty() ? 0 : 1;
  }
  MESSAGE(alarms << " false alarms in " << fleets << " fleets");
  // 1 % is promised; more than this would come less than once in a thousand times (normal bound of the binomial).
  const double promised = fleet_number("by-chance") * static_cast<double>(fleets);
  CHECK(static_cast<double>(alarms) <= promised + 3.1 * std::sqrt(promised) + 1);
}

TEST_CASE("a part that fails in many units of a build is found, the more surely the more units have it") {
  std::map<std::size_t, double> found;
  for (const std::size_t units : {2U, 3U, 4U, 6U}) {
    const std::size_t fleets = test::share_of(200);
    std::size_t seen = 0;
    for (std::size_t seed = 1; seed <= fleets; ++seed) {
      Dice dice(1000 + seed);
      auto rows = yard().by_chance(dice, 20);
      for (std::size_t i = 0; i < units; ++i) rows.push_back(yard().row(yard().fault("open G202")));
      const auto recurring = yard().report(std::move(rows)).recurring;
      seen += std::ranges::any_of(
          recurring, [](const Recurring& one) { return std::ranges::find(one.parts, "G202") != one.parts.end(); });
    }
    found[units] = static_cast<double>(seen) / static_cast<double>(fleets);
    MESSAGE(units << " beside 20 faulty by chance: found in " << 100 * found[units] << " % of fleets");
  }
  CHECK(found[2] <= found[3]);
  CHECK(found[3] <= found[4]);
  CHECK(found[6] >= 0.95);
}

TEST_CASE("of several scans of one unit the last counts") {
  std::vector<FleetRow> rows;
  for (int i = 0; i < 8; ++i) {
    rows.push_back(yard().row(yard().fault("open G202")));
    rows.back().unit = "V-1";
  }
  const FleetReport report = yard().report(std::move(rows));
  CHECK(report.recurring.empty());
  CHECK(report.builds.front().scans == 8);
  CHECK(report.builds.front().units == 1);
}

TEST_CASE("what other units have makes it likelier in a unit that cannot tell, by the formula of gamma and Poisson") {
  const Build build(test::shipped("van-base"), default_rates());
  const Groups groups = groups_of(build);
  const std::string known = "open DRV-13 high", rival = "open DRV-12 high";
  UnitFinding finding;
  finding.fault = 0.9;
  finding.suspected = {{0.45, {known}}, {0.45, {rival}}};
  const Load own = load_of(groups, finding);
  CHECK(own.faults == doctest::Approx(0.9));
  Totals totals{std::vector<double>(groups.all.size(), 0), 10.9};
  const std::size_t state = groups.of_fault.at(known)[2], other = groups.of_fault.at(rival)[2];
  totals.units[state] = 4.45;  // four units where it is plain, and this one
  totals.units[other] = 0.45;
  const UnitFinding made = narrowed(build, groups, finding, own, totals);
  const double strength = fleet_number("strength");
  const double up = (strength + 4) / (strength + 10 * groups.all[state].share);
  const double down = strength / (strength + 10 * groups.all[other].share);
  const double whole = 0.45 * up + 0.45 * down + 0.1;
  CHECK(made.suspected[0].faults == std::vector<std::string>{known});
  CHECK(made.suspected[0].probability == doctest::Approx(0.45 * up / whole).epsilon(1e-5));
  CHECK(made.suspected[1].probability == doctest::Approx(0.45 * down / whole).epsilon(1e-5));
  CHECK(made.fault == doctest::Approx(1 - 0.1 / whole).epsilon(1e-5));
  CHECK(made.narrowed);
}

TEST_CASE("a unit alone is not moved by itself, and --independent moves none") {
  const auto alone = yard().report({yard().row(yard().fault("open G202"))}, false).rows.front().finding;
  const auto independent = yard().report({yard().row(yard().fault("open G202"))}, true).rows.front().finding;
  CHECK(!independent->narrowed);
  REQUIRE(alone->suspected.size() == independent->suspected.size());
  for (std::size_t i = 0; i < alone->suspected.size(); ++i)
    CHECK(alone->suspected[i].probability ==
          doctest::Approx(independent->suspected[i].probability).epsilon(1e-3).scale(0));
  CHECK(alone->verdict.parts == independent->verdict.parts);
}

TEST_CASE("rows come most urgent first, those with an error last") {
  UnitFinding refused;
  refused.error = "broken";
  std::vector<FleetRow> rows = {{"bad", "", std::make_shared<const UnitFinding>(refused)},
                                yard().row(yard().fault("dead RAD")),
                                yard().row(yard().fault("open G202"))};
  const FleetReport report = yard().report(std::move(rows));
  CHECK(report.rows[0].finding->silent.size() > 2);
  CHECK(report.rows[1].finding->silent == std::vector<std::string>{"RAD"});
  CHECK(report.rows[2].scan == "bad");
}
