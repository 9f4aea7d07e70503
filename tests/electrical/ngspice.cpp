// Ohms and volts of random buses with random faults and unplugged parts, against ngspice (Debian package), which gets
// them as decks written by other code. Agreement to 0.1 %.
#include <doctest/doctest.h>

#include <cmath>

#include "bench.hpp"
#include "spice.hpp"

namespace whichwire::test {
namespace {

/// Every value known exactly.
ElectricalValues exact_values() {
  ElectricalValues values = default_electrical_values();
  for (ElectricalValue& each : values.rows) each.value = exactly(each.value.nominal);
  return values;
}

constexpr std::array all_protocols{Protocol::can_hs,    Protocol::can_ft, Protocol::can_sw,     Protocol::j1850_vpw,
                                   Protocol::j1850_pwm, Protocol::k_line, Protocol::lin,        Protocol::j1708,
                                   Protocol::flexray,   Protocol::can_hs, Protocol::ethernet_t1};

std::vector<SpiceCase> cases(std::uint64_t seed, std::size_t count, const Situation& situation) {
  Dice dice(seed);
  std::vector<SpiceCase> all;
  for (std::size_t i = 0; i < count; ++i) {
    all.push_back(random_case(dice, all_protocols[i % all_protocols.size()]));
    all.back().situation.battery_connected = situation.battery_connected;
    all.back().situation.asleep = situation.asleep;
    all.back().situation.key = situation.key;
  }
  return all;
}

std::vector<std::string> names(std::size_t count) {
  std::vector<std::string> all;
  for (std::size_t i = 0; i < count; ++i) all.push_back("k" + std::to_string(i) + "z");
  return all;
}

std::vector<double> by_ngspice(const std::vector<SpiceCase>& all, const ElectricalValues& values,
                               double Interval::*limit, Mode mode) {
  std::vector<std::string> decks;
  const std::vector<std::string> prefixes = names(all.size());
  for (std::size_t i = 0; i < all.size(); ++i) decks.push_back(deck_of(all[i], values, limit, mode, prefixes[i]));
  return run_ngspice(decks, prefixes);
}

constexpr double most_ohms = 1e8;  // more is an open circuit to any meter

bool agree_ohms(double ours, double theirs) {
  if (ours > most_ohms || theirs > most_ohms) return ours > most_ohms * 0.9 && theirs > most_ohms * 0.9;
  return std::abs(ours - theirs) <= 1e-3 * std::abs(theirs) + 1e-5;
}

bool agree_volts(double ours, double theirs, double least = 1e-4) {
  return std::abs(ours - theirs) <= 1e-3 * std::abs(theirs) + least;
}

}  // namespace

TEST_CASE("ohms of 330 random buses are those of ngspice, nominal and at both limits") {
  const std::vector<SpiceCase> all = cases(1, 330, battery_off());
  const ElectricalValues& values = default_electrical_values();
  std::size_t open = 0;
  for (const auto limit : {&Interval::low, &Interval::nominal, &Interval::high}) {
    const std::vector<double> volts = by_ngspice(all, values, limit, Mode::ohms);
    for (std::size_t i = 0; i < all.size(); ++i) {
      CAPTURE(i);
      const Predicted shown =
          Electrical(all[i].network).ohms(all[i].faults, all[i].situation, all[i].red, all[i].black);
      REQUIRE(shown.value.has_value());
      const double ours = (*shown.value).*limit, theirs = volts[i] * 1e6;
      CHECK_MESSAGE(agree_ohms(ours, theirs), ours << " against " << theirs);
      open += theirs > most_ohms ? 1 : 0;
    }
  }
  MESSAGE(open << " of 990 readings are open circuits");
  CHECK(open < 700);
  CHECK(open > 50);
}

TEST_CASE("resting and sleeping volts of 330 random buses are those of ngspice") {
  const ElectricalValues values = exact_values();
  std::size_t lively = 0;
  for (const bool asleep : {false, true}) {
    Situation situation = awake();
    situation.asleep = asleep;
    std::vector<SpiceCase> all = cases(asleep ? 3 : 2, 330, situation);
    for (SpiceCase& each : all) each.situation.bus_load = exactly(0);
    const std::vector<double> theirs = by_ngspice(all, values, &Interval::nominal, Mode::volts);
    for (std::size_t i = 0; i < all.size(); ++i) {
      CAPTURE(i);
      SpiceCase quiet = all[i];
      std::erase_if(quiet.faults, [](const PresentFault& each) { return each.fault.kind == FaultKind::babbles; });
      const Predicted shown =
          Electrical(quiet.network, values).volts(quiet.faults, quiet.situation, quiet.red, quiet.black);
      REQUIRE(shown.value.has_value());
      CHECK_MESSAGE(agree_volts(shown.value->nominal, theirs[i]), shown.value->nominal << " against " << theirs[i]);
      lively += std::abs(theirs[i]) > 0.05 ? 1 : 0;
    }
  }
  MESSAGE(lively << " of 660 readings are above 0.05 V");
  CHECK(lively > 150);
}

TEST_CASE("volts of 330 random buses while each sender in turn drives are those of ngspice") {
  // Short wires without contacts, so that it does not matter which of the senders joined by whole wires it is.
  ElectricalValues values = exact_values();
  *row(values, "contact") = exactly(0);
  *row(values, "wire.length") = exactly(1e-6);
  *row(values, "bus.dominant") = exactly(1);
  std::vector<SpiceCase> all = cases(4, 330, awake());
  std::vector<std::string> decks, prefixes;
  std::vector<std::size_t> senders;
  for (std::size_t i = 0; i < all.size(); ++i) {
    all[i].situation.bus_load = exactly(1);
    for (Segment& segment : all[i].network.buses[0].segments) segment.length_m = segment.area_mm2 = std::nullopt;
    std::vector<std::size_t> modules = able(all[i]);
    senders.push_back(modules.size());
    if (modules.empty()) modules.push_back(nowhere);
    for (const std::size_t module : modules) {
      prefixes.push_back("k" + std::to_string(prefixes.size()) + "z");
      decks.push_back(deck_of(all[i], values, &Interval::nominal, Mode::volts, prefixes.back(), module));
    }
  }
  const std::vector<double> volts = run_ngspice(decks, prefixes);
  std::size_t next = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    CAPTURE(i);
    const std::size_t count = std::max<std::size_t>(senders[i], 1);
    double theirs = 0;
    for (std::size_t k = 0; k < count; ++k) theirs += volts[next++] / static_cast<double>(count);
    const Predicted shown =
        Electrical(all[i].network, values).volts(all[i].faults, all[i].situation, all[i].red, all[i].black);
    REQUIRE(shown.value.has_value());
    CHECK_MESSAGE(agree_volts(shown.value->nominal, theirs, 1e-3), shown.value->nominal << " against " << theirs);
  }
}

}  // namespace whichwire::test
