// The search's result: an and/or tree that holds every set of candidates it could not rule out, factored.
// Each set appears once. A Both node multiplies what its parts weigh, a Choice adds what its options weigh.
// All masses are relative to the weight of the set chosen above, in natural logs; `lost` is a proven upper bound of all
// that is missing below, `slack` the same as a share of what was found, which may be beyond what a double can hold.
#pragma once

#include <cmath>
#include <memory>

#include "locate/problem.hpp"

namespace whichwire::search {

struct Choice;

/// A candidate of small effect here; the product over them is a lower bound of their joint mass.
struct Minor {
  Candidate candidate;
  bool listed;      ///< it improves something and is shown with what it improves; else it is only summed
  double log_odds;  ///< odds given the set chosen above, and what others surely spare it
  double helped;    ///< the second of these
  double present;   ///< probability, at most
  double met = 0;   ///< odds of all others that may bring more loss together with it
};

struct Both {
  double low = 0;                 ///< log of the mass found
  double lost = -INFINITY;        ///< log
  double spread = 0;              ///< log of how much more the minors may weigh than is found of them
  double missing = -INFINITY;     ///< log of a bound of what was left out here
  double best = 0;                ///< log weight of the heaviest listed set
  double apart = 0;               ///< log factor of hidden candidates and of minors that are not listed
  double paired = 0;              ///< log factor by which `apart` is too low for one set that is weighed exactly
  std::vector<Candidate> hidden;  ///< free: nothing observed depends on them, they keep their odds
  std::vector<Minor> minors;      ///< listed ones first, heaviest first
  std::size_t listed_minors = 0;
  /// Independent of one another. The same one may hang below several nodes.
  std::vector<std::shared_ptr<const Choice>> choices;

  double slack() const { return std::exp(lost - low); }
};

struct Option {
  std::vector<Candidate> members;  ///< alike in every context left: at least one is present; empty: none
  bool listed = false;             ///< it may improve something and is shown; else it is only summed
  double ratio = 0;                ///< log weight against the set without it
  std::unique_ptr<Both> rest;
};

struct Choice {
  double low = 0, lost = -INFINITY, best = 0;
  double missing = -INFINITY;  ///< log of a bound of what was left out here
  std::vector<Option> options;
};

double log_sum(double a, double b);
/// log(1 + exp(x)), of large x too.
double log1p_exp(double x);
/// log(exp(a) - 1) for a > 0.
double log_minus_one(double a);

/// Settles `low`, `lost` and `best` of a node from its parts; `missing` is a bound relative to the set above, in logs.
void settle(Both& both, double missing);
void settle(Choice& choice, double missing);

}  // namespace whichwire::search
