// What a check is expected to tell about the repair, in bits: the mutual information of its outcome and the repair
// (Shannon, "A Mathematical Theory of Communication", 1948). Mass that no check is expected to move has the outcomes of
// the rest on average and so adds nothing. Tests: tests/checks/gain.cpp.
#pragma once

#include "checks/candidate.hpp"

namespace whichwire {

/// P(outcome) of a check under every hypothesis. Most hypotheses are out of its sight and share the first row.
struct Outcomes {
  std::vector<std::vector<double>> rows;
  std::vector<std::size_t> row_of;  ///< by hypothesis
  void add(const Candidate& candidate, const Hypothesis& hypothesis);
};

Outcomes outcomes_of(const Candidate& candidate, const Hypotheses& hypotheses);

double gain_bits(const Outcomes& outcomes, const Hypotheses& hypotheses);

/// Bits of two checks done one after the other.
double gain_bits_of_both(const Outcomes& first, const Outcomes& second, const Hypotheses& hypotheses);

}  // namespace whichwire
