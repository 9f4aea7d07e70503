#include "locate/problem.hpp"

#include <algorithm>

namespace whichwire::search {

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
