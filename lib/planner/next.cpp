// See next.hpp.
#include "planner/next.hpp"

#include <algorithm>

#include "checks/look_checks.hpp"
#include "planner/confirm.hpp"
#include "planner/numbers.hpp"
#include "planner/offer.hpp"
#include "planner/repairs.hpp"
#include "planner/retake.hpp"

namespace whichwire {
namespace {

class Assessor {
 public:
  Assessor(const Court& court, const Situation& now)
      : bench_(court.bench), weighing_(court.weighing), now_(now), court_(court) {}

  Assessment make() {
    made_.repairs = repairs_of(court_.effects.network(), weighing_);
    made_.outside = weighing_.suspects.outside / (1 + weighing_.suspects.outside);
    for (const Answered& answer : weighing_.answers) made_.readings.push_back(answer.weighed);
    choose();
    if (!again()) {
      rule_out();
      confirm();
      retake();
    }
    made_.decision = decide(court_, made_.repairs, made_.next.check);
    scan_again();
    know();
    return std::move(made_);
  }

 private:
  double number(std::string_view what) const { return number_of(bench_.numbers, what); }

  void take(const Prospect& prospect, NextCheck::Why why) {
    made_.next.why = why;
    made_.next.check = prospect.candidate.check;
    if (why == NextCheck::Why::once_more) made_.next.check->minutes = minutes_once_more(bench_, weighing_, prospect);
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
    // A scan alone proves nothing, however sure it makes.
    if (measured(weighing_)) return;
    if (const Prospect* look = best_look(court_, *lead)) take(*look, NextCheck::Why::confirms);
  }

  /// Proven but for a reading that may well have been a slip.
  void retake() {
    if (made_.next.why != NextCheck::Why::none_needed) return;
    const Prospect* const once = retake_before(court_, made_.repairs.front());
    if (once != nullptr) take(*once, NextCheck::Why::once_more);
  }

  /// Where the search left more than it weighed, and old codes are what cut it short, what returns after clearing tells
  /// most; and so it does where no check is left and what was left out is what stands against the repair. Who answered
  /// what returns has cleared them, and has that scan or is about to take it.
  void scan_again() {
    const Standing standing = made_.decision.standing;
    if (standing != Standing::probable && standing != Standing::cannot_condemn) return;
    if (made_.repairs.empty() || made_.next.why == NextCheck::Why::again) return;
    if (put_aside(weighing_, "rescan") || put_aside(weighing_, not_scanned_once_more().check)) return;
    const double rival = made_.repairs.size() > 1 ? made_.repairs[1].probability.low : 0;
    const bool in_its_way = made_.outside > rival && made_.repairs.front().probability.low < number("proven");
    const bool cleared = was_cleared(weighing_);
    const bool too_much = made_.outside > number("scan-again") && (cleared || worth_clearing(court_));
    if (!too_much && (made_.next.check || !in_its_way)) return;
    const Job job{court_.effects.network(), court_.scan};
    made_.next = {};
    made_.next.why = cleared ? NextCheck::Why::hand_in : NextCheck::Why::scan_again;
    made_.next.check = (cleared ? hand_in_check(job) : rescan_check(job)).check;
  }

  /// What may be answered: every check about what is suspected, and what was asked for.
  void know() {
    for (const Prospect& prospect : bench_.prospects) {
      if (refused_for(prospect.candidate).empty()) made_.known.push_back(prospect.candidate.check);
    }
    const auto& asked = made_.next.check;
    if (asked && std::ranges::find(made_.known, asked->id, &Check::id) == made_.known.end())
      made_.known.push_back(*asked);
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

  const Bench& bench_;
  const Weighing& weighing_;
  const Situation& now_;
  const Court& court_;
  Assessment made_;
};

}  // namespace

Assessment assessment_of(const Court& court, const Situation& now) { return Assessor(court, now).make(); }

}  // namespace whichwire
