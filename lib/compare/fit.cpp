#include "compare/fit.hpp"

#include <algorithm>
#include <cmath>

#include "compare/numbers.hpp"
#include "locate/likelihoods.hpp"
#include "locate/network_problem.hpp"
#include "locate/search.hpp"
#include "scan/accused.hpp"

namespace whichwire {
namespace {

/// A ratio of 3 is the least that is said, so a hundredth will do.
constexpr search::Effort effort{.outside = 1e-2, .most_work = most_work_of_fit};

bool answered(const ModuleSeen& seen) { return seen.answer == Answer::yes || seen.answer == Answer::refused; }
bool silent(const ModuleSeen& seen) { return seen.answer == Answer::no || seen.answer == Answer::not_fitted; }

/// Whether a code says something about a module or bus that the network has.
bool understood(const Network& network, const ModuleSeen& reporter, const CodeSeen& code) {
  const std::size_t module = index_of(network.modules, reporter.module);
  if (module == nowhere) return false;
  if (!code.misses.empty()) {
    const auto has_role = [&](const Module& one) {
      return std::find(one.roles.begin(), one.roles.end(), code.misses) != one.roles.end();
    };
    return index_of(network.modules, code.misses) != nowhere ||
           std::any_of(network.modules.begin(), network.modules.end(), has_role);
  }
  const Accused accused = accused_by(network, module, code);
  return !accused.modules.empty() || accused.bus != nowhere || accused.kind == CodeKind::bus_fault ||
         accused.kind == CodeKind::bus_off;
}

void add_strangers(Fit& fit, const ComparedSide& side) {
  const double answers = std::log(compare_number("stranger-answers"));
  const double is_silent = std::log1p(-compare_number("stranger-answers"));
  for (const ModuleSeen& seen : side.scan.modules) {
    const std::size_t module = index_of(side.effects.network().modules, seen.module);
    if (module != nowhere) {
      if (silent(seen) && !side.effects.network().modules[module].optional) fit.missing.push_back(seen.module);
      continue;
    }
    if (answered(seen)) fit.strangers.push_back(seen.module);
    if (answered(seen) || silent(seen)) fit.low += answered(seen) ? answers : is_silent;
  }
}

/// A code that only the other network understands came from nothing here. Both scans list the same codes.
void add_codes(Fit& fit, const ComparedSide& side, const ComparedSide& other) {
  const double from_nothing = log_likelihood_of("lost-unknown").front();
  const auto& modules = side.scan.modules;
  for (std::size_t m = 0; m < std::min(modules.size(), other.scan.modules.size()); ++m) {
    const ModuleSeen &here = modules[m], &there = other.scan.modules[m];
    if (index_of(side.effects.network().modules, here.module) == nowhere) continue;
    for (std::size_t c = 0; c < std::min(here.codes.size(), there.codes.size()); ++c) {
      if (understood(side.effects.network(), here, here.codes[c])) continue;
      if (!understood(other.effects.network(), there, there.codes[c])) continue;
      fit.low += from_nothing;
      fit.codes_unknown.push_back(here.codes[c].written.empty() ? here.codes[c].text : here.codes[c].written);
    }
  }
}

/// A function that only the other network has works or fails for reasons of its own here.
void add_functions(Fit& fit, const ComparedSide& side, const ComparedSide& other) {
  for (const FunctionSeen& seen : side.scan.functions) {
    if (index_of(side.effects.network().functions, seen.function) != nowhere) continue;
    if (index_of(other.effects.network().functions, seen.function) == nowhere) continue;
    fit.low += log_likelihood_of(seen.works ? "function-works" : "function-fails").front();
  }
}

/// log P(observations | network): the mass of all sets of faults, by the mass of their odds.
void add_mass(Fit& fit, const ComparedSide& side, const std::vector<Observation>& evidence) {
  const auto made = problem_of(side.effects, side.faults, evidence, {side.scan.key, side.scan.tool_has_own_battery});
  const auto found = search::search(made.problem, effort);
  double without_fault = 0, at_best = 0, prior = 0;
  for (const Observation& seen : evidence) {
    without_fault += seen.log_likelihood.front();
    at_best += *std::max_element(seen.log_likelihood.begin(), seen.log_likelihood.end());
  }
  for (const double log_odds : made.problem.log_odds) prior += search::log1p_exp(log_odds);
  const double outside = fit.low;
  fit.low = outside + without_fault + found.root->low - prior;
  // No prediction makes the scan likelier than the best level of every observation.
  fit.high = std::min(fit.low + std::log1p(found.root->slack()), outside + at_best);
}

Fit fit_of(const ComparedSide& side, const ComparedSide& other, const LocateOptions& options) {
  Fit fit;
  const Ranking ranking = locate(side.effects, side.faults, side.scan, options);
  fit.verdict = verdict_of(side.effects.network(), ranking);
  add_strangers(fit, side);
  add_codes(fit, side, other);
  add_functions(fit, side, other);
  add_mass(fit, side, ranking.evidence);
  return fit;
}

/// The strength of a proven log ratio.
Fits::Strength strength_of(double log_ratio) {
  if (log_ratio >= std::log(compare_number("very-strong"))) return Fits::Strength::very_strong;
  if (log_ratio >= std::log(compare_number("strong"))) return Fits::Strength::strong;
  if (log_ratio >= std::log(compare_number("positive"))) return Fits::Strength::positive;
  return Fits::Strength::none;
}

}  // namespace

Fits fits_of(const ComparedSide& a, const ComparedSide& b, const LocateOptions& options) {
  Fits fits{fit_of(a, b, options), fit_of(b, a, options), Fits::Strength::none, false};
  fits.for_b = fits.b.low + fits.b.high > fits.a.low + fits.a.high;
  const Fit &better = fits.for_b ? fits.b : fits.a, &worse = fits.for_b ? fits.a : fits.b;
  fits.strength = strength_of(better.low - worse.high);
  // Where the search was cut short, what is proven may be less than what is so.
  const bool open = strength_of(std::max(better.high - worse.low, worse.high - better.low)) != fits.strength;
  if (fits.strength == Fits::Strength::none && open) fits.strength = Fits::Strength::not_known;
  return fits;
}

}  // namespace whichwire
