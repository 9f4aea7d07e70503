// The trade's table of bus readings, from physics: nothing here compares a reading with a limit to classify it.
// Where no source is named: common practice, no source, or computed by Ohm's law beside the check.
#include <doctest/doctest.h>

#include <cmath>

#include "bench.hpp"

namespace whichwire::test {
namespace {

Bench quiet(std::size_t modules = 4) { return {trunk(modules), bare(), battery_off()}; }

/// One fault with its ohms.
std::vector<PresentFault> with_ohms(const Bench& bench, const char* words, double ohms) {
  std::vector<PresentFault> faults = bench.faults({words});
  faults.front().ohms = exactly(ohms);
  return faults;
}

bool near(const Interval& shown, double ohms) { return std::abs(shown.nominal - ohms) <= 0.005 * ohms; }

}  // namespace

TEST_CASE("two terminators read 60 ohms, one 120, three 40, four 30, five 24, none is open") {
  for (const auto& [count, ohms] :
       std::vector<std::pair<int, double>>{{0, INFINITY}, {1, 120}, {2, 60}, {3, 40}, {4, 30}, {5, 24}}) {
    Bench bench = quiet(5);
    auto& terminators = bench.built.network.buses[0].terminators;
    terminators.clear();
    for (int i = 1; i <= count; ++i) bench.built.terminator("B", "M" + std::to_string(i));
    const double shown = bench.pair({}).nominal;
    if (count == 0) {
      CHECK(shown > 1e9);
    } else {
      CHECK(shown == doctest::Approx(ohms).epsilon(1e-3));
    }
  }
}

TEST_CASE("an added terminator is the third: 40 ohms") {
  Bench bench = quiet();
  CHECK(near(bench.pair(bench.faults({"extra B"})), 40));
}

TEST_CASE("ohms in series in one wire lift 60 to 65, 70, 80, 100 and 110") {
  // Rx = 120 Rm / (120 - Rm) - 120: 22, 48, 120, 480 and about 1320 ohms (the trade rounds that to 1.2 kohm).
  Bench bench = quiet();
  for (const double shown : {65.0, 70.0, 80.0, 100.0, 110.0}) {
    const double series = 120 * shown / (120 - shown) - 120;
    std::vector<PresentFault> faults = with_ohms(bench, "open T3 high", series);
    CHECK(bench.pair(faults).nominal == doctest::Approx(shown).epsilon(1e-3));
  }
  CHECK(bench.pair(with_ohms(bench, "open T3 high", 22)).nominal == doctest::Approx(65).epsilon(2e-3));
  CHECK(bench.pair(with_ohms(bench, "open T3 low", 48)).nominal == doctest::Approx(70).epsilon(2e-3));
}

TEST_CASE("leakage between the wires lowers 60 to 54, 50 and 45") {
  // Rp = 60 Rm / (60 - Rm): 540, 300 and 180 ohms.
  Bench bench = quiet();
  for (const auto& [leak, shown] : std::vector<std::pair<double, double>>{{540, 54}, {300, 50}, {180, 45}}) {
    CHECK(bench.pair(with_ohms(bench, "short U2 other-line", leak)).nominal == doctest::Approx(shown).epsilon(1e-3));
  }
}

TEST_CASE("with both terminators in circuit an open wire reads 240 ohms end to end, a good one next to nothing") {
  Bench bench = quiet();
  CHECK(bench.ohms(bench.faults({"open T3 high"}), bench.high("M1"), bench.high("M4")).nominal ==
        doctest::Approx(240).epsilon(1e-3));
  CHECK(bench.ohms({}, bench.high("M1"), bench.high("M4")).nominal < 0.1);
  bench.situation.unplugged = {0, 3};
  CHECK(bench.ohms(bench.faults({"open T3 high"}), bench.high("M1"), bench.high("M4")).nominal > 1e9);
}

TEST_CASE("an open conductor in the trunk leaves one terminator on either side") {
  Bench bench = quiet();
  const auto faults = bench.faults({"open T3 low"});
  CHECK(near(bench.pair(faults, "DLC"), 120));
  CHECK(near(bench.pair(faults, "M4"), 120));
}

TEST_CASE("which terminator is lost shows by unplugging the one at the near end") {
  Bench bench = quiet();
  bench.situation.unplugged = {0};
  CHECK(bench.pair(bench.faults({"open T3 high"})).nominal > 1e9);  // the one that was seen
  CHECK(near(bench.pair({}), 120));
  CHECK(near(bench.pair(bench.faults({"missing M1 B"})), 120));  // the one that was lost before
}

TEST_CASE("a stub that is open cannot be seen at the connector, only in the module's own plug") {
  Bench bench = quiet();
  const auto faults = bench.faults({"open U2"});
  CHECK(near(bench.pair(faults), 60));
  bench.situation.unplugged = {1};
  CHECK(bench.pair(faults, "M2").nominal > 1e9);
  CHECK(near(bench.pair({}, "M2"), 60));
  CHECK(near(bench.pair(bench.faults({"open T3 high"}), "M2"), 120));
}

TEST_CASE("a terminator in an unplugged module is measured at the module's own pins") {
  Bench bench = quiet();
  bench.situation.unplugged = {3};
  CHECK(near(bench.ohms({}, own_line(0, Line::high, 3), own_line(0, Line::low, 3)), 120));
  CHECK(bench.ohms(bench.faults({"missing M4 B"}), own_line(0, Line::high, 3), own_line(0, Line::low, 3)).nominal >
        1e9);
}

TEST_CASE("a short between the wires reads a few ohms, and its half of a parted trunk as well") {
  Bench bench = quiet();
  for (const char* id : {"T1", "T2", "T3", "T4"}) {
    const std::string words = std::string("short ") + id + " other-line";
    CHECK(bench.pair(bench.faults({words.c_str()})).high < 10);
  }
  const auto faults = bench.faults({"short U4 other-line"});
  bench.situation.parted = {2};  // S3
  CHECK(near(bench.pair(faults), 120));
  const Terminal high = bench.high("S3", 6), low = bench.low("S3", 6);  // into T4
  CHECK(bench.ohms(faults, high, low).high < 10);
}

TEST_CASE("thousands of ohms from a bus wire to ground are the inputs of the modules") {
  // A case of the trade: 13 to 25 kohm were taken for a short. Ten modules by ISO 11898 (old), 5 to 50 kohm a line.
  Bench bench{trunk(10), default_electrical_values(), battery_off()};
  const Interval shown = bench.ohms({}, bench.high("DLC"), battery_negative());
  // At least: ten inputs of 5 kohm here, ten more on the other wire behind two terminators of 114 ohms.
  CHECK(shown.low == doctest::Approx(1 / (1 / 500.0 + 1 / (500.0 + 57))).epsilon(1e-3));
  CHECK(shown.nominal > 1000);
  CHECK(std::isinf(shown.high));
  CHECK(bench.ohms(bench.faults({"short U3 high ground"}), bench.high("DLC"), battery_negative()).high < 10);
  // The other wire is drawn down through the terminators: 60 ohms and the short.
  const Interval other = bench.ohms(bench.faults({"short U3 high ground"}), bench.low("DLC"), battery_negative());
  CHECK(other.nominal == doctest::Approx(60).epsilon(0.05));
}

TEST_CASE("the load of N nodes: ohms between the pair for one, two and three terminators") {
  // R = 1 / (k/120 + N/R_diff), from the input resistances of ISO 11898 and the terminators of 120 ohms.
  for (const double differential : {100e3, 30e3, 10e3}) {
    for (const std::size_t nodes : {std::size_t{10}, std::size_t{30}}) {
      Bench bench = quiet(nodes);
      *row(bench.values, "can-hs.off.ohms") = exactly(differential / 2);
      const auto expected = [&](double k) { return 1 / (k / 120 + static_cast<double>(nodes) / differential); };
      CHECK(bench.pair({}).nominal == doctest::Approx(expected(2)).epsilon(1e-3));
      CHECK(bench.pair(bench.faults({"missing M1 B"})).nominal == doctest::Approx(expected(1)).epsilon(1e-3));
      CHECK(bench.pair(bench.faults({"extra B"})).nominal == doctest::Approx(expected(3)).epsilon(1e-3));
    }
  }
}

TEST_CASE("the limits of one, two and three terminators with thirty nodes stay apart as computed") {
  // N = 30, R_diff 10 kohm to open, R_T 100 to 130: k = 3 30.3 to 43.3, k = 2 43.5 to 65, k = 1 76.9 to 130 ohms.
  Bench bench = quiet(30);
  *row(bench.values, "can-hs.off.ohms") = {5000, 25000, INFINITY};
  *row(bench.values, "terminator.share") = {100.0 / 120, 1, 130.0 / 120};
  *row(bench.values, "terminator.added") = {100, 120, 130};
  const auto within = [](const Interval& shown, double low, double high) {
    CHECK(shown.low == doctest::Approx(low).epsilon(2e-3));
    CHECK(shown.high == doctest::Approx(high).epsilon(2e-3));
  };
  within(bench.pair(bench.faults({"extra B"})), 30.3, 43.3);
  within(bench.pair({}), 43.5, 65);
  within(bench.pair(bench.faults({"missing M1 B"})), 76.9, 130);
}

TEST_CASE("split terminators read like single ones") {
  Bench bench = quiet();
  *row(bench.values, "terminator.split") = exactly(1);
  CHECK(near(bench.pair({}), 60));
}

TEST_CASE("an awake bus shows the two levels around the middle, their sum near 5 V") {
  // 2.6 to 2.8 and 2.2 to 2.4 V: common practice; a truck maker's bulletin: 2.6 and 2.3, each plus or minus 0.1 V.
  Bench bench{trunk(6), default_electrical_values(), awake()};
  const Interval high = bench.volts({}, bench.high("DLC")), low = bench.volts({}, bench.low("DLC"));
  CHECK(high.nominal == doctest::Approx(2.65).epsilon(0.04));
  CHECK(low.nominal == doctest::Approx(2.35).epsilon(0.04));
  CHECK(high.nominal + low.nominal == doctest::Approx(5).epsilon(0.01));
  CHECK(high.low < 2.5);
  CHECK(high.high < 3.8);
}

TEST_CASE("a silent bus that is awake rests in the middle, asleep it reads nothing") {
  Bench bench{trunk(6), default_electrical_values(), awake()};
  bench.situation.bus_load = exactly(0);
  CHECK(bench.volts({}, bench.high("DLC")).nominal == doctest::Approx(2.5).epsilon(2e-3));
  CHECK(std::abs(bench.volts({}, bench.high("DLC"), bench.low("DLC")).nominal) < 1e-6);
  bench.situation.asleep = true;
  const Interval asleep = bench.volts({}, bench.high("DLC"));
  CHECK(std::abs(asleep.nominal) < 1e-9);
  CHECK(asleep.high <= 0.1 + 1e-9);  // TI TCAN1042H and TCAN1044V: -0.1 to 0.1 V with the bias off
  CHECK(asleep.low >= -0.1 - 1e-9);
}

TEST_CASE("shorts pull both wires, each its own way") {
  Bench bench{trunk(6), default_electrical_values(), awake()};
  const auto both = [&](const char* words) {
    const auto faults = bench.faults({words});
    return std::pair(bench.volts(faults, bench.high("DLC")), bench.volts(faults, bench.low("DLC")));
  };
  const auto [h1, l1] = both("short U2 high ground");  // drags the other through 60 ohms
  CHECK(h1.high < 1);
  CHECK(l1.nominal < 0.3);
  const auto [h2, l2] = both("short U2 low supply");
  CHECK(h2.nominal > 11);
  CHECK(l2.low > 9);
  const auto [h3, l3] = both("short U2 low ground");  // high keeps its peaks
  CHECK(l3.high < 1);
  CHECK(h3.nominal > l3.nominal);
  CHECK(h3.nominal < 1.5);
  const auto [h4, l4] = both("short U2 other-line");
  CHECK(h4.nominal == doctest::Approx(l4.nominal).epsilon(0.02));
  CHECK(h4.nominal == doctest::Approx(2.5).epsilon(0.1));
}

TEST_CASE("a lifted ground moves both wires the same way") {
  Bench bench{trunk(2), default_electrical_values(), awake()};
  const double before = bench.volts({}, bench.high("DLC")).nominal;
  const double apart = bench.volts({}, bench.high("DLC"), bench.low("DLC")).nominal;
  bench.situation.lifted = {{0, exactly(1)}, {1, exactly(1)}};
  CHECK(bench.volts({}, bench.high("DLC")).nominal - before == doctest::Approx(1).epsilon(0.02));
  CHECK(bench.volts({}, bench.high("DLC"), bench.low("DLC")).nominal == doctest::Approx(apart).epsilon(0.02));
}

TEST_CASE("ohms on a bus under voltage are refused with the reason") {
  Bench bench{trunk(2), default_electrical_values(), awake()};
  const Electrical electrical(bench.built.network);
  CHECK_FALSE(electrical.ohms({}, bench.situation, bench.high("DLC"), bench.low("DLC")).value);
  bench.situation.asleep = true;
  CHECK(electrical.ohms({}, bench.situation, bench.high("DLC"), bench.low("DLC")).value);
  const auto fed = bench.faults({"short U2 high supply"});
  CHECK(electrical.ohms(fed, bench.situation, bench.high("DLC"), bench.low("DLC")).why.find("battery") !=
        std::string::npos);
}

}  // namespace whichwire::test
