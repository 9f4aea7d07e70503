// Feeds and grounds as lists: each feed below the one that it hangs from, with what it feeds; each ground with what it
// carries. Tests: tests/draw/picture.cpp.
#pragma once

#include "draw/block.hpp"
#include "draw/drawing.hpp"

namespace whichwire::draw {

/// All of them where they are asked for, else those that are suspected or to be probed; empty for none.
Block supplies_of(const Drawing& drawing, double width);

}  // namespace whichwire::draw
