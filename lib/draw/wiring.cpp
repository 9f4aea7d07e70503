#include "draw/wiring.hpp"

#include <algorithm>
#include <map>

namespace whichwire::draw {

namespace {

using Key = std::pair<End::Kind, std::size_t>;
Key key_of(const End& end) { return {end.kind, end.kind == End::Kind::diagnostic_connector ? 0 : end.index}; }

/// The segments at each end, and which of them and of the ends have their place in the tree.
struct Growing {
  const Bus& bus;
  std::map<Key, std::vector<std::size_t>> segments;
  std::vector<bool> used;
  std::map<Key, bool> placed;

  explicit Growing(const Bus& its_bus) : bus(its_bus), used(its_bus.segments.size(), false) {
    for (std::size_t i = 0; i < bus.segments.size(); ++i) {
      segments[key_of(bus.segments[i].from)].push_back(i);
      segments[key_of(bus.segments[i].to)].push_back(i);
    }
  }

  void grow(Node& node) {
    placed[key_of(node.end)] = true;
    for (const std::size_t segment : segments[key_of(node.end)]) {
      if (used[segment]) continue;
      used[segment] = true;
      const Segment& wire = bus.segments[segment];
      const End& far = wire.from == node.end ? wire.to : wire.from;
      const bool again = placed[key_of(far)];
      node.children.push_back({far, segment, again, {}});
      if (!again) grow(node.children.back());
    }
  }
};

bool is_terminator(const Bus& bus, const End& end) {
  return std::ranges::any_of(bus.terminators, [&](const Terminator& one) { return one.at == end; });
}

/// The way to the deepest node, or to the deepest terminator where there is one.
struct Deepest {
  const Bus& bus;
  std::vector<const Node*> way, best;
  bool best_ends = false;

  void look(const Node& node) {
    way.push_back(&node);
    const bool ends = way.size() > 1 && is_terminator(bus, node.end);
    if (std::pair(ends, way.size()) > std::pair(best_ends, best.size())) {
      best = way;
      best_ends = ends;
    }
    for (const Node& child : node.children) look(child);
    way.pop_back();
  }
};

}  // namespace

Node tree_from(const Bus& bus, const End& root) {
  Node node{root, nowhere, false, {}};
  Growing(bus).grow(node);
  return node;
}

std::vector<const Node*> longest_way(const Bus& bus, const Node& root) {
  Deepest deepest{bus, {}, {}};
  deepest.look(root);
  return deepest.best;
}

bool has_end(const Bus& bus, const End& end) {
  return std::ranges::any_of(bus.segments, [&](const Segment& one) { return one.from == end || one.to == end; });
}

End beginning_of(const Bus& bus, const End* wished) {
  const auto degree = [&](const End& end) {
    return std::ranges::count_if(bus.segments, [&](const Segment& one) { return one.from == end || one.to == end; });
  };
  std::vector<End> ends;
  for (const Terminator& one : bus.terminators)
    if (has_end(bus, one.at)) ends.push_back(one.at);
  if (wished != nullptr && (ends.size() < 2 || degree(*wished) > 1 || is_terminator(bus, *wished))) return *wished;
  if (ends.size() >= 2) return ends.front();
  const Node anywhere = tree_from(bus, bus.segments.front().from);
  Bus plain = bus;
  plain.terminators.clear();
  return longest_way(plain, anywhere).back()->end;
}

std::size_t modules_in(const Node& node) {
  std::size_t count = node.end.kind == End::Kind::module && !node.again ? 1 : 0;
  for (const Node& child : node.children) count += modules_in(child);
  return count;
}

}  // namespace whichwire::draw
