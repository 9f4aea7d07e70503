// Whole jobs on the shipped networks, each driven by the next check until nothing is next. WHICHWIRE_JOBS sets how
// many, on all shipped networks in turn, from WHICHWIRE_FIRST_JOB on; without it a few on the small ones, and so with
// WHICHWIRE_JOBS_SMALL. A single one is printed check by check. What the words mean here:
//
// A job's vehicle has one fault, one vehicle in ten two, drawn by the odds of the catalogue, those that come and go
// among them. Its scan falls by the shares of likelihood.csv, its readings by those of meter.csv and checks.csv: so
// what is tested is the reasoning, not whether these tables are true of vehicles. A vehicle of which nothing is seen is
// not brought in and drawn anew.
//
// `right`: the repair called proven is one that the vehicle needs; of two the other shows on the next scan. `narrowed`:
// no check is left that tells the last repairs apart, they are named and with them at least 95 %, and one of them is
// the right one, as the wires that meet in one splice. `set aside`: what is suspected is only for trained people.
// Faults that come and go are counted by themselves: most were not there while one measured, and then end so, or as
// nothing where they left no more than noise does.
#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <iomanip>
#include <map>

#include "effort.hpp"
#include "planner/simulated.hpp"
#include "shipped.hpp"

namespace whichwire::test {
namespace {

std::optional<std::size_t> number_in(const char* variable) {
  const char* const wanted = std::getenv(variable);
  return wanted == nullptr ? std::nullopt : std::optional<std::size_t>(std::strtoull(wanted, nullptr, 10));
}

bool narrowed(const JobDone& done) {
  const NextCheck& next = done.last().next;
  if (next.why != NextCheck::Why::nothing_separates) return false;
  double sum = 0;
  bool right = false;
  for (const Repair& repair : done.last().repairs) {
    if (std::ranges::find(next.together, repair.what) == next.together.end()) continue;
    sum += repair.probability.low;
    right = right || done.needed.contains(repair.what);
  }
  return right && sum >= 0.95;
}

std::string ending_of(const JobDone& done) {
  const Standing standing = done.last().decision.standing;
  if (standing == Standing::proven) return done.right() ? "proven, right" : "proven, wrong";
  if (standing == Standing::refer) return "set aside";
  const bool open = standing == Standing::probable || standing == Standing::cannot_condemn;
  if (open && narrowed(done)) return "narrowed";
  return std::string(word_for(standing));
}

bool comes_and_goes(const JobDone& done) {
  return std::ranges::all_of(done.vehicle.faults, [](const Fault& fault) { return fault.comes_and_goes; });
}

/// What was stated, and how often it was so.
struct Bin {
  double jobs = 0, stated = 0, right = 0;
  void add(double probability, bool was_right) {
    ++jobs;
    stated += probability;
    right += was_right ? 1 : 0;
  }
  /// Chance of being wrong at least as often, if what is stated were true: a tail of the binomial distribution.
  double as_wrong() const {
    const double wrong = jobs - right, p = 1 - stated / jobs;
    double tail = 1;
    for (double k = 0; k < wrong; ++k) {
      const double ways = std::lgamma(jobs + 1) - std::lgamma(k + 1) - std::lgamma(jobs - k + 1);
      tail -= std::exp(ways + k * std::log(std::max(p, 1e-12)) + (jobs - k) * std::log1p(-p));
    }
    return tail;
  }
};

using Bins = std::map<double, Bin>;  ///< by lower end

void enter(Bins& bins, double probability, bool right) {
  constexpr double ends[] = {0.99, 0.98, 0.95, 0.9, 0.8, 0.7, 0.5, 0.3, 0.1, 0};
  for (const double end : ends) {
    if (probability >= end) return bins[end].add(probability, right);
  }
}

std::string table_of(const Bins& bins) {
  std::ostringstream text;
  text << std::fixed << std::setprecision(3);
  for (const auto& each : bins) {
    text << "\n  from " << each.first << ": " << std::setw(5) << static_cast<int>(each.second.jobs) << " times, stated "
         << each.second.stated / each.second.jobs << ", right " << each.second.right / each.second.jobs;
  }
  return text.str();
}

struct Shop {
  std::map<std::string, int> there, passing;  ///< by ending
  Bins proven, leading;                       ///< at the end; before every check, the likeliest repair
  double jobs = 0, minutes = 0, checks = 0;

  void enter_job(const JobDone& done) {
    const Decision& decision = done.last().decision;
    ++(comes_and_goes(done) ? passing : there)[ending_of(done)];
    if (decision.standing == Standing::proven) {
      enter(proven, decision.probability.low, done.right());
      ++jobs;
      minutes += done.minutes();
      checks += static_cast<double>(done.steps.size());
    }
    for (const StepDone& step : done.steps) {
      if (step.after.repairs.empty()) continue;
      const Repair& lead = step.after.repairs.front();
      enter(leading, lead.probability.low, done.needed.contains(lead.what));
    }
  }
};

/// One job, check by check, with the likeliest repairs after each.
std::string course_of(const JobDone& done) {
  std::ostringstream text;
  text << std::setprecision(3);
  const auto add = [&](const Assessment& after) {
    for (std::size_t r = 0; r < std::min<std::size_t>(after.repairs.size(), 4); ++r) {
      text << "\n      " << after.repairs[r].probability.low << " '" << after.repairs[r].what << "' "
           << after.repairs[r].faults.front();
    }
    text << "\n      outside " << after.outside << ", " << word_for(after.decision.standing);
    for (const std::string& missing : after.decision.missing) text << "\n      missing: " << missing;
  };
  add(done.at_first);
  for (const StepDone& step : done.steps) {
    text << "\n  " << step.check << " -> " << step.said;
    add(step.after);
  }
  return text.str();
}

std::string told(const std::map<std::string, int>& endings) {
  std::ostringstream text;
  for (const auto& each : endings) text << "\n  " << each.first << ": " << each.second;
  return text.str();
}

}  // namespace

TEST_CASE("jobs worked with the next check end with the right repair, as often as is stated" *
          doctest::skip(only_few())) {
  std::vector<std::string> names = {"template-one-bus", "template-gateway", "older-single-wire"};
  const auto wanted = number_in("WHICHWIRE_JOBS");
  if (wanted && std::getenv("WHICHWIRE_JOBS_SMALL") == nullptr) names = shipped_names();
  std::vector<Network> networks;
  for (const std::string& name : names) networks.push_back(shipped(name));
  std::vector<Effects> effects;
  effects.reserve(networks.size());
  for (const Network& network : networks) effects.emplace_back(network);
  Shop shop;
  const std::size_t first = number_in("WHICHWIRE_FIRST_JOB").value_or(0);
  for (std::size_t job = first; job < first + wanted.value_or(share_of(24)); ++job) {
    const std::size_t on = job % names.size();
    Dice dice(static_cast<std::uint32_t>(20260302 + job));
    std::optional<SimulatedVehicle> vehicle;
    while (!vehicle) vehicle = simulated_vehicle(effects[on], dice);
    const JobDone done = simulated_job(effects[on], std::move(*vehicle), dice);
    shop.enter_job(done);
    if (!wanted) continue;
    const Decision& decision = done.last().decision;
    std::string faults;
    for (const Fault& fault : done.vehicle.faults) faults += text_of(networks[on], fault) + "; ";
    MESSAGE("job " << job << " on " << names[on] << ": " << faults << ending_of(done) << " '" << decision.repair << "' "
                   << decision.probability.low << ", " << done.steps.size() << " checks, " << done.minutes()
                   << " minutes, outside " << done.last().outside << (wanted == 1U ? course_of(done) : ""));
  }
  MESSAGE("faults that are there:" << told(shop.there));
  MESSAGE("faults that come and go:" << told(shop.passing));
  MESSAGE("where proven: minutes " << shop.minutes / shop.jobs << ", checks " << shop.checks / shop.jobs);
  MESSAGE("called proven:" << table_of(shop.proven));
  MESSAGE("the likeliest repair after every check:" << table_of(shop.leading));
  double right = 0;
  for (const auto& each : shop.proven) {
    right += each.second.right;
    CHECK(each.second.as_wrong() > 0.01);
  }
  CHECK(shop.jobs > 0);
  CHECK(right >= 0.98 * shop.jobs);
}

}  // namespace whichwire::test
