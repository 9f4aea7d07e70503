// See gain.hpp. Repairs that a check cannot see share one distribution and are summed as one. Tests:
// tests/checks/gain.cpp.
#include "checks/gain.hpp"

#include <algorithm>
#include <cmath>

namespace whichwire {
namespace {

bool out_of_sight(const Candidate& candidate, const Hypothesis& hypothesis) {
  if (candidate.sees(hypothesis.present).outcome > 0) return false;
  return std::none_of(hypothesis.passing.begin(), hypothesis.passing.end(),
                      [&](const std::vector<Fault>& alone) { return candidate.sees(alone).outcome > 0; });
}

/// Weights of the outcomes for each repair that is seen at all, and for all others together.
class Joint {
 public:
  Joint(std::size_t outcomes, const Hypotheses& hypotheses)
      : outcomes_(outcomes), group_of_(hypotheses.repairs.size(), 0), weights_(outcomes) {}

  /// From now on the repair is a group of its own.
  void single_out(std::size_t repair) {
    if (group_of_[repair] != 0) return;
    group_of_[repair] = weights_.size() / outcomes_;
    weights_.resize(weights_.size() + outcomes_);
  }

  double* of(std::size_t repair) { return weights_.data() + group_of_[repair] * outcomes_; }

  double bits() const {
    std::vector<double> of_outcome(outcomes_);
    double sum = 0;
    for (std::size_t i = 0; i < weights_.size(); ++i) {
      of_outcome[i % outcomes_] += weights_[i];
      sum += weights_[i];
    }
    double gain = 0;
    for (std::size_t at = 0; at < weights_.size(); at += outcomes_) gain += group_bits(at, of_outcome, sum);
    return std::max(gain, 0.0);
  }

 private:
  double group_bits(std::size_t at, const std::vector<double>& of_outcome, double sum) const {
    double group = 0, gain = 0;
    for (std::size_t i = 0; i < outcomes_; ++i) group += weights_[at + i];
    for (std::size_t i = 0; i < outcomes_; ++i) {
      const double weight = weights_[at + i];
      if (weight > 0) gain += weight * std::log2(weight * sum / (of_outcome[i] * group));
    }
    return gain;
  }

  std::size_t outcomes_;
  std::vector<std::size_t> group_of_;  ///< 0: with all the others
  std::vector<double> weights_;
};

}  // namespace

void Outcomes::add(const Candidate& candidate, const Hypothesis& hypothesis) {
  if (rows.empty()) rows.push_back(chances_of(candidate, {}));
  if (out_of_sight(candidate, hypothesis)) return row_of.push_back(0);
  std::vector<double> row = chances_of(candidate, hypothesis);
  const auto known = std::find(rows.begin() + 1, rows.end(), row);
  row_of.push_back(static_cast<std::size_t>(known - rows.begin()));
  if (known == rows.end()) rows.push_back(std::move(row));
}

Outcomes outcomes_of(const Candidate& candidate, const Hypotheses& hypotheses) {
  Outcomes all;
  for (const Hypothesis& hypothesis : hypotheses.sets) all.add(candidate, hypothesis);
  return all;
}

double gain_bits(const Outcomes& outcomes, const Hypotheses& hypotheses) {
  if (outcomes.rows.size() < 2) return 0;
  const std::size_t width = outcomes.rows[0].size();
  Joint joint(width, hypotheses);
  for (std::size_t h = 0; h < hypotheses.sets.size(); ++h) {
    if (outcomes.row_of[h] != 0) joint.single_out(hypotheses.sets[h].repair);
  }
  for (std::size_t h = 0; h < hypotheses.sets.size(); ++h) {
    const std::vector<double>& row = outcomes.rows[outcomes.row_of[h]];
    double* weights = joint.of(hypotheses.sets[h].repair);
    for (std::size_t i = 0; i < width; ++i) weights[i] += hypotheses.sets[h].weight * row[i];
  }
  return joint.bits();
}

double gain_bits_of_both(const Outcomes& first, const Outcomes& second, const Hypotheses& hypotheses) {
  Outcomes both;  // outcomes are independent of each other once the faults are given
  both.rows.reserve(first.rows.size() * second.rows.size());
  for (const auto& one : first.rows) {
    for (const auto& other : second.rows) {
      std::vector<double>& row = both.rows.emplace_back();
      row.reserve(one.size() * other.size());
      for (const double a : one) {
        for (const double b : other) row.push_back(a * b);
      }
    }
  }
  both.row_of.reserve(hypotheses.sets.size());
  for (std::size_t h = 0; h < hypotheses.sets.size(); ++h) {
    both.row_of.push_back(first.row_of[h] * second.rows.size() + second.row_of[h]);
  }
  return gain_bits(both, hypotheses);
}

}  // namespace whichwire
