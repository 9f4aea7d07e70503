// What the signs of a picture mean, of those that it has.
#pragma once

#include "draw/block.hpp"

namespace whichwire::draw {

/// In words; empty without a scan.
std::string_view meaning_of(Thing::State state);

Block legend_of(const std::vector<Thing>& things, double width);

}  // namespace whichwire::draw
