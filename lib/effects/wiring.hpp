// One bus as a graph of points and segments, with the tester's own point where the bus is at the diagnostic connector.
// Boost.Graph's union-find finds the islands, its biconnected components tell which segments are bridges.
#pragma once

#include <cstdint>
#include <span>
#include <utility>
#include <vector>
#include <whichwire/network.hpp>

namespace whichwire {

using PointIndex = std::uint16_t;
constexpr PointIndex no_point = 0xffff;

struct Wiring {
  std::vector<End> points;                               ///< the tester's own point is the last, if there is one
  std::vector<std::pair<PointIndex, PointIndex>> edges;  ///< segments in their order, then the tester link
  PointIndex tester = no_point;
  std::vector<PointIndex> terminators;           ///< point of each
  PointIndex added = no_point;                   ///< where an unlisted device is taken to be
  bool tree = true;                              ///< every segment is a bridge
  std::vector<PointIndex> module_point;          ///< by module index; no_point: not on this bus
  std::vector<std::vector<PointIndex>> without;  ///< by point: labels of the pieces that are left without it

  /// Whether every way between two points leads through a third, or it is one of them.
  bool between(PointIndex x, PointIndex p, PointIndex q) const {
    return x == p || x == q || without[x][p] != without[x][q];
  }
  PointIndex point_of(std::size_t module) const { return module_point[module]; }
};

Wiring wiring_of(const Network&, std::size_t bus);

/// Labels the points 0, 1, 2 … by connected piece, using only the edges for which `whole` is true.
void label_pieces(const Wiring&, std::span<const std::uint8_t> whole, std::vector<PointIndex>& label);

}  // namespace whichwire
