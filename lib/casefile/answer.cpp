// See answer.hpp. A reading that says how it was taken is weighed as taken: without a lamp a feed shows volts through
// one strand, so that such a reading answers no check of the feed; nor does one in a key state in which nothing should
// be there: 0 V at an ignition feed with the key off is as it should be, and tells nothing of the feed. Tests:
// tests/casefile/state.cpp.
#include "casefile/answer.hpp"

#include <algorithm>

#include "casefile/check_at.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;

/// A number without a unit is of the mode's.
Kind kind_of(const Reading& reading, const std::string& mode) {
  if (mode == "volts-drop" && (reading.kind == Kind::number || reading.kind == Kind::volts)) return Kind::drop;
  if (reading.kind != Kind::number) return reading.kind;
  if (mode == "ohms") return Kind::ohms;
  if (mode == "amps") return Kind::amps;
  if (mode == "volts-ac") return Kind::volts_ac;
  return mode.starts_with("volts") ? Kind::volts : Kind::number;
}

void add_load(const Network& network, const std::string& name, Situation& situation) {
  for (std::size_t m = 0; m < network.modules.size(); ++m) {
    const auto& references = network.modules[m].references;
    for (std::size_t r = 0; r < references.size(); ++r) {
      const auto& loads = references[r].loads;
      const auto found = std::find(loads.begin(), loads.end(), name);
      if (found != loads.end()) situation.loads_off.push_back({m, r, static_cast<std::size_t>(found - loads.begin())});
    }
  }
}

void add_off(const Network& network, const OffNow& off, Situation& situation) {
  if (off.kind == WorkKind::fuse_out) {
    const std::size_t feed = index_of(network.feeds, off.what);
    if (feed != nowhere) situation.fuses_out.push_back(feed);
    return;
  }
  if (off.kind != WorkKind::unplug) return;
  const std::size_t module = index_of(network.modules, off.what), point = index_of(network.points, off.what);
  if (module != nowhere) return situation.unplugged.push_back(module);
  if (point != nowhere) return situation.parted.push_back(point);
  add_load(network, off.what, situation);
}

/// As the reading says it was taken, where it says so.
void put_stated(const CaseReading& stated, Situation& situation) {
  if (stated.key) {
    situation.key = *stated.key;
    situation.asleep = *stated.key == KeyState::off;
  }
  if (stated.awake) situation.asleep = !*stated.awake;
  if (stated.battery_connected) situation.battery_connected = *stated.battery_connected;
}

/// Volts at a supply pin that was not loaded.
bool unloaded(const CaseReading& reading, Kind kind) { return reading.mode == "volts" && kind == Kind::volts; }

bool live_at(const Network& network, const Terminal& at, KeyState key) {
  std::size_t feed = at.owner;
  if (at.kind == Terminal::Kind::power_pin) {
    const bool module = at.owner < network.modules.size();
    const auto& power = module ? network.modules[at.owner].power : network.diagnostic_connector.power;
    feed = at.item < power.size() ? power[at.item].feed : nowhere;
  } else if (at.kind != Terminal::Kind::feed_in && at.kind != Terminal::Kind::feed_out) {
    return true;
  }
  return feed == nowhere || network.feeds[feed].live[static_cast<std::size_t>(key)];
}

/// Nothing is there to be measured in this key state, whether or not something is broken.
bool dead_by_key(const Network& network, const std::string& check, const Measurement& how) {
  const KeyState key = how.situation.key;
  const bool awake = key == KeyState::run || key == KeyState::start;
  for (const char* needs_key : {"reference:", "load:", "loads:", "volts:"})
    if (check.starts_with(needs_key) && !awake) return true;
  return std::any_of(how.probes.begin(), how.probes.end(),
                     [&](const auto& probes) { return !live_at(network, probes[0], key); });
}

}  // namespace

Situation situation_at(const Case& job, std::size_t entry) {
  Situation situation;
  for (const OffNow& off : ledger_of(job, entry)) add_off(job.start().network, off, situation);
  return situation;
}

Taken taken_from(const Case& job, std::size_t entry, const Planner& planner) {
  const auto& made = std::get<CaseReading>(job.entries[entry - 1].contents);
  Taken taken{std::to_string(entry), made.check, {}, {}, made.outcome};
  if (!made.outcome.empty()) return taken;
  taken.reading = read_reading(made.reading).reading.value_or(Reading{});
  taken.reading.kind = kind_of(taken.reading, made.mode);
  const Situation then = situation_at(job, entry);
  if (taken.check.empty()) taken.check = check_at(job.start().network, made, taken.reading.kind, then);
  taken.measurement = planner.measurement_of(taken.check, then);
  if (!taken.measurement) return taken;
  put_stated(made, taken.measurement->situation);
  if (unloaded(made, taken.reading.kind) && taken.measurement->situation.load) {
    taken.measurement->situation.load.reset();
    taken.check.clear();
  }
  if (dead_by_key(job.start().network, taken.check, *taken.measurement)) taken.check.clear();
  return taken;
}

}  // namespace whichwire
