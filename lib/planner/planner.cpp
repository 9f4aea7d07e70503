// From answers to the next check. Order: a doubtful answer is taken again; then what tells most about the repair; then,
// where one repair is likely enough but means another module, what is still missing on the list of things to rule out.
// Tests: tests/planner.
#include <algorithm>
#include <numeric>

#include "planner/anew.hpp"
#include "planner/condemn.hpp"
#include "planner/confirm.hpp"
#include "planner/numbers.hpp"
#include "planner/offer.hpp"

namespace whichwire {

struct Planner::Ready {
  const Effects& effects;
  Scan scan;
  PlannerNumbers numbers;
  LocateOptions options;
  Job job;
  Meter meter;
  Ranked ranked;  ///< by the scan alone
  Places places;
  std::vector<Prospect> prospects;

  // Once it was ranked anew.
  std::optional<SingleFaults> singles;
  std::optional<std::vector<Taken>> in_it;  ///< the answers up to then
  Ranked anew;
  double left_outside = 0;

  Ready(const Effects& its, const Ranking& ranking, const Scan& taken, const PlannerNumbers& table,
        const LocateOptions& how)
      : effects(its),
        scan(taken),
        numbers(table),
        options(how),
        job{its.network(), scan},
        meter(its.network()),
        ranked{suspects_of(its.network(), ranking, table), {}},
        places(places_of(job)) {
    add_prospects(ranked.suspects);
  }

  Ready(const Ready&) = delete;
  Ready& operator=(const Ready&) = delete;
  Ready(Ready&&) = delete;
  Ready& operator=(Ready&&) = delete;
  ~Ready() = default;

  Bench bench() const { return {meter, places, prospects, numbers}; }

  Weighing weigh_all(const std::vector<Taken>& taken, const Situation& now) {
    Weighing by_scan = weigh(bench(), ranked, taken, now);
    const double enough = number_of(numbers, "rank-anew");
    if (by_scan.suspects.outside <= enough) return by_scan;
    const bool goes_on = in_it && begins_with(taken, *in_it);
    Weighing made = goes_on ? weigh(bench(), anew, taken, now) : by_scan;
    if (!goes_on || worth_ranking(made, taken)) {
      made = weigh_anew(made, taken, now);
      left_outside = made.suspects.outside;
    }
    made.at_first = by_name(by_scan, made.suspects.repairs);
    return made;
  }

 private:
  /// Where it could not be brought below, not again for each answer: when it has grown, or is all that stands between a
  /// repair and its proof.
  bool worth_ranking(const Weighing& made, const std::vector<Taken>& taken) const {
    constexpr double much_more = 2;
    const double outside = made.suspects.outside, proven = number_of(numbers, "proven");
    if (outside <= number_of(numbers, "rank-anew") || taken.size() == in_it->size()) return false;
    const std::vector<double> sums = by_repair(made.suspects);
    const double lead = *std::max_element(sums.begin(), sums.end());
    const bool all_that_stands = lead < proven * (1 + outside) && lead + outside >= proven * (1 + outside);
    return all_that_stands || outside > much_more * left_outside;
  }

  /// What is outside is a share of what single faults promise; where sets keep less than that, it has to be finer.
  Weighing weigh_anew(const Weighing& known, const std::vector<Taken>& taken, const Situation& now) {
    if (!singles) singles = single_faults_of(job.network, numbers);
    const double enough = number_of(numbers, "rank-anew");
    LocateOptions finer = options;
    finer.outside = std::max(options.outside, enough / 4);
    Weighing made = known;
    for (int tries = 0; tries < 2; ++tries) {
      anew = rank_anew(effects, scan, finer, bench(), *singles, known, taken, now);
      made = weigh(bench(), anew, taken, now);
      const bool reached = anew.suspects.outside <= 2 * finer.outside;
      if (made.suspects.outside <= enough || !reached) break;
      finer.outside *= enough / 2 / made.suspects.outside;
    }
    in_it = taken;
    add_prospects(made.suspects);
    return made;
  }

  /// Whether `all` begins with `first`.
  static bool begins_with(const std::vector<Taken>& all, const std::vector<Taken>& first) {
    const auto same = [](const Taken& a, const Taken& b) {
      const Reading &x = a.reading, &y = b.reading;
      return a.id == b.id && a.check == b.check && a.outcome == b.outcome && x.kind == y.kind && x.value == y.value &&
             x.lamp == y.lamp && x.seen == y.seen && x.yes == y.yes;
    };
    return first.size() <= all.size() && std::equal(first.begin(), first.end(), all.begin(), same);
  }

  static std::vector<double> by_name(const Weighing& known, const std::vector<std::string>& repairs) {
    std::vector<double> all;
    for (const std::string& repair : repairs) {
      const auto found = std::find(known.suspects.repairs.begin(), known.suspects.repairs.end(), repair);
      const bool is_known = found != known.suspects.repairs.end();
      all.push_back(is_known ? known.at_first[static_cast<std::size_t>(found - known.suspects.repairs.begin())] : 0);
    }
    return all;
  }

  void add_prospects(const Suspects& suspects) {
    for (Prospect& made : prospects_of(job, effects, places, suspects, modules(suspects))) {
      if (bench().find(made.candidate.check.id) == nullptr) prospects.push_back(std::move(made));
    }
  }

  /// Modules that may have to be condemned.
  static std::set<std::size_t> modules(const Suspects& suspects) {
    std::set<std::size_t> all;
    for (const Suspect& suspect : suspects.all) {
      for (const Fault& fault : suspect.set.present) {
        if (inside_module(fault)) all.insert(fault.owner);
      }
      for (const auto& alone : suspect.set.passing) {
        if (inside_module(alone.front())) all.insert(alone.front().owner);
      }
    }
    return all;
  }
};

namespace {

std::vector<Repair> repairs_of(const Network& network, const Weighing& weighing) {
  const Suspects& suspects = weighing.suspects;
  std::vector<Repair> all;
  const std::vector<double> sums = by_repair(suspects);
  const double total = 1 + suspects.outside;
  std::vector<double> passing(sums.size());
  for (const Suspect& suspect : suspects.all) passing[suspect.repair] += suspect.passing() ? suspect.weight : 0;
  std::vector<std::size_t> order(sums.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return sums[a] > sums[b]; });
  for (const std::size_t r : order) {
    std::vector<const Suspect*> own;
    for (const Suspect& suspect : suspects.all) {
      if (suspect.repair == r) own.push_back(&suspect);
    }
    if (own.empty()) continue;
    Repair& made = all.emplace_back();
    made.what = suspects.repairs[r];
    made.probability = {sums[r] / total, (sums[r] + suspects.outside) / total};
    made.at_first = weighing.at_first[r];
    made.passing = passing[r] > sums[r] / 2;
    std::stable_sort(own.begin(), own.end(), [](const auto* a, const auto* b) { return a->weight > b->weight; });
    for (const Suspect* suspect : own) {
      std::string words;
      const auto add = [&](const Fault& fault, const char* after) {
        words += (words.empty() ? "" : " + ") + text_of(network, fault) + after;
      };
      for (const Fault& fault : suspect->set.present) add(fault, "");
      for (const auto& alone : suspect->set.passing) add(alone.front(), " comes and goes");
      if (std::find(made.faults.begin(), made.faults.end(), words) == made.faults.end()) made.faults.push_back(words);
    }
    made.likeliest = faults_to_repair(*own.front());
    made.load = own.front()->load_name;
  }
  return all;
}

class Assessor {
 public:
  Assessor(const Effects& effects, const Scan& scan, const Bench& bench, const Weighing& weighing, const Situation& now)
      : network_(effects.network()),
        bench_(bench),
        weighing_(weighing),
        now_(now),
        court_{effects, scan, bench, weighing} {}

  Assessment make() {
    made_.repairs = repairs_of(network_, weighing_);
    made_.outside = weighing_.suspects.outside / (1 + weighing_.suspects.outside);
    for (const Answered& answer : weighing_.answers) made_.readings.push_back(answer.weighed);
    choose();
    if (!again()) {
      rule_out();
      confirm();
    }
    for (const Prospect& prospect : bench_.prospects) {
      if (refused_for(prospect.candidate).empty()) made_.known.push_back(prospect.candidate.check);
    }
    made_.decision = decide(court_, made_.repairs, made_.next.check);
    return std::move(made_);
  }

 private:
  double number(std::string_view what) const { return number_of(bench_.numbers, what); }

  void take(const Prospect& prospect, NextCheck::Why why) {
    made_.next.why = why;
    made_.next.check = prospect.candidate.check;
    made_.next.measurement.reset();
    made_.next.if_good.reset();
    if (!prospect.measurement) return;
    made_.next.measurement = with_off(*prospect.measurement, now_);
    made_.next.if_good =
        ReadingForecast(bench_.meter, weighing_.suspects, bench_.numbers).if_good(*made_.next.measurement);
  }

  void choose() {
    Offer offer = offer_of(bench_, weighing_, now_, made_.refused);
    std::vector<double> bits = gains(offer.problem);
    keep_best(offer, bits, static_cast<std::size_t>(number("most-tests")));
    TestLimits limits;
    limits.proven = number("proven");
    limits.least_gain_bits = number("least-gain-bits");
    const TestChoice choice = choose_test(offer.problem, limits);
    if (choice.why == TestChoice::Why::test) {
      const Offered& best = offer.checks[choice.test];
      take(*best.prospect, best.once_more ? NextCheck::Why::once_more : NextCheck::Why::tells_most);
      made_.next.check->gain_bits = choice.gain_bits;
      made_.next.exact = choice.exact;
      made_.next.minutes = choice.minutes;
    } else if (choice.why == TestChoice::Why::proven) {
      made_.next.why = NextCheck::Why::none_needed;
    } else {
      name_together();
    }
    for (std::size_t t = 0; t < bits.size(); ++t) {
      if (t == choice.test || bits[t] < limits.least_gain_bits || offer.checks[t].once_more) continue;
      made_.others.push_back(offer.checks[t].prospect->candidate.check);
      made_.others.back().gain_bits = bits[t];
    }
  }

  /// Repairs that are still possible, though no check that is left tells them apart.
  void name_together() {
    made_.next.why = NextCheck::Why::nothing_separates;
    constexpr double possible = 0.01;
    for (const Repair& repair : made_.repairs) {
      if (repair.probability.high >= possible) made_.next.together.push_back(repair.what);
    }
  }

  /// The last answer was doubtful, and nothing has confirmed or replaced it.
  bool again() {
    if (weighing_.answers.empty()) return false;
    const Answered& last = weighing_.answers.back();
    if (!last.weighed.doubtful || last.weighed.counted) return false;
    const Prospect* prospect = bench_.find(last.check);
    if (prospect == nullptr) return false;
    made_.next = {};
    take(*prospect, NextCheck::Why::again);
    return true;
  }

  /// Where a module is likely enough, what is missing on the list comes first: it has to be done in any case, and tells
  /// its rivals away.
  void rule_out() {
    if (made_.repairs.empty()) return;
    const Suspect* lead = likeliest(weighing_.suspects, made_.repairs.front().what);
    if (lead == nullptr || made_.repairs.front().probability.low < number("probable")) return;
    const Prospect* best = nullptr;
    for (const Fault& fault : faults_to_repair(*lead)) {
      if (!inside_module(fault) || fault.comes_and_goes) continue;
      for (const RuleOut& item : to_rule_out(court_, fault)) {
        if (item.by.empty()) quicker(item, best);
      }
    }
    if (best != nullptr) take(*best, NextCheck::Why::rules_out);
  }

  /// Likely enough by what was ruled out, or but for what is not listed, and the part itself was never looked at.
  void confirm() {
    if (made_.next.check || made_.repairs.empty()) return;
    if (made_.repairs.front().probability.high < number("proven")) return;
    const Suspect* lead = likeliest(weighing_.suspects, made_.repairs.front().what);
    if (lead == nullptr) return;
    for (const Confirmation& part : confirmations_of(court_, *lead)) {
      if (part.by.empty() && part.check != nullptr) return take(*part.check, NextCheck::Why::confirms);
    }
  }

  /// The quicker first; a module is asked again when all else is done.
  static bool sooner(const Prospect& a, const Prospect& b) {
    const Check &one = a.candidate.check, &other = b.candidate.check;
    const bool last = one.id.starts_with("poll:"), other_last = other.id.starts_with("poll:");
    return last != other_last ? other_last : one.minutes < other.minutes;
  }

  void quicker(const RuleOut& item, const Prospect*& best) const {
    for (const std::string& id : item.checks) {
      const Prospect* prospect = bench_.find(id);
      const bool asked_again = id.starts_with("poll:");
      if (prospect == nullptr || !refused_for(prospect->candidate).empty()) continue;
      if (put_aside(weighing_, id) || (!asked_again && answered(weighing_, id))) continue;
      if (best == nullptr || sooner(*prospect, *best)) best = prospect;
    }
  }

  const Network& network_;
  const Bench& bench_;
  const Weighing& weighing_;
  const Situation& now_;
  Court court_;
  Assessment made_;
};

}  // namespace

Planner::Planner(const Effects& effects, const Ranking& ranking, const Scan& scan, const PlannerNumbers& numbers,
                 const LocateOptions& options)
    : ready_(std::make_unique<Ready>(effects, ranking, scan, numbers, options)) {}
Planner::~Planner() = default;
Planner::Planner(Planner&&) noexcept = default;
Planner& Planner::operator=(Planner&&) noexcept = default;

std::optional<Measurement> Planner::measurement_of(std::string_view check, const Situation& now) const {
  const auto found = ready_->places.find(std::string(check));
  if (found == ready_->places.end()) return std::nullopt;
  return with_off(found->second, now);
}

Assessment Planner::assess(const std::vector<Taken>& taken, const Situation& now) const {
  const Weighing weighing = ready_->weigh_all(taken, now);
  const Bench bench = ready_->bench();
  return Assessor(ready_->effects, ready_->scan, bench, weighing, now).make();
}

std::string_view word_for(Standing standing) {
  switch (standing) {
    case Standing::proven:
      return "proven";
    case Standing::probable:
      return "probable";
    case Standing::cannot_condemn:
      return "cannot condemn yet";
    case Standing::comes_and_goes:
      return "comes and goes, not reproduced";
    case Standing::not_communication:
      return "not a communication fault";
    case Standing::refer:
      return "refer";
  }
  return {};
}

}  // namespace whichwire
