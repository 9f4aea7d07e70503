#include "casefile/feeds.hpp"

#include <algorithm>

namespace whichwire {

bool hangs_from(const Network& network, std::size_t feed, std::size_t above) {
  for (std::size_t steps = 0; feed != nowhere && above != nowhere && steps <= network.feeds.size(); ++steps) {
    if (feed == above) return true;
    feed = network.feeds[feed].from;
  }
  return false;
}

bool fed_through(const Network& network, const Module& module, std::size_t above) {
  return std::ranges::any_of(module.power, [&](const PowerPin& pin) { return hangs_from(network, pin.feed, above); });
}

}  // namespace whichwire
