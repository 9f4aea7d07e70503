// What recurs across units of one build, and how unlikely that is by chance.
//
// The model. Where nothing recurs, each fault of a build falls on its parts in the proportions of the rates' odds,
// independently from unit to unit. Of T faults (the expected number in all its units), those on a part with the share w
// are then binomial, and the part's own number S is the sum over units of the probability that the unit has it. A sum
// of probabilities spreads less than the count that it expects, so the binomial's tail at S, continued between whole
// numbers by the incomplete beta function, errs to the safe side. It is multiplied by the number of all parts and
// groups of parts looked at (Bonferroni). How often faults are at all does not enter, only what fails beside what.
//
// Narrowing. How often one part is in one broken state on this build is the table's rate times a factor with a gamma
// prior of mean 1 and `strength`; the other units' S and T w are its counts and its exposure (gamma-Poisson), so the
// factor is expected to be (strength + S) / (strength + T w), both without the unit itself. Each set of faults of the
// unit is weighed by the factors of its faults. Tests: tests/fleet/recurring.cpp, on simulated fleets.
#pragma once

#include <vector>
#include <whichwire/fleet.hpp>

#include "fleet/groups.hpp"

namespace whichwire {

/// Of one finding: how likely its unit has each group's parts, and how many faults it has.
struct Load {
  std::vector<std::pair<std::size_t, double>> groups;  ///< rising
  double faults = 0;
};

Load load_of(const Groups& groups, const UnitFinding& finding);

/// P(X >= count) of X binomial, continued between whole counts.
double binomial_tail(double trials, double share, double count);

struct Totals {
  std::vector<double> units;  ///< by group: S
  double faults = 0;          ///< T
};

/// The finding in the light of the other units: `own` is its part in the totals.
UnitFinding narrowed(const Build& build, const Groups& groups, const UnitFinding& finding, const Load& own,
                     const Totals& totals);

}  // namespace whichwire
