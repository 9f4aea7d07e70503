// Sheets of paper, one below another: what lies across the end of one goes on upon the next.
#pragma once

#include "draw/block.hpp"
#include "draw/drawing.hpp"

namespace whichwire::draw {

constexpr double room_of_sheet = sheet_height - 2 * margin;

/// Where the first sheet begins of which nothing is above `y`.
double next_sheet(double y);

/// The first place from `y` on with that much room on one sheet, where a sheet has so much.
double top_with_room(double y, double height);

/// How far down the first row reaches, from the top of all.
double height_of_first_row(const Block& block);

/// Moves rows that would be cut to the next sheet, with all below them; wires between rows grow longer. `dy`: by how
/// much the block will be moved onto the page. A row that no sheet holds stays where it is.
Block over_sheets(Block block, double dy);

}  // namespace whichwire::draw
