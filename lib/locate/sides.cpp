// The two sides of a segment, by Boost.Graph's connected components. Tests: tests/checks/verdict_class.cpp.
#include "locate/sides.hpp"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>

namespace whichwire {
namespace {

using Wiring = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;

std::vector<End> ends_of(const Bus& bus) {
  std::vector<End> ends;
  const auto add = [&](const End& end) {
    if (std::find(ends.begin(), ends.end(), end) == ends.end()) ends.push_back(end);
  };
  for (const Segment& segment : bus.segments) {
    add(segment.from);
    add(segment.to);
  }
  return ends;
}

std::size_t place_of(const std::vector<End>& ends, const End& end) {
  return static_cast<std::size_t>(std::find(ends.begin(), ends.end(), end) - ends.begin());
}

Side side_of(const Bus& bus, const std::vector<End>& ends, const std::vector<int>& piece, int wanted) {
  Side side;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    if (piece[i] != wanted) continue;
    if (ends[i].kind == End::Kind::module) side.modules.push_back(ends[i].index);
    if (ends[i].kind == End::Kind::diagnostic_connector) side.connector = true;
    for (const Terminator& terminator : bus.terminators) side.terminators += terminator.at == ends[i] ? 1 : 0;
  }
  std::sort(side.modules.begin(), side.modules.end());
  return side;
}

/// The commander of a LIN is no one's lone module: without it nobody on the bus is heard.
bool lone_module(const Bus& bus, const Side& side) {
  return side.modules.size() == 1 && !side.connector && side.modules[0] != bus.commander;
}
bool nobody(const Side& side) { return side.modules.empty() && !side.connector; }

}  // namespace

Sides sides_of(const Bus& bus, std::size_t segment) {
  const std::vector<End> ends = ends_of(bus);
  Wiring wiring(ends.size());
  for (std::size_t i = 0; i < bus.segments.size(); ++i) {
    if (i == segment) continue;
    boost::add_edge(place_of(ends, bus.segments[i].from), place_of(ends, bus.segments[i].to), wiring);
  }
  std::vector<int> piece(ends.size());
  if (!ends.empty()) boost::connected_components(wiring, piece.data());
  const Segment& cut = bus.segments.at(segment);
  const int from = piece[place_of(ends, cut.from)];
  const int to = piece[place_of(ends, cut.to)];
  return {from != to, side_of(bus, ends, piece, from), side_of(bus, ends, piece, to)};
}

bool gateway(const Network& network, std::size_t module) {
  return std::any_of(network.gateways.begin(), network.gateways.end(),
                     [&](const Gateway& each) { return each.module == module; });
}

std::size_t stub_owner(const Network& network, std::size_t bus, std::size_t segment) {
  const Bus& cut = network.buses.at(bus);
  if (cut.protocol == Protocol::ring) return nowhere;  // any break takes the whole ring
  const Sides sides = sides_of(cut, segment);
  if (!sides.parted) return nowhere;
  const bool from = lone_module(cut, sides.from);
  const bool to = lone_module(cut, sides.to);
  if (from && to) return gateway(network, sides.to.modules[0]) ? sides.from.modules[0] : sides.to.modules[0];
  if (to && !nobody(sides.from)) return sides.to.modules[0];
  if (from && !nobody(sides.to)) return sides.from.modules[0];
  return nowhere;
}

bool connector_stub(const Bus& bus, std::size_t segment) {
  const Sides sides = sides_of(bus, segment);
  const auto only_connector = [](const Side& side) { return side.connector && side.modules.empty(); };
  return sides.parted && (only_connector(sides.from) || only_connector(sides.to));
}

}  // namespace whichwire
