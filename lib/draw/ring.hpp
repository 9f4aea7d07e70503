// A ring as a ring: half of its members along the top, the others back along the bottom. Tests: tests/draw/picture.cpp.
#pragma once

#include "draw/block.hpp"
#include "draw/drawing.hpp"

namespace whichwire::draw {

/// The line leaves the spine at the origin and comes back to it below, where the spine is on this ring.
Block ring_of(Drawing& drawing, std::size_t bus);

}  // namespace whichwire::draw
