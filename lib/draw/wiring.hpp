// The wiring of one bus as a tree from one end, and the way along its main line. A bus that is not a ring has few
// loops or none; what closes one is drawn as a second place of the same part. Tests: tests/draw/wiring.cpp.
#pragma once

#include <vector>
#include <whichwire/network.hpp>

namespace whichwire::draw {

struct Node {
  End end;
  std::size_t segment = nowhere;  ///< that leads here
  bool again = false;             ///< closes a loop: stands elsewhere already
  std::vector<Node> children;
};

/// From `root`, in the order of the file.
Node tree_from(const Bus& bus, const End& root);

/// Where the main line of the bus begins: at `wished` if the bus has it as an end of its line or has no end that is
/// known, else at a terminator, else at one end of the longest way.
End beginning_of(const Bus& bus, const End* wished);

/// From the root to the far end of the main line: a terminator, else the end of the longest way.
std::vector<const Node*> longest_way(const Bus& bus, const Node& root);

bool has_end(const Bus& bus, const End& end);
std::size_t modules_in(const Node& node);

}  // namespace whichwire::draw
