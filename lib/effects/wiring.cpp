#include "effects/wiring.hpp"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/biconnected_components.hpp>
#include <boost/graph/incremental_components.hpp>
#include <boost/pending/disjoint_sets.hpp>
#include <numeric>

namespace whichwire {
namespace {

using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property,
                                    boost::property<boost::edge_index_t, std::size_t>>;

PointIndex point_at(Wiring& wiring, const End& end) {
  const auto found = std::find(wiring.points.begin(), wiring.points.end(), end);
  if (found != wiring.points.end()) return static_cast<PointIndex>(found - wiring.points.begin());
  wiring.points.push_back(end);
  return static_cast<PointIndex>(wiring.points.size() - 1);
}

/// A bus is a tree of bridges when no biconnected component has more than one edge.
bool every_edge_a_bridge(const Wiring& wiring) {
  Graph graph(wiring.points.size());
  for (std::size_t i = 0; i < wiring.edges.size(); ++i) {
    boost::add_edge(wiring.edges[i].first, wiring.edges[i].second, i, graph);
  }
  std::vector<std::size_t> component(wiring.edges.size());
  const auto index = boost::get(boost::edge_index, graph);
  const auto map = boost::make_iterator_property_map(component.begin(), index);
  return boost::biconnected_components(graph, map) == wiring.edges.size();
}

}  // namespace

Wiring wiring_of(const Network& network, std::size_t bus_index) {
  const Bus& bus = network.buses[bus_index];
  Wiring wiring;
  for (const auto& segment : bus.segments) {
    const auto from = point_at(wiring, segment.from);
    wiring.edges.emplace_back(from, point_at(wiring, segment.to));
  }
  for (const auto& terminator : bus.terminators) wiring.terminators.push_back(point_at(wiring, terminator.at));
  const End connector{End::Kind::diagnostic_connector, nowhere};
  for (const auto& pins : network.diagnostic_connector.buses) {
    if (pins.bus != bus_index || wiring.tester != no_point) continue;
    const auto at = point_at(wiring, connector);
    wiring.tester = static_cast<PointIndex>(wiring.points.size());
    wiring.points.push_back(connector);
    wiring.edges.emplace_back(at, wiring.tester);
  }
  wiring.added = wiring.tester != no_point ? wiring.tester : PointIndex{0};
  wiring.module_point.assign(network.modules.size(), no_point);
  for (std::size_t p = 0; p < wiring.points.size(); ++p) {
    if (wiring.points[p].kind == End::Kind::module) {
      wiring.module_point[wiring.points[p].index] = static_cast<PointIndex>(p);
    }
  }
  wiring.tree = every_edge_a_bridge(wiring);
  std::vector<std::uint8_t> whole(wiring.edges.size());
  for (std::size_t x = 0; x < wiring.points.size(); ++x) {
    for (std::size_t e = 0; e < whole.size(); ++e) {
      whole[e] = wiring.edges[e].first != x && wiring.edges[e].second != x ? 1 : 0;
    }
    label_pieces(wiring, whole, wiring.without.emplace_back());
  }
  return wiring;
}

void label_pieces(const Wiring& wiring, std::span<const std::uint8_t> whole, std::vector<PointIndex>& label) {
  const auto count = wiring.points.size();
  static thread_local std::vector<PointIndex> rank, parent;
  rank.assign(count, 0);
  parent.resize(count);
  std::iota(parent.begin(), parent.end(), PointIndex{0});
  boost::disjoint_sets<PointIndex*, PointIndex*> sets(rank.data(), parent.data());
  for (std::size_t e = 0; e < wiring.edges.size(); ++e) {
    if (whole[e]) sets.union_set(wiring.edges[e].first, wiring.edges[e].second);
  }
  label.resize(count);
  for (std::size_t p = 0; p < count; ++p) label[p] = sets.find_set(static_cast<PointIndex>(p));
}

}  // namespace whichwire
