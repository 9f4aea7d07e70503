#include "locate/problem.hpp"

#include <algorithm>

namespace whichwire::search {

namespace {

template <class Counts>
bool meet(const std::vector<Meeting>& ones, const std::vector<Meeting>& others, Counts counts) {
  for (const Meeting& mine : ones) {
    for (const Meeting& other : others) {
      if (mine.group != other.group || !counts(mine, other)) continue;
      if (mine.side == 0 || other.side == 0 || mine.side != other.side) return true;
    }
  }
  return false;
}

}  // namespace

bool Problem::meets(Candidate a, Candidate b) const {
  return !meetings.empty() && meet(meetings[a], meetings[b], [](const Meeting&, const Meeting&) { return true; });
}

bool Problem::meets_by_itself(Candidate a, Candidate b) const {
  const auto counts = [](const Meeting& mine, const Meeting& other) {
    return !mine.through_others && !other.through_others;
  };
  return !meetings.empty() && meet(meetings[a], meetings[b], counts);
}

Candidate add_candidate(Problem& problem, double log_odds, std::span<const std::uint32_t> observations) {
  std::vector<Raised> raised;
  for (const auto observation : observations) raised.push_back({observation, Level::down});
  std::sort(raised.begin(), raised.end(), [](const Raised& a, const Raised& b) { return a.question < b.question; });
  problem.log_odds.push_back(log_odds);
  problem.signature.push_back(static_cast<std::uint32_t>(problem.signatures.size()));
  problem.signatures.push_back(std::move(raised));
  return static_cast<Candidate>(problem.log_odds.size() - 1);
}

}  // namespace whichwire::search
