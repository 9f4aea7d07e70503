// See evidence.hpp. Tests: tests/planner/evidence.cpp.
#include "planner/evidence.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "planner/numbers.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;

/// Where a wrong answer was a slip of the hand rather than something that cannot be seen so, as in a look.
bool may_slip(const Check& check, const Taken& taken) {
  const bool looked = taken.outcome.empty() && taken.reading.kind == Kind::seen;
  return check.mode != "look" && check.mode != "ask" && !looked;
}

bool of_meter(Kind kind) {
  return kind == Kind::number || kind == Kind::ohms || kind == Kind::volts || kind == Kind::drop || kind == Kind::lamp;
}

double entropy(const Suspects& suspects) {
  double bits = 0;
  for (const double weight : by_repair(suspects)) bits -= weight > 0 ? weight * std::log2(weight) : 0;
  return bits;
}

void scale_to_one(Suspects& suspects) {
  double sum = 0;
  for (const Suspect& suspect : suspects.all) sum += suspect.weight;
  if (sum <= 0) return;
  for (Suspect& suspect : suspects.all) suspect.weight /= sum;
  suspects.outside /= sum;
}

/// Probability at the least that each repair is needed.
std::vector<double> shares(const Suspects& suspects) {
  std::vector<double> all = by_need(suspects);
  for (double& share : all) share /= 1 + suspects.outside;
  return all;
}

Shift largest(const std::vector<std::string>& repairs, const std::vector<double>& before,
              const std::vector<double>& after) {
  Shift most;
  for (std::size_t r = 0; r < repairs.size(); ++r) {
    if (std::abs(after[r] - before[r]) > std::abs(most.after - most.before)) most = {repairs[r], before[r], after[r]};
  }
  return most;
}

/// `slips`: the first answer may have been a slip of the hand. A look or a question errs the same way again, so the
/// same answer once more tells nothing.
void repeat(Says& says, bool slips, const PlannerNumbers& numbers) {
  const auto again = [&](Say& say) { say.likelihood = slips ? once_more(say.fitting, numbers) : 1; };
  std::for_each(says.by_suspect.begin(), says.by_suspect.end(), again);
  again(says.whole);
  says.anything = 1;
}

class Scales {
 public:
  Scales(const Bench& bench, Ranked ranked, const std::vector<Taken>& taken, const Situation& now)
      : bench_(bench), taken_(taken), now_(now), ranked_(std::move(ranked.answers)) {
    made_.suspects = std::move(ranked.suspects);
  }

  Weighing make() {
    if (!ranked_.empty()) outside_ = std::exchange(made_.suspects.outside, 0);
    for (const Suspect& suspect : made_.suspects.all) listed_ += suspect.weight;
    scale_to_one(made_.suspects);
    made_.at_first = shares(made_.suspects);
    for (std::size_t i = 0; i < taken_.size(); ++i) add(i);
    choose_repairs(made_.suspects);
    return std::move(made_);
  }

 private:
  void add(std::size_t i) {
    const Taken& taken = taken_[i];
    Answered answered{taken.check, taken.id, {}, {}, false, taken.outcome == not_done, {}};
    std::optional<std::size_t> outcome;
    Says says = say_about(bench_, made_.suspects, taken, now_, false, outcome);
    answered.outcome = outcome;
    answered.weighed.understood = says.understood;
    if (says.understood) {
      const std::size_t before = alike_before(i);
      const bool confirmed = answered_later(i, true);
      answered.weighed.contradicted = answered_later(i, false);
      answered.repeats = before != nowhere && made_.answers[before].weighed.counted;
      const bool surprises = predicted(says) < number_of(bench_.numbers, "least-predicted");
      answered.weighed.doubtful = surprises && !told_anew(taken.check);
      // Of two that differ one was a slip, or the fault comes and goes; which it is the others tell: so both count.
      bool counts = !answered.weighed.doubtful || confirmed || answered.repeats;
      if (within_ranked(i)) counts = std::binary_search(ranked_.begin(), ranked_.end(), i);
      note_slips(taken, says, answered);
      answered.weighed.good = good(taken, says, answered);
      answered.weighed.means = means(taken, answered);
      if (counts) count(says, answered.weighed);
    }
    if (within_ranked(i) && i == ranked_.back()) made_.suspects.outside = outside_ / listed_;
    made_.answers.push_back(std::move(answered));
  }

  bool within_ranked(std::size_t i) const { return !ranked_.empty() && i <= ranked_.back(); }

  /// What a slip of the hand accounted for is unlikely to come out again; an answer that repeats one tells just that.
  void note_slips(const Taken& taken, Says& says, Answered& answered) const {
    const Prospect* prospect = bench_.find(answered.check);
    if (prospect == nullptr || told_anew(answered.check)) return;
    const bool slips = may_slip(prospect->candidate.check, taken);
    if (slips) {
      for (const Say& say : says.by_suspect) answered.fitting.push_back(say.fitting);
    }
    if (answered.repeats) repeat(says, slips, bench_.numbers);
  }

  /// Weight of what predicts the answer, rather than leaving it to a slip of the probe.
  double predicted(const Says& says) const {
    constexpr double rather = 0.5;
    double sum = 0;
    for (std::size_t h = 0; h < says.by_suspect.size(); ++h) {
      if (says.by_suspect[h].fitting >= rather) sum += made_.suspects.all[h].weight;
    }
    return sum;
  }

  bool good(const Taken& taken, const Says& says, const Answered& answered) const {
    if (answered.outcome) return *answered.outcome == 0;
    if (says.whole.fitting >= 0.5) return true;
    const Prospect* prospect = bench_.find(taken.check);
    if (prospect == nullptr || taken.reading.kind == Kind::lamp || taken.reading.kind == Kind::ohms) return false;
    const bool feed = taken.check.starts_with("feed:");
    if (taken.reading.kind == Kind::drop && feed) {
      return taken.reading.value <= number_of(bench_.numbers, "feed-drop-volts");
    }
    return outcome_of(prospect->candidate, taken.reading) == std::size_t{0};
  }

  /// What the check itself says about such an answer.
  std::string means(const Taken& taken, const Answered& answered) const {
    const Prospect* prospect = bench_.find(taken.check);
    if (prospect == nullptr) return "";
    const Candidate& candidate = prospect->candidate;
    const auto outcome = answered.outcome ? answered.outcome : outcome_of(candidate, taken.reading);
    const bool fits = outcome && (*outcome == 0) == answered.weighed.good;
    return fits ? candidate.check.expect[*outcome].means : "";
  }

  void count(const Says& says, Weighed& weighed) {
    const double before = entropy(made_.suspects);
    const std::vector<double> shares_before = shares(made_.suspects);
    double sum = 0;
    for (std::size_t h = 0; h < says.by_suspect.size(); ++h) {
      sum += made_.suspects.all[h].weight * says.by_suspect[h].likelihood;
    }
    if (sum <= 0) return;
    for (std::size_t h = 0; h < says.by_suspect.size(); ++h) {
      made_.suspects.all[h].weight *= says.by_suspect[h].likelihood;
    }
    made_.suspects.outside *= says.anything;
    listed_ *= sum / says.whole.likelihood;
    scale_to_one(made_.suspects);
    choose_repairs(made_.suspects);
    weighed.counted = true;
    weighed.bits = std::max(before - entropy(made_.suspects), 0.0);
    weighed.shift = largest(made_.suspects.repairs, shares_before, shares(made_.suspects));
  }

  bool same_check(const Taken& a, const Taken& b) const {
    const bool both = a.outcome != not_done && b.outcome != not_done;
    return both && !a.check.empty() && a.check == b.check && !told_anew(a.check);
  }

  /// Whether the same check was answered later with such a result, or with another one.
  bool answered_later(std::size_t i, bool so) const {
    for (std::size_t j = i + 1; j < taken_.size(); ++j) {
      if (same_check(taken_[i], taken_[j]) && alike(taken_[i], taken_[j]) == so) return true;
    }
    return false;
  }

  /// The last answer before to the same check that was alike, or `nowhere`.
  std::size_t alike_before(std::size_t i) const {
    for (std::size_t j = i; j-- > 0;) {
      if (same_check(taken_[i], taken_[j]) && alike(taken_[i], taken_[j])) return j;
    }
    return nowhere;
  }

  bool alike(const Taken& a, const Taken& b) const {
    if (a.outcome != b.outcome) return false;
    if (!a.outcome.empty()) return true;
    const Reading &x = a.reading, &y = b.reading;
    if (x.kind != y.kind) return false;
    switch (x.kind) {
      case Kind::lamp:
        return x.lamp == y.lamp;
      case Kind::seen:
        return x.seen == y.seen;
      case Kind::light:
      case Kind::wiggle:
        return x.yes == y.yes;
      default:
        break;
    }
    if (std::isinf(x.value) || std::isinf(y.value)) return x.value == y.value;
    const double apart = std::abs(x.value - y.value);
    const bool volts = x.kind != Kind::ohms && apart <= number_of(bench_.numbers, "alike-volts");
    return volts || apart <= number_of(bench_.numbers, "alike-share") * std::max(std::abs(x.value), std::abs(y.value));
  }

  const Bench& bench_;
  const std::vector<Taken>& taken_;
  const Situation& now_;
  std::vector<std::size_t> ranked_;  ///< answers that the ranking has in it
  double outside_ = 0;               ///< after those
  double listed_ = 0;  ///< weight of all that is listed, on the scale on which with nothing wrong it stays
  Weighing made_;
};

}  // namespace

bool measured(const Weighing& weighing) {
  return std::any_of(weighing.answers.begin(), weighing.answers.end(),
                     [](const Answered& each) { return each.weighed.counted; });
}

std::string answered_by(const Weighing& weighing, std::string_view check,
                        const std::function<bool(const Answered&)>& holds) {
  for (const Answered& answer : weighing.answers) {
    if (answer.check != check || answer.weighed.contradicted || !answer.weighed.counted || !holds(answer)) continue;
    return answer.by.empty() ? answer.check : answer.by;
  }
  return "";
}

const Prospect* Bench::find(std::string_view check) const {
  const auto found = std::find_if(prospects.begin(), prospects.end(),
                                  [&](const Prospect& each) { return each.candidate.check.id == check; });
  return found == prospects.end() ? nullptr : &*found;
}

bool told_anew(std::string_view check) { return check == "rescan" || check.starts_with("poll:"); }

double once_more(double fitting, const PlannerNumbers& numbers) {
  return fitting + (1 - fitting) * number_of(numbers, "slip-again");
}

Says say_about(const Bench& bench, const Suspects& suspects, const Taken& taken, const Situation& now, bool repeats,
               std::optional<std::size_t>& outcome) {
  const ReadingForecast forecast(bench.meter, suspects, bench.numbers);
  const Prospect* prospect = bench.find(taken.check);
  const auto place = bench.places.find(taken.check);
  Says says;
  if (!taken.outcome.empty()) {
    if (prospect != nullptr) outcome = outcome_called(prospect->candidate, taken.outcome);
  } else if (of_meter(taken.reading.kind) && (taken.measurement || place != bench.places.end())) {
    const Measurement how = taken.measurement ? *taken.measurement : with_off(place->second, now);
    says = forecast.of_reading(how, taken.reading);
  } else if (prospect != nullptr) {
    outcome = outcome_of(prospect->candidate, taken.reading);
  }
  if (outcome) says = forecast.of_outcome(prospect->candidate, *outcome);
  if (repeats) repeat(says, prospect == nullptr || may_slip(prospect->candidate.check, taken), bench.numbers);
  return says;
}

Weighing weigh(const Bench& bench, Ranked ranked, const std::vector<Taken>& taken, const Situation& now) {
  return Scales(bench, std::move(ranked), taken, now).make();
}

std::vector<double> by_repair(const Suspects& suspects) {
  std::vector<double> sums(suspects.repairs.size());
  for (const Suspect& suspect : suspects.all) sums[suspect.repair] += suspect.weight;
  return sums;
}

}  // namespace whichwire
