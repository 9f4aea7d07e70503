#include <algorithm>
#include <whichwire/network.hpp>

namespace whichwire {

std::vector<std::size_t> modules_on(const Bus& bus) {
  std::vector<std::size_t> modules;
  for (const Segment& segment : bus.segments) {
    for (const End& end : {segment.from, segment.to}) {
      if (end.kind != End::Kind::module) continue;
      if (std::find(modules.begin(), modules.end(), end.index) == modules.end()) modules.push_back(end.index);
    }
  }
  return modules;
}

}  // namespace whichwire
