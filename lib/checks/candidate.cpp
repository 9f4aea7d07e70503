// See candidate.hpp. Tests: tests/checks/gain.cpp.
#include "checks/candidate.hpp"

#include <algorithm>

namespace whichwire {
namespace {

/// `right` on one outcome, the rest evenly over the others.
void add_spread(std::vector<double>& chances, std::size_t outcome, double right, double share) {
  const double other = chances.size() > 1 ? (1 - right) / static_cast<double>(chances.size() - 1) : 0;
  for (std::size_t i = 0; i < chances.size(); ++i) chances[i] += share * (i == outcome ? right : other);
}

}  // namespace

std::size_t outcome_named(const Candidate& candidate, std::string_view name) {
  const auto found = std::find(candidate.outcomes.begin(), candidate.outcomes.end(), name);
  return found == candidate.outcomes.end() ? 0 : static_cast<std::size_t>(found - candidate.outcomes.begin());
}

void drop_outcome(Candidate& candidate, std::string_view name) {
  const std::size_t at = outcome_named(candidate, name);
  if (at == 0) return;
  candidate.outcomes.erase(candidate.outcomes.begin() + static_cast<std::ptrdiff_t>(at));
  candidate.check.expect.erase(candidate.check.expect.begin() + static_cast<std::ptrdiff_t>(at));
}

std::vector<double> chances_of(const Candidate& candidate, const Hypothesis& hypothesis) {
  std::vector<double> chances(candidate.check.expect.size());
  const CheckKind& kind = *candidate.kind;
  double left = 1;
  const Sight now = candidate.sees(hypothesis.present);
  if (now.outcome > 0) {
    add_spread(chances, now.outcome, kind.seen, now.share * (1 - now.or_else_share));
    if (now.or_else > 0) add_spread(chances, now.or_else, kind.seen, now.share * now.or_else_share);
    left -= now.share;
  }
  for (const std::vector<Fault>& alone : hypothesis.passing) {
    const Sight once = candidate.sees(alone);
    if (once.outcome == 0) continue;
    // Rarely there while one measures: the right outcome sometimes, otherwise good.
    const double share = once.share * left;
    chances[once.outcome] += share * kind.at_times;
    chances[0] += share * (1 - kind.at_times);
    left -= share;
    break;
  }
  add_spread(chances, 0, kind.fine, left);
  return chances;
}

std::function<Sight(const std::vector<Fault>&)> first_seen(std::function<Sight(const Fault&)> sees) {
  return [sees = std::move(sees)](const std::vector<Fault>& present) {
    Sight best{0, 1};
    for (const Fault& fault : present) {
      const Sight sight = sees(fault);
      if (sight.outcome > 0 && (best.outcome == 0 || sight.share > best.share)) best = sight;
    }
    return best;
  };
}

}  // namespace whichwire
