// A check that could be done, with what each set of faults would make it show. Tests: tests/checks/gain.cpp.
#pragma once

#include <functional>
#include <string>
#include <vector>
#include <whichwire/check.hpp>

#include "checks/hypotheses.hpp"
#include "checks/knowledge.hpp"

namespace whichwire {

/// What a check would show.
struct Sight {
  std::size_t outcome = 0;   ///< index into `Check::expect`; 0: good
  double share = 1;          ///< with which probability the fault is within its sight at all
  std::size_t or_else = 0;   ///< another outcome that the fault may show just as well; 0: none
  double or_else_share = 0;  ///< how much of `share` that is
};

struct Candidate {
  Check check;
  const CheckKind* kind = nullptr;
  std::vector<std::string> outcomes;  ///< names of outcomes.csv, one for each of `check.expect`
  std::string place;                  ///< two checks at one place are not both listed
  std::string plug;                   ///< the module at whose plug it is done, or empty
  std::vector<std::string> hazards;
  std::function<Sight(const std::vector<Fault>& present)> sees;
};

/// The place of an outcome by its name; 0 where the check does not have it.
std::size_t outcome_named(const Candidate& candidate, std::string_view name);

/// Takes an outcome out, where the check cannot have it.
void drop_outcome(Candidate& candidate, std::string_view name);

/// P(outcome) for each outcome of the check under a hypothesis.
std::vector<double> chances_of(const Candidate& candidate, const Hypothesis& hypothesis);

/// The outcome of the first fault that the check sees.
std::function<Sight(const std::vector<Fault>&)> first_seen(std::function<Sight(const Fault&)> sees);

}  // namespace whichwire
