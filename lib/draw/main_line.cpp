#include "draw/main_line.hpp"

#include <algorithm>

#include "draw/boxes.hpp"
#include "draw/notes.hpp"

namespace whichwire::draw {

namespace {

constexpr double least_gap = 26;  // between what stands in the line
constexpr double fan = 34;        // from the middle of a star to where its stubs begin
constexpr double row_gap = 30;
constexpr double turn = 20;  // how far beyond the boxes the line turns into the next row
constexpr double left_turn = 8;

bool is_point(const Node& node) { return node.end.kind == End::Kind::point; }

bool is_star(const Drawing& drawing, const Node& node) {
  return drawing.network.points[node.end.index].kind == Point::Kind::star;
}

bool is_connector(const Drawing& drawing, const Node& node) {
  return drawing.network.points[node.end.index].kind == Point::Kind::inline_connector;
}

}  // namespace

MainLine::MainLine(Drawing& drawing, std::size_t bus, const Node& root)
    : drawing_(drawing), bus_(bus), way_(longest_way(drawing.network.buses[bus], root)) {
  new_row();
  if (!is_spine(root.end)) row().filled = {};
  measure();
  for (std::size_t i = 0; i < way_.size(); ++i) {
    if (is_spine(way_[i]->end)) {
      if (i > 0) place_spine(*way_[i]);
    } else if (is_point(*way_[i])) {
      place_point(i);
    } else {
      place_box(i);
    }
  }
}

void MainLine::place_spine(const Node& node) {
  const double x = row().line + gap_before(node);
  stretch_to(node, x, x);
}

bool MainLine::is_spine(const End& end) const { return end.kind == End::Kind::module && end.index == drawing_.spine; }

std::vector<Note> MainLine::wire_notes(const Node& node) const {
  return marks_at(drawing_, {Part::Kind::segment, node.segment, bus_});
}

std::vector<Note> MainLine::notes_of(const Node& node) const { return notes_of_point(drawing_, node.end.index); }

std::vector<const Node*> MainLine::branches_at(std::size_t i) const {
  std::vector<const Node*> branches;
  for (const Node& child : way_[i]->children)
    if (i + 1 == way_.size() || &child != way_[i + 1]) branches.push_back(&child);
  return branches;
}

void MainLine::measure() {
  for (const Node* node : way_) {
    if (node->segment != nowhere) clear_[below] = std::max(clear_[below], height_of(wire_notes(*node)));
    if (is_point(*node)) clear_[above] = std::max(clear_[above], height_of(notes_of(*node)));
  }
  for (double& clear : clear_) clear += 8;
  for (std::size_t i = 0; i < way_.size(); ++i) {
    for (const Node* branch : branches_at(i)) {
      for (const Side side : {above, below})
        length_[side] = std::max(length_[side], natural_length(drawing_, bus_, *branch, clear_[side]));
    }
  }
}

double MainLine::gap_before(const Node& node) const {
  if (node.segment == nowhere) return 0;
  const std::vector<Note> notes = wire_notes(node);
  return std::max(least_gap, notes.empty() ? 0 : width_of(notes) + 16);
}

bool MainLine::overflows(double right, bool begun) const {
  return right > drawing_.widest_row() && (begun || rows_.back().line > 0);
}

void MainLine::new_row() {
  const double begin = rows_.empty() ? column_gap : 2 * left_turn + 4;  // clear of the line that turns into the row
  rows_.push_back({{}, {begin, begin}, 0});
}

void MainLine::stretch_to(const Node& node, double x, double notes_end) {
  const Mark to{rows_.size() - 1, x};
  if (node.segment != nowhere) {
    const Part part{Part::Kind::segment, node.segment, bus_};
    stretches_.push_back({part, last_, to});
    const std::vector<Note> notes = wire_notes(node);
    if (!notes.empty()) row().block.things.push_back(notes_at(part, notes, {notes_end - width_of(notes) - 8, 5}));
  }
  last_ = to;
  row().line = std::max(row().line, x);
}

void MainLine::place_box(std::size_t i) {
  const Node& node = *way_[i];
  Branch box = box_with_branches(drawing_, bus_, node, branches_at(i));
  const double beside = box.left - box_width / 2;
  const auto left_edge = [&] {
    return std::max({row().line + gap_before(node), row().filled[above], row().filled[below] + beside});
  };
  // The last box may stand out a little rather than alone on a row.
  if (overflows(left_edge() + (i + 1 == way_.size() ? 0 : box_width))) new_row();
  const double left = left_edge();
  stretch_to(node, left, left);
  row().block.add(std::move(box.block), left + box_width / 2, -box_height / 2);
  row().filled = {left + box_width + column_gap, left + box_width / 2 + box.right + column_gap};
  last_.x = left + box_width;
  row().line = last_.x;
}

bool MainLine::hangs_a_bus(const Node& node) const {
  if (node.end.kind == End::Kind::module && !hanging_buses(drawing_, node.end.index).empty()) return true;
  return std::ranges::any_of(node.children, [&](const Node& child) { return hangs_a_bus(child); });
}

MainLine::Hanging MainLine::hang(const Node& node, double from) {
  const bool down = hangs_a_bus(node) || row().filled[below] < row().filled[above];
  const Side side = down ? below : above;
  Hanging made{branch_of(drawing_, bus_, node, {clear_[side], length_[side]}), side, 0};
  made.at = std::max(from, row().filled[side] + made.branch.left);
  return made;
}

void MainLine::place_point(std::size_t i) {
  const Node& node = *way_[i];
  const double label = width_of(notes_of(node));
  if (overflows(row().line + gap_before(node) + label)) new_row();
  const bool star = is_star(drawing_, node);
  double begin = row().line + gap_before(node) + (star ? label + 8 : 0);
  std::vector<Hanging> hanging;
  bool first = true;
  for (const Node* branch : branches_at(i)) {
    Hanging made = hang(*branch, begin);
    if (overflows(made.at + made.branch.right, !hanging.empty())) {
      if (!hanging.empty()) put_splice(node, hanging, std::exchange(first, false));
      new_row();
      begin = least_gap + (star ? label + 8 : 0);
      made.at = std::max(begin, row().filled[made.side] + made.branch.left);
    }
    row().filled[made.side] = made.at + made.branch.right + column_gap;
    hanging.push_back(std::move(made));
  }
  if (hanging.empty()) {
    stretch_to(node, begin, begin);
    put_sign(node, sign_of(node, begin), begin, begin + 6);
  } else {
    put_splice(node, hanging, first);
  }
}

void MainLine::put_splice(const Node& node, std::vector<Hanging>& hanging, bool first) {
  double begin = hanging.front().at, end = begin;
  for (const Hanging& one : hanging) {
    begin = std::min(begin, one.at);
    end = std::max(end, one.at);
  }
  const bool star = is_star(drawing_, node), connector = is_connector(drawing_, node);
  const double hub = (begin + end) / 2;
  for (Hanging& one : hanging) {
    if (star) begin_at(one.branch, {{hub - one.at, -fan}});
    if (one.side == above) one.branch.block.flip();
    const double dy = !star ? 0 : one.side == above ? -fan : fan;
    row().block.add(std::move(one.branch.block), one.at, dy);
  }
  hanging.clear();
  const bool bar = !star && end > begin;
  const double x = star ? hub : connector && bar && first ? begin - connector_lead : begin;
  if (first) {
    stretch_to(node, x, begin);
  } else {
    const Mark to{rows_.size() - 1, x};
    stretches_.push_back({{Part::Kind::point, node.end.index}, last_, to});
    last_ = to;
  }
  Thing sign = connector && !first ? nothing_at(node) : sign_of(node, x);
  if (bar) sign.shapes.insert(sign.shapes.begin(), line(bar_ink(node), {{begin, 0}, {end, 0}}));
  if (!star && x < begin)
    sign.shapes.insert(sign.shapes.begin(), line(ink_of(drawing_.network.buses[bus_]), {{x, 0}, {begin, 0}}));
  const double label = star ? begin - width_of(notes_of(node)) - 8 : end + clear_of_wire;
  put_sign(node, std::move(sign), star ? hub : end, label);
  if (star) row().line = std::max(row().line, end + 8);
}

Thing MainLine::nothing_at(const Node& point) {
  return {Thing::Role::joint, {Part::Kind::point, point.end.index}, {}, {}};
}

Thing MainLine::sign_of(const Node& point, double x) const {
  const bool hidden = bar_ink(point) == Ink::not_known;
  return hidden ? nothing_at(point) : joint_sign(drawing_, point.end.index, bus_, {x, 0}, false);
}

void MainLine::put_sign(const Node& node, Thing sign, double end, double label) {
  row().block.things.push_back(std::move(sign));
  last_ = {rows_.size() - 1, end};
  row().line = std::max(row().line, end);
  const std::vector<Note> notes = notes_of(node);
  if (notes.empty()) return;
  row().block.things.push_back(notes_at({Part::Kind::point, node.end.index}, notes, {label, -height_of(notes) - 5}));
  row().line = std::max(row().line, label + width_of(notes));
}

Ink MainLine::bar_ink(const Node& point) const {
  return drawing_.network.points[point.end.index].kind == Point::Kind::hidden ? Ink::not_known : Ink::joint;
}

Thing MainLine::drawn(const Stretch& stretch, const std::vector<double>& heights, double width) const {
  const auto spot = [&](const Mark& mark) {
    return Spot{mark.row % 2 == 0 ? mark.x : width - mark.x, heights[mark.row]};
  };
  const Spot from = spot(stretch.from), to = spot(stretch.to);
  std::vector<Spot> path = {from};
  if (stretch.from.row != stretch.to.row) {
    const double x = stretch.from.row % 2 == 0 ? width + turn : left_turn;
    path.insert(path.end(), {{x, from.y}, {x, to.y}});
  }
  path.push_back(to);
  if (stretch.part.kind == Part::Kind::point) {
    const bool hidden = drawing_.network.points[stretch.part.index].kind == Point::Kind::hidden;
    return {Thing::Role::joint, stretch.part, {line(hidden ? Ink::not_known : Ink::joint, std::move(path))}, {}};
  }
  const Spot before = path[path.size() - 2];
  return wire_of(drawing_, bus_, stretch.part.index, path, {(before.x + to.x) / 2, to.y}, false);
}

Block MainLine::take() {
  double width = 0;
  std::vector<Rectangle> bounds;
  for (Row& one : rows_) {
    bounds.push_back(bounds_of(one.block.things));
    width = std::max({width, one.line, bounds.back().right()});
  }
  if (rows_.size() > 1) width += 2 * left_turn;
  std::vector<double> heights = {0};
  for (std::size_t r = 1; r < rows_.size(); ++r)
    heights.push_back(heights.back() + std::max(bounds[r - 1].bottom(), 0.0) + row_gap - std::min(bounds[r].y, 0.0));
  Block whole;
  for (const Stretch& stretch : stretches_) whole.things.push_back(drawn(stretch, heights, width));
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    if (r % 2 == 1) rows_[r].block.mirror(width);
    whole.add(std::move(rows_[r].block), 0, heights[r]);
  }
  return whole;
}

}  // namespace whichwire::draw
