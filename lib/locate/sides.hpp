// What a segment parts: who is on either side of it when all its lines are open.
// Source: connected components (Boost.Graph) of the bus without the segment. Tests: tests/checks/verdict_class.cpp.
#pragma once

#include <vector>
#include <whichwire/network.hpp>

namespace whichwire {

struct Side {
  std::vector<std::size_t> modules;  ///< ascending
  std::size_t terminators = 0;
  bool connector = false;  ///< the diagnostic connector is on this side
};

struct Sides {
  bool parted = false;  ///< false: another way round joins the two ends
  Side from, to;        ///< the segment's `from` side and `to` side; equal to the whole bus when not parted
};

Sides sides_of(const Bus& bus, std::size_t segment);

/// The module whose own stub the segment is: it alone is cut off from the rest; or `nowhere`. Where a link joins
/// just two modules it counts as the stub of the one that is no gateway, else of its `to` end. The commander's own
/// segment of a LIN cuts off everybody and is no stub.
std::size_t stub_owner(const Network& network, std::size_t bus, std::size_t segment);

/// Whether the segment cuts off nothing but the diagnostic connector.
bool connector_stub(const Bus& bus, std::size_t segment);

bool gateway(const Network& network, std::size_t module);

}  // namespace whichwire
