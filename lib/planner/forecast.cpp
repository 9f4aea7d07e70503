// See forecast.hpp. Ranges are cut half way between values that differ by more than a meter and its leads do; a value
// with limits falls into them by points along its limits. Tests: tests/planner/trade_rules.cpp.
#include "planner/forecast.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planner/numbers.hpp"
#include "planner/predicted.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;

constexpr double slip = 0.02;  // of planning alone; readings are weighed by lib/reading
constexpr double most_ohms = 4e7;

double scale(double value, Kind kind) {
  return kind == Kind::ohms ? std::asinh(std::min(value, 2 * most_ohms)) : value;
}

/// Values this close on the scale are not told apart.
double closest(Kind kind) { return kind == Kind::ohms ? 0.12 : 0.2; }

/// Points that stand for a value within limits: half of them its usual one.
std::vector<double> points_of(const Interval& value, Kind kind) {
  constexpr int between = 6;
  std::vector<double> points;
  const double low = scale(value.low, kind), high = scale(value.high, kind);
  for (int i = 0; i < between; ++i) {
    points.push_back(scale(value.nominal, kind));
    points.push_back(low + (high - low) * (i + 0.5) / between);
  }
  return points;
}

/// Where the ranges are cut: in the widest gaps between usual values.
std::vector<double> cuts(std::vector<double> usual, double least_gap, std::size_t most_cells) {
  std::sort(usual.begin(), usual.end());
  std::vector<std::pair<double, double>> gaps;  // width, middle
  for (std::size_t i = 1; i < usual.size(); ++i) {
    const double gap = usual[i] - usual[i - 1];
    if (gap > least_gap) gaps.emplace_back(gap, usual[i - 1] + gap / 2);
  }
  std::stable_sort(gaps.begin(), gaps.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  gaps.resize(std::min(gaps.size(), most_cells - 1));
  std::vector<double> middles;
  middles.reserve(gaps.size());
  for (const auto& gap : gaps) middles.push_back(gap.second);
  std::sort(middles.begin(), middles.end());
  return middles;
}

void settle(std::vector<double>& row) {
  double sum = 0;
  for (const double chance : row) sum += chance;
  for (double& chance : row) {
    chance = (1 - slip) * chance / sum + slip / static_cast<double>(row.size());
  }
}

/// The one outcome whose range holds the value; where two hold it, as at a fuse with two contacts, none is meant.
std::optional<std::size_t> outcome_in_range(const Check& check, double value) {
  constexpr double far = std::numeric_limits<double>::infinity();
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < check.expect.size(); ++i) {
    const Expectation& expect = check.expect[i];
    if (!expect.low && !expect.high) continue;
    if (value < expect.low.value_or(-far) || value > expect.high.value_or(far)) continue;
    const bool same = found && expect.low == check.expect[*found].low && expect.high == check.expect[*found].high;
    if (same) return std::nullopt;
    if (!found) found = i;
  }
  return found;
}

}  // namespace

Says ReadingForecast::of_reading(const Measurement& how, const Reading& reading) const {
  const Kind kind = reading.kind == Kind::number ? how.kind : reading.kind;
  Predictions predictions(meter_, how, kind);
  const auto say = [&](const Interval& predicted) {
    const Support support =
        kind == Kind::lamp ? lamp_support(reading.lamp, predicted) : support_of(reading, predicted, kind);
    return Say{support.likelihood, support.fitting};
  };
  Says says;
  const std::optional<Interval> whole = predictions.of({});
  if (!whole) return says;
  says.understood = true;
  says.whole = say(*whole);
  const auto own_of = [](const Say& each) { return each.likelihood * each.fitting; };
  for (const Suspect& suspect : suspects_.all) {
    double likelihood = 0, own = 0;
    for (const Variant& variant : suspect.variants) {
      const Say each = say(predictions.of(variant.faults).value_or(*whole));
      likelihood += variant.share * each.likelihood;
      own += variant.share * own_of(each);
    }
    says.by_suspect.push_back({likelihood, likelihood > 0 ? own / likelihood : 0});
    says.anything = std::max(says.anything, likelihood);
  }
  const double by_slip = says.whole.likelihood - own_of(says.whole);
  says.anything = std::max(says.anything, by_slip / slip);
  return says;
}

Says ReadingForecast::of_outcome(const Candidate& candidate, std::size_t outcome) const {
  Says says;
  says.understood = true;
  constexpr double expected = 0.08;  // below that an outcome is not what the suspect says
  const auto say = [&](const Hypothesis& set) {
    const double chance = chances_of(candidate, set)[outcome];
    return Say{chance, chance > expected ? 1.0 : 0.0};
  };
  says.whole = say({});
  for (const Suspect& suspect : suspects_.all) {
    says.by_suspect.push_back(say(suspect.set));
    says.anything = std::max(says.anything, says.by_suspect.back().likelihood);
  }
  return says;
}

std::optional<Interval> ReadingForecast::if_good(const Measurement& how) const {
  return Predictions(meter_, how, how.kind).of({});
}

std::vector<std::vector<double>> ReadingForecast::chances(const Prospect& prospect, const Situation& now) const {
  if (prospect.measurement) {
    const Measurement how = with_off(*prospect.measurement, now);
    return how.kind == Kind::lamp ? lamp_chances(how) : cell_chances(how);
  }
  std::vector<std::vector<double>> rows;
  for (const Suspect& suspect : suspects_.all) rows.push_back(chances_of(prospect.candidate, suspect.set));
  return rows;
}

std::vector<std::vector<double>> ReadingForecast::lamp_chances(const Measurement& how) const {
  Predictions predictions(meter_, how, Kind::lamp);
  const std::optional<Interval> whole = predictions.of({});
  if (!whole) return {};
  std::vector<std::vector<double>> rows;
  for (const Suspect& suspect : suspects_.all) {
    std::vector<double>& row = rows.emplace_back(3);
    for (const Variant& variant : suspect.variants) {
      const Interval volts = predictions.of(variant.faults).value_or(*whole);
      for (std::size_t i = 0; i < 3; ++i) {
        row[i] += variant.share * lamp_support(static_cast<Reading::Lamp>(i), volts).likelihood;
      }
    }
    settle(row);
  }
  return rows;
}

std::vector<std::vector<double>> ReadingForecast::cell_chances(const Measurement& how) const {
  Predictions predictions(meter_, how, how.kind);
  const std::optional<Interval> whole = predictions.of({});
  if (!whole) return {};
  std::vector<double> usual = {scale(whole->nominal, how.kind)};
  for (const Suspect& suspect : suspects_.all) {
    for (const Variant& variant : suspect.variants) {
      usual.push_back(scale(predictions.of(variant.faults).value_or(*whole).nominal, how.kind));
    }
  }
  const auto most = static_cast<std::size_t>(number_of(numbers_, "most-cells"));
  const std::vector<double> edges = cuts(std::move(usual), closest(how.kind), most);
  if (edges.empty()) return {};
  std::vector<std::vector<double>> rows;
  for (const Suspect& suspect : suspects_.all) {
    std::vector<double>& row = rows.emplace_back(edges.size() + 1);
    for (const Variant& variant : suspect.variants) {
      for (const double point : points_of(predictions.of(variant.faults).value_or(*whole), how.kind)) {
        row[static_cast<std::size_t>(std::upper_bound(edges.begin(), edges.end(), point) - edges.begin())] +=
            variant.share;
      }
    }
    settle(row);
  }
  return rows;
}

std::optional<std::size_t> outcome_called(const Candidate& candidate, std::string_view words) {
  for (std::size_t i = 0; i < candidate.outcomes.size(); ++i) {
    if (candidate.outcomes[i] == words || candidate.check.expect[i].outcome == words) return i;
  }
  return std::nullopt;
}

std::optional<std::size_t> outcome_of(const Candidate& candidate, const Reading& reading) {
  const std::size_t last = candidate.outcomes.size() - 1;
  switch (reading.kind) {
    case Kind::seen:
      return reading.seen == Reading::Seen::nothing ? 0 : 1;
    case Kind::light:
      return reading.yes ? 0 : 1;
    case Kind::wiggle:
      return reading.yes ? 1 : 0;
    case Kind::lamp:
      if (candidate.check.expect.front().outcome == "dark") return reading.lamp == Reading::Lamp::dark ? 0 : last;
      return reading.lamp == Reading::Lamp::bright ? 0
             : reading.lamp == Reading::Lamp::dim  ? std::min<std::size_t>(1, last)
                                                   : last;
    default:
      return outcome_in_range(candidate.check, reading.value);
  }
}

}  // namespace whichwire
