// Whole jobs on the shipped networks, driven by the next check until nothing is next: is the repair that is called
// proven the right one, and are stated probabilities kept? WHICHWIRE_JOBS sets how many, on all networks.
#include <doctest/doctest.h>

#include <cstdlib>
#include <map>

#include "planner/simulated.hpp"

namespace whichwire::test {
namespace {

/// Few jobs on the smaller networks unless WHICHWIRE_JOBS says how many; then on all.
std::optional<std::size_t> wanted_cases() {
  const char* const wanted = std::getenv("WHICHWIRE_JOBS");
  return wanted == nullptr ? std::nullopt : std::optional<std::size_t>(std::atoi(wanted));
}

struct Tally {
  std::size_t jobs = 0, right = 0;
  double stated = 0, minutes = 0, checks = 0;
  void add(const JobDone& done) {
    ++jobs;
    right += done.right() ? 1 : 0;
    stated += done.last.decision.probability.low;
    minutes += done.minutes;
    checks += done.checks;
  }
};

}  // namespace

TEST_CASE("jobs worked with the next check end with the right repair as often as is stated") {
  constexpr std::size_t few = 4;
  std::vector<std::string> names = {"compact-car", "older-single-wire"};
  const auto wanted = wanted_cases();
  if (wanted) names.insert(names.end(), {"van-base", "ring-saloon", "tractor", "electric-car", "van-high"});
  std::vector<Network> networks;
  for (const std::string& name : names) {
    auto read = load_network(WHICHWIRE_SOURCE_DIR "/topologies/" + name + ".json");
    REQUIRE(read.network.has_value());
    networks.push_back(std::move(*read.network));
  }
  std::map<std::string, Tally> by_standing;
  Chance chance(20260302);
  for (std::size_t jobs = 0, drawn = 0; jobs < wanted.value_or(few); ++drawn) {
    const auto done = simulated_job(networks[drawn % networks.size()], chance);
    if (!done) continue;
    ++jobs;
    by_standing[std::string(word_for(done->last.decision.standing))].add(*done);
    if (done->last.decision.standing == Standing::proven && !done->right())
      MESSAGE(names[drawn % names.size()] << ": " << done->truth << " is broken; " << done->last.decision.sentence);
  }
  for (const auto& one : by_standing) {
    const Tally& tally = one.second;
    const auto jobs = static_cast<double>(tally.jobs);
    MESSAGE(one.first << ": " << tally.jobs << " jobs, right " << tally.right << ", stated " << tally.stated / jobs
                      << ", minutes " << tally.minutes / jobs << ", checks " << tally.checks / jobs);
  }
  const Tally& proven = by_standing["proven"];
  CHECK(proven.jobs > 0);
  CHECK(static_cast<double>(proven.right) >= 0.98 * static_cast<double>(proven.jobs));
}

}  // namespace whichwire::test
