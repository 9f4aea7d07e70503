// The box of a module or of the diagnostic connector, with what is said of it below.
// Tests: tests/draw/picture.cpp.
#pragma once

#include "draw/block.hpp"
#include "draw/drawing.hpp"

namespace whichwire::draw {

struct Boxed {
  Block block;        ///< the top of the box centred at the origin
  double height = 0;  ///< with what stands below it
  bool again = false;
};

/// The box of `end`, a module or the connector, on `bus`. Where it already stands on another bus, or `again` on this
/// one, a torn box that says where.
Boxed box_of(Drawing& drawing, const End& end, std::size_t bus, bool again = false);

/// What the scan says of the module; one that is always fitted but shown as not fitted is silent.
Thing::State state_of(const Drawing& drawing, std::size_t module);

/// The two lines that cross a wire where its lines part: the sign of an in-line connector, of a terminator.
Thing joint_sign(const Drawing& drawing, std::size_t point, std::size_t bus, Spot at, bool upright);

/// The name of a point, what is suspected of it and the checks at it.
std::vector<struct Note> notes_of_point(const Drawing& drawing, std::size_t point);

}  // namespace whichwire::draw
