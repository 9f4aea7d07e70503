// Buses of which nothing is said: on paper and on a phone each is a line of its module's names, so that the others can
// be drawn large. Tests: tests/draw/paper.cpp.
#pragma once

#include <vector>

#include "draw/block.hpp"
#include "draw/drawing.hpp"

namespace whichwire::draw {

/// Of each bus whether nothing in it is marked and all of its modules answer or need not; of none where that goes for
/// all of them.
std::vector<bool> quiet_buses(const Drawing& drawing);

/// A piece of the bus's line and the names of its modules; those of quiet buses that hang from them too, which then
/// count as drawn.
Block folded(Drawing& drawing, const std::vector<bool>& quiet, std::size_t bus, double width);

}  // namespace whichwire::draw
