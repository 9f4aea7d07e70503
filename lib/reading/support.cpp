// How likely a reading is where the prediction lies within limits.
//
// The true value is near its usual one in some share of vehicles and anywhere within the limits in the rest; the meter
// adds its own spread, the limits are soft by a share of their width; and a small share of readings is a slip of the
// probe that could be anything. All three are smooth, so that no reading is ever right on one side of a number and
// wrong on the other. Ohms are weighed on a scale that is even near zero and logarithmic above an ohm, where tolerances
// are shares; volts and amperes as they are. OL has a probability of its own. Source of the numbers: meter.csv. Tests:
// tests/reading/support.cpp.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <whichwire/reading.hpp>

#include "reading/tables.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;

double cumulative(double x) { return std::erfc(-x / std::numbers::sqrt2) / 2; }
double bell(double x, double spread) {
  return std::exp(-x * x / (2 * spread * spread)) / (spread * std::sqrt(2 * std::numbers::pi));
}

/// One kind of value: its scale, the meter's spread on it, and how wide a slip may land.
struct Scale {
  bool ohms = false;
  double share = 0, digits = 0, span = 0;

  double of(double value) const { return ohms ? std::asinh(value) : value; }
  /// The meter's standard deviation at a value, on the scale. Accuracy limits are taken as two of them.
  double spread(double value) const {
    const double limit = std::abs(value) * share + digits;
    return limit / 2 / (ohms ? std::sqrt(value * value + 1) : 1);
  }
};

Scale scale_of(Kind kind) {
  if (kind == Kind::ohms) {
    return {true, meter_value("ohms-share"), meter_value("ohms-digits"), std::asinh(meter_value("ohms-range"))};
  }
  constexpr double volts_span = 30, amps_span = 100;  // from well below zero to a 24 V system when charging
  if (kind == Kind::amps) return {false, meter_value("amps-share"), meter_value("amps-digits"), amps_span};
  return {false, meter_value("volts-share"), meter_value("volts-digits"), volts_span};
}

/// Density of a value that lies evenly between two limits and is read with this spread.
double even(double x, double low, double high, double spread) {
  if (high - low < spread / 10) return bell(x - (low + high) / 2, spread);
  return (cumulative((x - low) / spread) - cumulative((x - high) / spread)) / (high - low);
}

/// Density of a value near the middle, spread to each side by its share of the way to the limit.
double around(double x, double low, double middle, double high, double spread) {
  const double share = meter_value("nominal-spread");
  const double left = std::hypot((middle - low) * share, spread), right = std::hypot((high - middle) * share, spread);
  const double here = x < middle ? left : right;
  return std::exp(-(x - middle) * (x - middle) / (2 * here * here)) * 2 /
         ((left + right) * std::sqrt(2 * std::numbers::pi));
}

double own_density(const Scale& scale, double value, const Interval& limits) {
  const double x = scale.of(value), spread = scale.spread(value);
  const double low = scale.of(limits.low), middle = scale.of(limits.nominal), high = scale.of(limits.high);
  const double near = meter_value("near-nominal");
  const double edge = std::hypot(spread, meter_value("limit-softness") * (high - low));
  return near * around(x, low, middle, high, spread) + (1 - near) * even(x, low, high, edge);
}

Support mixed(double own, double slip_density) {
  const double slip = meter_value("slip");
  const double likelihood = (1 - slip) * own + slip * slip_density;
  return {likelihood, likelihood > 0 ? (1 - slip) * own / likelihood : 0};
}

/// Share of the predictions that a meter shows as OL.
double open_share(const Interval& ohms) {
  const double range = std::log(meter_value("ohms-range"));
  // Softly over a factor of two around the end of the range.
  const auto beyond = [&](double value) {
    return std::isinf(value) ? 1 : cumulative((std::log1p(value) - range) / 0.35);
  };
  if (std::isinf(ohms.high) && !std::isinf(ohms.nominal)) {
    return std::max(meter_value("open-possible"), beyond(ohms.nominal));
  }
  return beyond(ohms.nominal);
}

/// The limits as far as a meter shows them, with what leads may add.
Interval shown(const Interval& ohms) {
  const double range = meter_value("ohms-range"), leads = meter_value("ohms-leads");
  const auto cut = [&](double value) { return std::min(value, range); };
  return {cut(ohms.low), cut(ohms.nominal), cut(ohms.high) + leads};
}

}  // namespace

Support support_of(const Reading& reading, const Interval& predicted, Kind kind) {
  const Scale scale = scale_of(kind == Kind::number ? Kind::volts : kind);
  if (kind != Kind::ohms) return mixed(own_density(scale, reading.value, predicted), 1 / scale.span);
  const double open = open_share(predicted), slip_open = meter_value("slip-open");
  if (std::isinf(reading.value) || reading.value > meter_value("ohms-range")) return mixed(open, slip_open);
  return mixed((1 - open) * own_density(scale, reading.value, shown(predicted)), (1 - slip_open) / scale.span);
}

Support lamp_support(Reading::Lamp lamp, const Interval& volts) {
  constexpr double rated = 12;
  const double soft = meter_value("lamp-softness");
  const auto above = [&](double share, const char* what) { return cumulative((share - meter_value(what)) / soft); };
  const auto called = [&](double across) {
    const double share = std::abs(across) / rated;
    const double bright = above(share, "lamp-bright"), lit = above(share, "lamp-dark");
    return lamp == Reading::Lamp::bright ? bright : lamp == Reading::Lamp::dim ? lit - bright : 1 - lit;
  };
  constexpr int steps = 20;
  double within = 0;
  for (int i = 0; i < steps; ++i) within += called(volts.low + (volts.high - volts.low) * (i + 0.5) / steps) / steps;
  const double near = meter_value("near-nominal");
  constexpr double words = 3;
  return mixed(near * called(volts.nominal) + (1 - near) * within, 1 / words);
}

}  // namespace whichwire
