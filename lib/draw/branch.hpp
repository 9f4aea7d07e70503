// What hangs from a main line: stubs with the in-line connectors on them, splices with stubs of their own, modules, and
// below a gateway the small bus that it alone leads. Everything is laid out downward from the origin; for a branch that
// goes up the caller flips it. Tests: tests/draw/picture.cpp.
#pragma once

#include "draw/block.hpp"
#include "draw/drawing.hpp"
#include "draw/wiring.hpp"

namespace whichwire::draw {

struct Branch {
  Block block;                 ///< the stub begins at the origin; its first wire is the first thing
  double left = 0, right = 0;  ///< how far it reaches to either side
};

struct Stub {
  double clear = 0;   ///< notes begin no higher than this
  double length = 0;  ///< a single box begins no higher than this
};

/// How far down the box of a branch without splices begins; 0 for others.
double natural_length(const Drawing& drawing, std::size_t bus, const Node& node, double clear);

Branch branch_of(Drawing& drawing, std::size_t bus, const Node& node, const Stub& stub);

/// The box of a node with its top centred at the origin; below it the wires to `children` and the small buses that it
/// leads.
Branch box_with_branches(Drawing& drawing, std::size_t bus, const Node& node, const std::vector<const Node*>& children);

/// The first wire of the branch comes to the origin by this way.
void begin_at(Branch& branch, const std::vector<Spot>& way);

/// Buses that hang below the module: small, joined by it, and not drawn yet.
std::vector<std::size_t> hanging_buses(const Drawing& drawing, std::size_t module);

/// A wire of the bus with its suspicion drawn onto it at `mark`.
Thing wire_of(const Drawing& drawing, std::size_t bus, std::size_t segment, std::vector<Spot> path, Spot mark,
              bool upright);

}  // namespace whichwire::draw
