// See ready.hpp. Tests: tests/planner/simulated_jobs.cpp.
#include "planner/ready.hpp"

#include <algorithm>

#include "planner/condemn.hpp"
#include "planner/numbers.hpp"

namespace whichwire {
namespace {

/// Whether `all` begins with `first`.
bool begins_with(const std::vector<Taken>& all, const std::vector<Taken>& first) {
  const auto same = [](const Taken& a, const Taken& b) {
    const Reading &x = a.reading, &y = b.reading;
    return a.id == b.id && a.check == b.check && a.outcome == b.outcome && x.kind == y.kind && x.value == y.value &&
           x.lamp == y.lamp && x.seen == y.seen && x.yes == y.yes;
  };
  return first.size() <= all.size() && std::equal(first.begin(), first.end(), all.begin(), same);
}

std::vector<double> by_name(const Weighing& known, const std::vector<std::string>& repairs) {
  std::vector<double> all;
  for (const std::string& repair : repairs) {
    const auto found = std::find(known.suspects.repairs.begin(), known.suspects.repairs.end(), repair);
    const bool is_known = found != known.suspects.repairs.end();
    all.push_back(is_known ? known.at_first[static_cast<std::size_t>(found - known.suspects.repairs.begin())] : 0);
  }
  return all;
}

/// Modules that may have to be condemned.
std::set<std::size_t> modules(const Suspects& suspects) {
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

}  // namespace

Planner::Ready::Ready(const Effects& its, const Ranking& ranking, const Scan& taken, const PlannerNumbers& table,
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

Weighing Planner::Ready::weigh_all(const std::vector<Taken>& taken, const Situation& now) {
  Weighing by_scan = weigh(bench(), ranked, taken, now);
  // Without an answer it would be the search that the scan's own ranking came from, and take as long again.
  if (!measured(by_scan) || !leaves_too_much(by_scan.suspects)) return by_scan;
  const bool goes_on = in_it_ && begins_with(taken, *in_it_);
  if (!goes_on) anew_.reset();
  Weighing made = anew_ ? weigh(bench(), *anew_, taken, now) : by_scan;
  if (!goes_on || worth_ranking(made.suspects, taken)) {
    made = weigh_anew(made, taken, now);
    in_it_ = taken;
    left_outside_ = made.suspects.outside;
  }
  made.at_first = by_name(by_scan, made.suspects.repairs);
  return made;
}

bool Planner::Ready::all_that_stands(const Suspects& suspects) const {
  const std::vector<double> sums = by_repair(suspects);
  const double lead = *std::max_element(sums.begin(), sums.end()), outside = suspects.outside;
  const double proven = number_of(numbers, "proven") * (1 + outside);
  return lead < proven && lead + outside >= proven;
}

bool Planner::Ready::leaves_too_much(const Suspects& suspects) const {
  return suspects.outside > number_of(numbers, "rank-anew") || all_that_stands(suspects);
}

bool Planner::Ready::worth_ranking(const Suspects& suspects, const std::vector<Taken>& taken) const {
  constexpr double much_more = 2;
  if (!leaves_too_much(suspects) || taken.size() == in_it_->size()) return false;
  return all_that_stands(suspects) || suspects.outside > much_more * left_outside_;
}

Weighing Planner::Ready::weigh_anew(const Weighing& known, const std::vector<Taken>& taken, const Situation& now) {
  if (!singles_) singles_ = single_faults_of(job.network, numbers);
  const double enough = number_of(numbers, "rank-anew");
  LocateOptions finer = options;
  finer.outside = std::max(options.outside, enough / 4);
  finer.effort *= number_of(numbers, "anew-effort");
  Weighing best = known;
  constexpr int most_tries = 3;
  for (int tries = 0; tries < most_tries; ++tries) {
    Ranked ranking = rank_anew(effects, scan, finer, bench(), *singles_, known, taken, now);
    const bool reached = ranking.suspects.outside <= 2 * finer.outside;
    const Weighing made = weigh(bench(), ranking, taken, now);
    const double outside = made.suspects.outside;
    if (outside < best.suspects.outside) {  // a search that was cut short may leave out more than is known to be there
      best = made;
      anew_ = std::move(ranking);
    }
    if (outside <= enough || !reached) break;
    finer.outside *= enough / 2 / outside;
  }
  add_prospects(best.suspects);
  return best;
}

void Planner::Ready::add_prospects(const Suspects& suspects) {
  for (Prospect& made : prospects_of(job, effects, places, suspects, modules(suspects))) {
    if (bench().find(made.candidate.check.id) == nullptr) prospects.push_back(std::move(made));
  }
}

}  // namespace whichwire
