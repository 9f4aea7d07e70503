// From the entries of a case to what is known: the one way for `case next`, `guide`, `status` and `report`.
// Tests: tests/casefile/state.cpp.
#include <algorithm>
#include <whichwire/case_state.hpp>

#include "casefile/answer.hpp"
#include "casefile/replay.hpp"

namespace whichwire {
namespace {

const Scan* scan_in(const Case& job, std::size_t entry) {
  if (entry == 0 || entry > job.entries.size() || job.undone[entry - 1]) return nullptr;
  const auto* const scanned = std::get_if<CaseScan>(&job.entries[entry - 1].contents);
  return scanned == nullptr ? nullptr : &scanned->scan;
}

/// How many repairs stand before the entry: a repair changes what all readings before it were about.
std::size_t repairs_before(const Case& job, std::size_t entry) {
  std::size_t count = 0;
  for (std::size_t i = 0; i + 1 < entry; ++i) {
    const CaseWork* const work = work_at(job, i);
    if (work != nullptr && (work->kind == WorkKind::replaced || work->kind == WorkKind::programmed)) ++count;
  }
  return count;
}

/// The scan to reason from: the last since the last repair, rather one with nothing off; else the last of all.
std::size_t scan_for_now(const Case& job) {
  const std::size_t repairs = repairs_before(job, job.entries.size() + 1);
  std::size_t last = 0, with_all_in = 0;
  for (std::size_t entry = 1; entry <= job.entries.size(); ++entry) {
    if (scan_in(job, entry) == nullptr) continue;
    last = entry;
    if (repairs_before(job, entry) == repairs && ledger_of(job, entry).empty()) with_all_in = entry;
  }
  return with_all_in != 0 ? with_all_in : last;
}

CaseStage stage_of(const Case& job, const std::optional<CaseReasoning>& reasoning) {
  if (job.closed_by != 0) return CaseStage::closed;
  const std::size_t repairs = repairs_before(job, job.entries.size() + 1);
  if (reasoning && repairs_before(job, reasoning->entry) < repairs) return CaseStage::scan_again;
  if (!reasoning) return repairs > 0 ? CaseStage::scan_again : CaseStage::scan_first;
  const bool clean = reasoning->verdict.verdict_class == VerdictClass::none;
  return repairs > 0 && clean ? CaseStage::whole : CaseStage::measuring;
}

/// What has to be unplugged for a check, in the words of the ledger.
std::vector<std::string> needed_off(const Network& network, const NextCheck& next) {
  std::vector<std::string> all;
  if (next.measurement) {
    const Situation& how = next.measurement->situation;
    for (const std::size_t m : how.unplugged) all.push_back(network.modules[m].id);
    for (const LoadOff& off : how.loads_off)
      all.push_back(network.modules[off.module].references[off.reference].loads[off.load]);
    return all;
  }
  const std::string& id = next.check->id;
  const bool at_plug = id.starts_with("plug:") || id.starts_with("continuity:");
  if (at_plug && index_of(network.modules, next.check->part) != nowhere) all.push_back(next.check->part);
  return all;
}

/// What lies between how the vehicle stands and how the next check wants it.
void compare_with_ledger(const Case& job, CaseState& state) {
  const std::vector<OffNow> off = ledger_of(job);
  std::vector<std::string> needed;
  if (state.stage == CaseStage::measuring && state.reasoning->assessment.next.check)
    needed = needed_off(job.start().network, state.reasoning->assessment.next);
  for (const OffNow& one : off) {
    if (std::find(needed.begin(), needed.end(), one.what) == needed.end()) state.put_back.push_back(one);
  }
  for (const std::string& what : needed) {
    const auto known = [&](const OffNow& one) { return one.what == what; };
    if (std::none_of(off.begin(), off.end(), known)) state.take_off.push_back(what);
  }
}

}  // namespace

bool scanned_again(const Case& job, std::size_t scan_entry) {
  for (std::size_t entry = 1; entry < scan_entry; ++entry) {
    if (scan_in(job, entry) != nullptr && repairs_before(job, entry) == repairs_before(job, scan_entry)) return true;
  }
  return false;
}

std::optional<CaseReasoning> reasoning_of(const Case& job, std::size_t scan_entry, const Rates& rates) {
  const Scan* const scan = scan_in(job, scan_entry);
  if (scan == nullptr) return std::nullopt;
  const Network& network = job.start().network;
  const Effects effects(network);
  CaseReasoning made;
  made.entry = scan_entry;
  const std::size_t repairs = repairs_before(job, scan_entry);
  LocateOptions options;
  options.no_fault = repairs > 0 ? 1 : factor_of_no_fault(rates);  // nobody was called for what was repaired
  made.ranking = locate(effects, faults_of(network, rates), *scan, options);
  made.verdict = verdict_of(network, made.ranking);
  const Planner planner(effects, made.ranking, *scan, default_planner_numbers(), options);
  std::vector<Taken> taken;
  const std::size_t before = scanned_again(job, scan_entry) ? 1 : 0;
  if (before != 0) taken.push_back(not_scanned_once_more());
  for (std::size_t entry = 1; entry <= job.entries.size(); ++entry) {
    const bool reading = std::holds_alternative<CaseReading>(job.entries[entry - 1].contents);
    if (!reading || job.undone[entry - 1] || repairs_before(job, entry) != repairs) continue;
    taken.push_back(taken_from(job, entry, planner));
    made.answers.push_back({entry, taken.back().check, taken.back().outcome == not_done, {}});
  }
  made.assessment = planner.assess(taken);
  for (std::size_t i = 0; i < made.answers.size(); ++i) made.answers[i].weighed = made.assessment.readings[before + i];
  return made;
}

CaseState state_of(const Case& job, const Rates& rates) {
  CaseState state;
  state.reasoning = reasoning_of(job, scan_for_now(job), rates);
  state.stage = stage_of(job, state.reasoning);
  compare_with_ledger(job, state);
  return state;
}

}  // namespace whichwire
