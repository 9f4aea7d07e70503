// Which outcome of a check a person means. Tests: tests/casefile/state.cpp.
#include <algorithm>
#include <whichwire/case_state.hpp>

#include "scan/fold.hpp"

namespace whichwire {

std::optional<std::size_t> outcome_meant(const Check& check, std::string_view words) {
  const std::string typed = folded_key(words);
  if (typed.empty()) return std::nullopt;
  const auto letter = static_cast<std::size_t>(typed[0] - 'a');
  if (typed.size() == 1 && letter < check.expect.size()) return letter;
  std::optional<std::size_t> begins;
  bool several = false;
  for (std::size_t i = 0; i < check.expect.size(); ++i) {
    const std::string label = folded_key(check.expect[i].outcome), name = folded_key(check.expect[i].name);
    if (typed == label || typed == name) return i;
    if (!label.starts_with(typed) && !name.starts_with(typed)) continue;
    several = several || begins.has_value();
    begins = i;
  }
  return several ? std::nullopt : begins;
}

}  // namespace whichwire
