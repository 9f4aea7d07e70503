#include "locate/spares.hpp"

namespace whichwire::search {

const Undoers& Spares::of(Candidate disturber) {
  const auto [at, fresh] = known_.try_emplace(disturber);
  Undoers& undoers = at->second;
  if (!fresh) return undoers;
  for (const auto cut : problem_.undo.cuts_of(disturber)) {
    undoers.beside.push_back(beside(disturber, cut, problem_.undo.of(cut, disturber)));
  }
  std::map<std::vector<std::uint32_t>, std::uint32_t> known;
  for (const auto& [observation, level] : problem_.signatures[problem_.signature[disturber]]) {
    std::vector<std::uint32_t> by;
    for (std::uint32_t i = 0; i < undoers.beside.size(); ++i) {
      if (undoers.beside[i].spared.test(observation)) by.push_back(i);
    }
    const auto [sort, is_new] = known.try_emplace(std::move(by), static_cast<std::uint32_t>(known.size()));
    if (is_new) undoers.sorts.push_back(sort->first);
    undoers.sort.emplace_back(observation, sort->second);
  }
  return undoers;
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
