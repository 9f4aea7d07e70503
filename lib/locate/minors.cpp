// Candidates that improve little where the search stands: taken as if independent where the error of that is small
// enough; those with a part in an error that is too large are searched one by one.
#include <algorithm>
#include <cmath>

#include "locate/expand.hpp"
#include "locate/minor_error.hpp"

namespace whichwire::search {

bool Expander::take_as_minors(Context& context, Part& part, double threshold, PartFound& found) {
  // Those that are not listed first, as Help wants it; of them those that lose little, to whom little can be spared.
  const auto& prospects = context.prospects();
  const auto lost = [&](std::uint32_t i) { return problem_.log_odds[prospects[i].candidate] - prospects[i].ratio; };
  std::stable_sort(part.minor.begin(), part.minor.end(), [&](auto a, auto b) {
    const bool is_listed = shown(problem_, prospects[a]), other = shown(problem_, prospects[b]);
    return is_listed != other ? other : lost(a) < lost(b);
  });
  std::vector<const Prospect*> minors;
  for (const auto i : part.minor) minors.push_back(&prospects[i]);
  const MinorError error(problem_, context, minors, threshold);
  work_ += error.work();
  const double allowed = error.allowed();
  if (error.least() < 0.5 || std::expm1(error.whole()) > allowed) {
    const auto searched = error.to_be_searched();
    if (!searched.empty()) {
      std::vector<std::uint32_t> left;
      for (std::uint32_t k = 0; k < minors.size(); ++k)
        (searched[k] != 0 ? part.active : left).push_back(part.minor[k]);
      std::sort(part.active.begin(), part.active.end());
      std::sort(left.begin(), left.end());
      part.minor.swap(left);
      return false;
    }
  }
  found.spread = std::max(0.0, error.whole());  // rounding may leave less than nothing
  found.apart = found.mass = std::log(error.least());
  found.paired = std::log(error.least_apart() / error.least());
  for (std::size_t k = 0; k < minors.size(); ++k) {
    const double helped = error.surely_helped(k);
    found.mass += log1p_exp(error.exact(k) + helped);
    found.minors.push_back(
        {minors[k]->candidate, error.listed(k), error.exact(k) + helped, helped, error.present(k), error.met_by(k)});
  }
  return true;
}

void Expander::sort_minors(Both& node) {
  const auto unlisted =
      std::stable_partition(node.minors.begin(), node.minors.end(), [](const Minor& minor) { return minor.listed; });
  node.listed_minors = static_cast<std::size_t>(unlisted - node.minors.begin());
  std::stable_sort(node.minors.begin(), unlisted,
                   [](const Minor& a, const Minor& b) { return a.log_odds > b.log_odds; });
  for (auto minor = unlisted; minor != node.minors.end(); ++minor) node.apart += log1p_exp(minor->log_odds);
}

}  // namespace whichwire::search
