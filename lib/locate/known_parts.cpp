#include "locate/known_parts.hpp"

#include <algorithm>
#include <cmath>

namespace whichwire::search {

// The chosen ones act on a part by the levels at which they leave its observations, and those that hang together with
// one of it in other ways too. What limits a disturber is of the whole node.
KnownParts::Key KnownParts::key_of(const Problem& problem, const Context& context, const Part& part) {
  const auto& prospects = context.prospects();
  std::vector<std::uint32_t> members = part.active;
  members.insert(members.end(), part.minor.begin(), part.minor.end());
  std::sort(members.begin(), members.end(),
            [&](auto a, auto b) { return prospects[a].candidate < prospects[b].candidate; });
  Key key = {static_cast<std::uint32_t>(members.size())};
  std::vector<Candidate> beside;
  for (const auto i : members) {
    const Prospect& prospect = prospects[i];
    if (prospect.only != nullptr) return {};
    key.push_back(2 * prospect.candidate + (prospect.company ? 1 : 0));
    if (prospect.beside) context.add_companions(prospect, beside);
  }
  std::sort(beside.begin(), beside.end());
  beside.erase(std::unique(beside.begin(), beside.end()), beside.end());
  key.push_back(static_cast<std::uint32_t>(beside.size()));
  key.insert(key.end(), beside.begin(), beside.end());

  constexpr auto levels = static_cast<std::uint32_t>(level_count);
  Observations seen(problem.observations());
  for (const auto i : members) {
    context.visit_reach(prospects[i], [&](std::uint32_t observation) {
      if (seen.test_set(observation)) return;
      const auto level = static_cast<std::uint32_t>(context.level(observation));
      const auto floor = static_cast<std::uint32_t>(context.floor(observation));
      key.push_back((observation * levels + level) * levels + floor);
    });
    for (const auto& [observation, alone] : prospects[i].lowers) {
      key.push_back(observation * levels + static_cast<std::uint32_t>(alone));
    }
  }
  return key;
}

const PartFound* KnownParts::find(const Key& key, double threshold) const {
  if (key.empty()) return nullptr;
  const auto at = known_.find(key);
  return at != known_.end() && at->second.threshold <= threshold ? &at->second.found : nullptr;
}

void KnownParts::remember(Key key, double threshold, const PartFound& found) {
  if (key.empty()) return;
  if (known_.size() >= most) known_.clear();
  const double left_out = found.mass + log_minus_one(found.more());
  known_.insert_or_assign(std::move(key), Known{found, std::min(threshold, left_out)});
}

}  // namespace whichwire::search
