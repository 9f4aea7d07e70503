// Sheets of paper, one below another: what lies across the end of one goes on upon the next.
// Tests: tests/draw/paper.cpp.
#pragma once

#include "draw/block.hpp"
#include "draw/drawing.hpp"

namespace whichwire::draw {

constexpr double usual_sheet = 960;  ///< how wide a sheet is, unless something needs a larger one

/// Sheets as wide as the picture on them, in the proportions of A4 (ISO 216).
class Sheets {
 public:
  explicit Sheets(double width) : width_(width) {}

  double width() const { return width_; }
  double height() const { return width_ * 297 / 210; }
  /// Between the margins of one.
  double room() const { return height() - 2 * margin; }

  /// Where the first sheet begins of which nothing is above `y`.
  double next(double y) const;
  /// The first place from `y` on with that much room on one sheet, where a sheet has so much.
  double top_with_room(double y, double height) const;
  /// Moves rows that would be cut to the next sheet, with all below them; wires between rows grow longer. `dy`: by how
  /// much the block will be moved onto the page. A row that no sheet holds stays where it is.
  Block over(Block block, double dy) const;

 private:
  double width_;
};

/// How wide sheets must be to have that much room.
double sheet_with_room(double height);

/// How high the first row is, and the highest; nothing but wires leads from one row to another.
struct RowHeights {
  double first = 0, highest = 0;
};
RowHeights row_heights(const Block& block);

}  // namespace whichwire::draw
