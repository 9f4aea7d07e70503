// "Did you mean": the known word that a mistyped one is closest to.
// Optimal string alignment distance (a swap of neighbours counts once), letter case ignored, cut off early.
// Tested in tests/network/nearest_test.cpp.
#include <algorithm>
#include <array>
#include <cctype>
#include <whichwire/mistake.hpp>

namespace whichwire {

namespace {

constexpr std::size_t longest = 64;  // longer words are no slip of the finger, and the time stays bounded

std::string folded(std::string_view word) {
  std::string out;
  for (const char letter : word) {
    const bool separates = letter == '_' || letter == ' ';
    out += separates ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  }
  return out;
}

/// Distance of the two words, or `limit + 1` when it is larger than `limit`.
std::size_t distance(const std::string& a, const std::string& b, std::size_t limit) {
  const std::size_t gap = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  if (gap > limit) return limit + 1;
  using Row = std::array<std::size_t, longest + 1>;
  Row before_last{};
  Row last{};
  Row row{};
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    std::size_t best = row[0];
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
      best = std::min(best, row[j]);
    }
    if (best > limit) return limit + 1;
    before_last = last;
    last = row;
  }
  return last[b.size()];
}

}  // namespace

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  if (word.empty() || word.size() > longest) return {};
  const std::string mine = folded(word);
  std::size_t limit = mine.size() < 3 ? 1 : std::min<std::size_t>(4, (mine.size() + 2) / 3);
  std::string best;
  for (const std::string& candidate : known) {
    if (candidate.empty() || candidate.size() > longest || candidate == word) continue;
    const std::size_t found = distance(mine, folded(candidate), limit);
    const bool closer = found < limit || (found == limit && best.empty());
    if (!closer || found >= std::max(mine.size(), candidate.size())) continue;
    best = candidate;
    limit = found;
    if (limit == 0) break;
  }
  return best;
}

}  // namespace whichwire
