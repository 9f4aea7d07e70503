#include "locate/spares.hpp"

namespace whichwire::search {

const std::vector<Beside>& Spares::of(Candidate disturber) {
  const auto [at, fresh] = known_.try_emplace(disturber);
  if (!fresh) return at->second;
  for (const auto cut : problem_.undo.cuts_of(disturber)) {
    at->second.push_back(beside(disturber, cut, problem_.undo.of(cut, disturber)));
  }
  return at->second;
}

Beside Spares::beside(Candidate disturber, Candidate cut, Undo undo) {
  Beside made{cut, Observations(problem_.observations()), Observations(problem_.observations())};
  const auto& alone = problem_.signatures[problem_.signature[disturber]];
  if (undo != Undo::alone) {
    for (const auto& [observation, level] : alone) made.spared.set(observation);
  }
  if (undo == Undo::wholly) return made;
  const Candidate firm_cut[] = {cut | firmly}, both[] = {disturber, cut | firmly};
  const auto firmly_raised = together_.of(firm_cut);
  const std::vector<Raised> without(firmly_raised.begin(), firmly_raised.end());
  const auto with = together_.of(both);
  auto before = without.begin();
  for (const auto& [observation, level] : with) {
    while (before != without.end() && before->question < observation) ++before;
    const bool also = before != without.end() && before->question == observation && before->level >= level;
    if (!also) made.raised.set(observation);
  }
  auto now = with.begin();
  for (const auto& [observation, level] : alone) {
    while (now != with.end() && now->question < observation) ++now;
    if (now == with.end() || now->question != observation || now->level < level) made.spared.set(observation);
  }
  return made;
}

}  // namespace whichwire::search
