// What proven cases teach of the rates.
//
// The model. A case is one fault of its network that came to be repaired; by the rates it falls on a row of the table
// with the share of all odds that the row's faults have. Over many cases the row is expected E times (the sum of its
// shares) and found n times. Its rate is the table's times a factor with a gamma prior of mean 1 and a strength of
// `learning-strength` cases; n is Poisson with the mean factor x E, so the factor is expected to be
// (strength + n) / (strength + E) (gamma-Poisson). Only what fails beside what is learned, not how often vehicles fail,
// nor how often a fault comes and goes: such a one is seldom proven, so proven cases would tell too little of it.
// Tests: tests/fleet/learn_rates.cpp.
#include <algorithm>
#include <map>
#include <whichwire/case_state.hpp>
#include <whichwire/learned_rates.hpp>

#include "fleet/numbers.hpp"

namespace whichwire {
namespace {

/// By fault of the network: the rows of the table that its odds depend on. Asked of the catalogue itself, by changing
/// each row and seeing what changes.
std::vector<std::vector<std::size_t>> rows_behind(const Network& network, const Rates& rates) {
  const std::vector<Fault> faults = faults_of(network, rates);
  std::vector<std::vector<std::size_t>> rows(faults.size());
  for (std::size_t r = 0; r < rates.rows.size(); ++r) {
    Rates changed = rates;
    changed.rows[r].odds *= 2;
    const std::vector<Fault> now = faults_of(network, changed);
    for (std::size_t f = 0; f < faults.size(); ++f) {
      if (now[f].odds != faults[f].odds) rows[f].push_back(r);
    }
  }
  return rows;
}

/// Whether it is the same part in the same state, now or from time to time.
bool same_state(Fault a, const Fault& b) {
  a.odds = b.odds;
  a.comes_and_goes = b.comes_and_goes;
  return a == b;
}

bool learned_of(const Fault& fault) { return fault.kind != FaultKind::not_fitted && !fault.comes_and_goes; }

struct Proof {
  std::vector<Fault> faults;  ///< empty: nothing is proven
  std::string why_not;
};

Proof proof_of(const Case& job, const Rates& rates) {
  if (job.closed_by == 0) return {{}, "it is not closed"};
  const ScansOf scans = scans_of(job);
  const auto before = reasoning_of(job, scans.before_repair, rates);
  if (!before) return {{}, "it has no scan before a repair"};
  if (before->assessment.decision.standing != Standing::proven) return {{}, "its readings do not prove a repair"};
  const auto after = reasoning_of(job, scans.last, rates);
  if (scans.last == scans.before_repair || !after) return {{}, "it has no scan after the repair"};
  if (after->verdict.verdict_class != VerdictClass::none) return {{}, "its last scan shows a fault"};
  const auto& repairs = before->assessment.repairs;
  const auto proven =
      std::ranges::find(repairs, before->assessment.decision.repair, [](const Repair& repair) { return repair.what; });
  if (proven == repairs.end() || proven->likeliest.empty()) return {{}, "what was repaired is no fault of the network"};
  return {proven->likeliest, ""};
}

class Learner {
 public:
  explicit Learner(const Rates& prior) : prior_(prior), found_(prior.rows.size(), 0), expected_(prior.rows.size(), 0) {}

  void add(const Case& job, const std::vector<Fault>& proven) {
    const Network& network = job.start().network;
    const std::vector<Fault> faults = faults_of(network, prior_);
    const auto rows = rows_behind(network, prior_);
    double whole = 0;
    for (const Fault& fault : faults) whole += learned_of(fault) ? fault.odds : 0;
    for (std::size_t f = 0; f < faults.size(); ++f) {
      if (!learned_of(faults[f])) continue;
      const bool is_it = std::ranges::any_of(proven, [&](const Fault& one) { return same_state(one, faults[f]); });
      for (const std::size_t row : rows[f]) {
        expected_[row] += static_cast<double>(proven.size()) * faults[f].odds / whole;
        found_[row] += is_it ? 1 : 0;
      }
    }
  }

  std::vector<LearnedRate> rates() const {
    const double strength = fleet_number("learning-strength");
    std::vector<LearnedRate> all;
    for (std::size_t r = 0; r < prior_.rows.size(); ++r) {
      if (expected_[r] <= 0) continue;
      const double factor = (strength + static_cast<double>(found_[r])) / (strength + expected_[r]);
      all.push_back({prior_.rows[r].what, prior_.rows[r].odds, prior_.rows[r].odds * factor, found_[r], expected_[r]});
    }
    return all;
  }

 private:
  const Rates& prior_;
  std::vector<std::size_t> found_;
  std::vector<double> expected_;
};

}  // namespace

LearnedRates learn_rates(std::span<const Case> cases, const Rates& prior) {
  LearnedRates learned;
  Learner learner(prior);
  for (const Case& job : cases) {
    const Proof proof = proof_of(job, prior);
    if (proof.faults.empty()) {
      learned.passed_over.push_back(job.name + ": " + proof.why_not);
      continue;
    }
    learner.add(job, proof.faults);
    ++learned.cases;
  }
  learned.rows = learner.rates();
  return learned;
}

}  // namespace whichwire
