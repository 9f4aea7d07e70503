#include "locate/left_alone.hpp"

#include <algorithm>

namespace whichwire {
namespace {

using Path = std::vector<std::size_t>;  // segments

bool on(const Path& path, std::size_t edge) { return std::find(path.begin(), path.end(), edge) != path.end(); }

/// The ways from one point to the next modules, past no other, the shortest first.
class Ways {
 public:
  explicit Ways(const Wiring& wiring) : wiring_(wiring), at_(wiring.points.size()) {
    for (std::size_t edge = 0; edge < wiring.edges.size(); ++edge) {
      at_[wiring.edges[edge].first].push_back(edge);
      at_[wiring.edges[edge].second].push_back(edge);
    }
  }

  std::vector<Path> from(PointIndex start) const {
    std::vector<Path> found, way(wiring_.points.size());
    std::vector<PointIndex> reached = {start};
    for (std::size_t next = 0; next < reached.size(); ++next) {
      const PointIndex here = reached[next];
      for (const auto edge : at_[here]) {
        if (!way[here].empty() && way[here].back() == edge) continue;
        const auto [a, b] = wiring_.edges[edge];
        const PointIndex there = a == here ? b : a;
        way[there] = way[here];
        way[there].push_back(edge);
        if (wiring_.points[there].kind == End::Kind::module) {
          found.push_back(way[there]);
        } else {
          reached.push_back(there);
        }
      }
    }
    return found;
  }

 private:
  const Wiring& wiring_;
  std::vector<std::vector<std::size_t>> at_;  // segments by point
};

}  // namespace

// Each break that it takes lies on a way to a next module. The way to the nearest must be lost; where one break does
// that but leaves the way to another, that must be lost, too: so the segments of these ways hold two breaks.
std::vector<std::vector<LeftAlone>> left_alone(const Wiring& wiring) {
  std::vector<std::vector<LeftAlone>> by_edge(wiring.edges.size());
  const Ways ways(wiring);
  for (std::size_t point = 0; point < wiring.points.size(); ++point) {
    if (wiring.points[point].kind != End::Kind::module) continue;
    const auto module = static_cast<PointIndex>(point);
    const auto all = ways.from(module);
    if (all.empty()) continue;
    std::vector<Path> taken = {all.front()};
    Path by_one;
    for (const auto edge : all.front()) {
      const auto past = [&](const Path& path) { return !on(path, edge); };
      if (std::any_of(taken.begin(), taken.end(), past)) continue;
      const auto other = std::find_if(all.begin(), all.end(), past);
      if (other == all.end()) {
        by_one.push_back(edge);
      } else {
        taken.push_back(*other);
      }
    }
    for (std::size_t edge = 0; edge < by_edge.size(); ++edge) {
      const auto leads = [&](const Path& path) { return on(path, edge); };
      if (std::none_of(all.begin(), all.end(), leads)) continue;
      by_edge[edge].push_back({module, on(by_one, edge), std::any_of(taken.begin(), taken.end(), leads)});
    }
  }
  return by_edge;
}

}  // namespace whichwire
