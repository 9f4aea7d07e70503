// How readings speak for predictions. The orders below are common practice, no source; that they hold is computed.
#include <doctest/doctest.h>

#include <cmath>
#include <whichwire/reading.hpp>

namespace whichwire {
namespace {

Support ohms(double value, const Interval& predicted) {
  Reading reading;
  reading.kind = Reading::Kind::ohms;
  reading.value = value;
  return support_of(reading, predicted, Reading::Kind::ohms);
}

Support volts(double value, const Interval& predicted) {
  Reading reading;
  reading.kind = Reading::Kind::volts;
  reading.value = value;
  return support_of(reading, predicted, Reading::Kind::volts);
}

constexpr double open = INFINITY;
constexpr Interval two{56, 60, 64}, one{110, 119, 130}, three{37, 40, 43}, none{open, open, open};

}  // namespace

TEST_CASE("60, 120, 40 ohms and OL each speak most for their own number of terminators") {
  for (const auto& [value, its] :
       std::vector<std::pair<double, Interval>>{{60, two}, {120, one}, {40, three}, {open, none}}) {
    for (const Interval& other : {two, one, three, none}) {
      if (other == its) continue;
      CHECK(ohms(value, its).likelihood > 20 * ohms(value, other).likelihood);
    }
    CHECK(ohms(value, its).fitting > 0.9);
  }
}

TEST_CASE("support falls smoothly with distance from the limits, and never to nothing") {
  double before = ohms(64, two).likelihood;
  for (double value = 64.2; value < 90; value += 0.2) {
    const double now = ohms(value, two).likelihood;
    CHECK(now <= before * (1 + 1e-9));
    CHECK(now > before * 0.4);
    CHECK(now > 0);
    before = now;
  }
}

TEST_CASE("a reading that no prediction fits is doubtful under each") {
  for (const Interval& each : {two, one, three, none}) CHECK(ohms(9000, each).fitting < 0.01);
  CHECK(volts(7.5, {2.5, 2.65, 2.9}).fitting < 0.01);
  CHECK(volts(2.65, {2.5, 2.65, 2.9}).fitting > 0.95);
}

TEST_CASE("the likelihoods of all ohms and OL add up to one") {
  for (const Interval& each : {two, one, Interval{0, 0.3, 5}, Interval{250, 1500, open}, none}) {
    double sum = ohms(open, each).likelihood;
    const double end = std::asinh(4e7), step = 1e-3;
    for (double u = step / 2; u < end; u += step) sum += ohms(std::sinh(u), each).likelihood * step;
    CHECK(sum == doctest::Approx(1).epsilon(0.03));
  }
}

TEST_CASE("kilo-ohms to ground do not raise a short") {
  // Case of the trade: 14 kohm to ground taken for a short.
  const Interval inputs{250, 2500, open}, shorted{0, 0.3, 5};
  CHECK(ohms(14000, inputs).likelihood > 20 * ohms(14000, shorted).likelihood);
  CHECK(ohms(1, shorted).likelihood > 20 * ohms(1, inputs).likelihood);
}

TEST_CASE("leads that were not zeroed do not speak against a short or a good wire") {
  const Interval wire{0.02, 0.1, 0.4};
  CHECK(ohms(0.4, wire).fitting > 0.9);
  CHECK(ohms(240, wire).fitting < 0.01);
}

TEST_CASE("lamps: bright for a good path, dim with ohms in it, dark when open") {
  using Lamp = Reading::Lamp;
  const Interval good{11.8, 12.3, 12.6}, joint{2, 6, 9}, open_path{0, 0, 0};
  CHECK(lamp_support(Lamp::bright, good).likelihood > 0.9);
  CHECK(lamp_support(Lamp::dim, joint).likelihood > 0.6);
  CHECK(lamp_support(Lamp::dark, open_path).likelihood > 0.9);
  CHECK(lamp_support(Lamp::dark, good).likelihood < 0.01);
  for (const Interval& each : {good, joint, open_path}) {
    const double sum = lamp_support(Lamp::bright, each).likelihood + lamp_support(Lamp::dim, each).likelihood +
                       lamp_support(Lamp::dark, each).likelihood;
    CHECK(sum == doctest::Approx(1).epsilon(1e-9));
  }
}

}  // namespace whichwire
