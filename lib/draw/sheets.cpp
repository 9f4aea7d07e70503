#include "draw/sheets.hpp"

#include <algorithm>
#include <cmath>

namespace whichwire::draw {

namespace {

/// Nothing but wires leaves it upward or downward.
struct Row {
  double top = 0, bottom = 0;
  double shift = 0;
};

/// From the top down.
std::vector<Row> rows_of(const Block& block) {
  std::vector<Row> rows;
  for (const Thing& thing : block.things) {
    if (thing.role == Thing::Role::wire || thing.role == Thing::Role::joint) continue;
    const Rectangle at = bounds_of(thing);
    rows.push_back({at.y, at.bottom()});
  }
  std::ranges::sort(rows, {}, &Row::top);
  std::vector<Row> apart;
  for (const Row& row : rows) {
    if (apart.empty() || row.top > apart.back().bottom)
      apart.push_back(row);
    else
      apart.back().bottom = std::max(apart.back().bottom, row.bottom);
  }
  return apart;
}

/// What lies between two rows goes with the nearer one.
double shift_at(const std::vector<Row>& rows, double y) {
  const auto away = [&](const Row& row) { return std::max({row.top - y, y - row.bottom, 0.0}); };
  return std::ranges::min_element(rows, {}, away)->shift;
}

void shift(Shape& shape, const std::vector<Row>& rows) {
  if (shape.form == Shape::Form::line) {
    for (Spot& spot : shape.points) spot.y += shift_at(rows, spot.y);
  } else {
    const double by = shift_at(rows, (shape.points.front().y + shape.points.back().y) / 2);
    for (Spot& spot : shape.points) spot.y += by;
  }
}

}  // namespace

double Sheets::next(double y) const { return std::ceil(y / height()) * height(); }

double Sheets::top_with_room(double y, double height_needed) const {
  const double next = (std::floor(y / height()) + 1) * height();
  return height_needed <= room() && y + height_needed > next - margin ? next + margin : y;
}

Block Sheets::over(Block block, double dy) const {
  std::vector<Row> rows = rows_of(block);
  if (rows.empty()) return block;
  double so_far = 0;
  for (Row& row : rows) {
    const double top = row.top + dy + so_far;
    so_far += top_with_room(top, row.bottom - row.top) - top;
    row.shift = so_far;
  }
  for (Thing& thing : block.things) {
    for (Shape& shape : thing.shapes) draw::shift(shape, rows);
    for (Words& words : thing.words) words.at.y += shift_at(rows, words.at.y + words.at.height / 2);
  }
  return block;
}

double sheet_with_room(double height) { return std::ceil((height + 2 * margin) * 210 / 297); }

RowHeights row_heights(const Block& block) {
  const std::vector<Row> rows = rows_of(block);
  if (rows.empty()) return {};
  RowHeights heights{rows.front().bottom - bounds_of(block.things).y, 0};
  for (const Row& row : rows) heights.highest = std::max(heights.highest, row.bottom - row.top);
  return heights;
}

}  // namespace whichwire::draw
