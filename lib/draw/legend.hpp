// What the signs of a picture mean, of those that it has.
#pragma once

#include "draw/block.hpp"

namespace whichwire::draw {

Block legend_of(const std::vector<Thing>& things, double width);

}  // namespace whichwire::draw
