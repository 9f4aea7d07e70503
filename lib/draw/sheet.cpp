// The whole picture. A gateway that joins many buses stands along them at the left, with the diagnostic connector and
// its bus before it; every other bus has a band of its own, small ones hang below the module that leads them; then
// feeds and grounds, then what the signs mean. A module that is on several buses has one box, and a torn one on each
// other bus, as connectors have on the sheets of a wiring diagram (common practice, no source).
// Tests: tests/draw/picture.cpp.
#include <algorithm>

#include "draw/boxes.hpp"
#include "draw/legend.hpp"
#include "draw/lettering.hpp"
#include "draw/main_line.hpp"
#include "draw/notes.hpp"
#include "draw/ring.hpp"
#include "draw/supplies.hpp"

namespace whichwire {

namespace {

using namespace draw;

constexpr double margin = 24, band_gap = 34, least_width = 560;
constexpr std::size_t spine_joins = 3;

const End connector_end{End::Kind::diagnostic_connector, nowhere};

/// Whether the bus does nothing but lead from the connector to the module.
bool leads_in(const Bus& bus, std::size_t module) {
  if (!has_end(bus, connector_end) || !has_end(bus, {End::Kind::module, module})) return false;
  const Node tree = tree_from(bus, connector_end);
  const Node* node = &tree;
  while (node->children.size() == 1) node = &node->children.front();
  return node->children.empty() && modules_in(tree) == 1 && node->end.kind == End::Kind::module;
}

class Sheet {
 public:
  Sheet(const Network& network, const Marks* marks, const PictureOptions& options)
      : network_(network), drawing_(network, marks, options) {}

  Picture draw() {
    if (drawing_.options.headings) head();
    choose_spine();
    if (drawing_.spine != nowhere) draw_spine();
    for (std::size_t bus = 0; bus < network_.buses.size(); ++bus)
      if (!drawing_.bus_drawn[bus] && !network_.buses[bus].segments.empty()) draw_band(bus, margin);
    draw_lone_modules();
    const double width = std::max(least_width, bounds_of(page_.things).right() - margin);
    add_below(supplies_of(drawing_, width));
    add_below(legend_of(page_.things, width));
    const Rectangle all = bounds_of(page_.things);
    return {std::max(all.right(), least_width + margin) + margin, all.bottom() + margin, std::move(page_.things)};
  }

 private:
  void head() {
    const Vehicle& vehicle = network_.vehicle;
    std::string title = vehicle.make + " " + vehicle.model;
    if (vehicle.model_year > 0) title += " " + std::to_string(vehicle.model_year);
    if (!vehicle.variant.empty()) title += ", " + vehicle.variant;
    std::vector<std::string> below;
    if (drawing_.marks != nullptr)
      below = lines_of(drawing_.marks->headline, Lettering::subtitle, 2 * least_width - 40, 3);
    Thing thing{Thing::Role::heading, {}, {}, {}};
    say(thing, fitted(title, Lettering::title, 2 * least_width - 40), Lettering::title);
    for (const std::string& text : below) say(thing, text, Lettering::subtitle);
    page_.things.push_back(std::move(thing));
    y_ += 16;
  }

  void say(Thing& thing, const std::string& text, Lettering lettering) {
    thing.words.push_back({{margin, y_, width_of(text, lettering), line_height(lettering)}, text, lettering});
    y_ += line_height(lettering) + 2;
  }

  void choose_spine() {
    std::size_t widest = spine_joins - 1;
    for (const Gateway& gateway : network_.gateways) {
      const bool before_it = std::ranges::any_of(
          gateway.joins, [&](std::size_t bus) { return leads_in(network_.buses[bus], gateway.module); });
      if (gateway.joins.size() + (before_it ? 1 : 0) <= widest) continue;
      widest = gateway.joins.size() + (before_it ? 1 : 0);
      drawing_.spine = gateway.module;
    }
  }

  const std::vector<std::size_t>& joins() const {
    return std::ranges::find(network_.gateways, drawing_.spine, &Gateway::module)->joins;
  }

  void draw_spine() {
    const double top = y_;
    const std::size_t spine = drawing_.spine;
    Boxed box = box_of(drawing_, {End::Kind::module, spine}, joins().front());
    const double left = draw_lead_in(), right = left + box_width;
    double bottom = top + box.height + 12;
    for (const std::size_t bus : joins()) {
      if (drawing_.bus_drawn[bus] || network_.buses[bus].segments.empty()) continue;
      bottom = std::max(bottom, draw_band(bus, right));
    }
    y_ = std::max(y_, bottom + band_gap);
    Thing along{Thing::Role::joint,
                {Part::Kind::module, spine},
                {draw::box(Ink::spine, {left, top, box_width, bottom - top}, 3)},
                {}};
    page_.things.insert(page_.things.begin(), std::move(along));
    page_.add(std::move(box.block), left + box_width / 2, top);
  }

  /// The connector and its bus up to the spine; where the spine begins.
  double draw_lead_in() {
    for (const std::size_t bus : joins()) {
      if (!leads_in(network_.buses[bus], drawing_.spine)) continue;
      drawing_.bus_drawn[bus] = true;
      MainLine line(drawing_, bus, tree_from(network_.buses[bus], connector_end));
      const double length = std::max(line.end(), 1.0);
      const double heading = add_heading(bus, margin, y_, length - 8);
      Block block = line.take();
      const double y = y_ + heading + 6 - bounds_of(block.things).y;
      page_.add(std::move(block), margin, y);
      return margin + length;
    }
    return margin;
  }

  /// The heading of a bus at `x`; its height.
  double add_heading(std::size_t bus, double x, double y, double width) {
    Thing thing{Thing::Role::heading, {Part::Kind::bus, bus}, {}, {}};
    double height = 0;
    for (const std::string& text : lines_of(heading_of(network_.buses[bus]), Lettering::bus, width, 3)) {
      thing.words.push_back({{x, y + height, width_of(text, Lettering::bus), 16}, text, Lettering::bus});
      height += 17;
    }
    page_.things.push_back(std::move(thing));
    const std::vector<Note> notes = marks_at(drawing_, {Part::Kind::bus, bus});
    if (notes.empty()) return height;
    page_.things.push_back(notes_at({Part::Kind::bus, bus}, notes, {x, y + height}));
    return height + height_of(notes);
  }

  /// A bus in a band of its own from `left` on; how far down the spine must reach for it.
  double draw_band(std::size_t bus, double left) {
    drawing_.bus_drawn[bus] = true;
    const Bus& its = network_.buses[bus];
    const double heading = add_heading(bus, left + (left > margin ? 12 : 0), y_, widest_row);
    y_ += heading + 8;
    double spine_to = 0;
    const bool ring = its.protocol == Protocol::ring && its.wired;
    for (Block& block : ring ? rings(bus) : lines(bus)) {
      const Rectangle bounds = bounds_of(block.things);
      const double line = y_ - bounds.y;
      page_.add(std::move(block), left, line);
      spine_to = ring ? line + bounds.bottom() + 6 : line + 24;
      y_ = line + bounds.bottom() + band_gap;
    }
    return spine_to;
  }

  std::vector<Block> rings(std::size_t bus) {
    std::vector<Block> blocks;
    blocks.push_back(ring_of(drawing_, bus));
    return blocks;
  }

  /// The line of the bus; where it leaves the spine by several wires, one for each.
  std::vector<Block> lines(std::size_t bus) {
    const Bus& its = network_.buses[bus];
    const End spine{End::Kind::module, drawing_.spine};
    const bool from_spine = drawing_.spine != nowhere && has_end(its, spine);
    const End root = from_spine ? spine : beginning_of(its, wished_beginning(bus));
    Node tree = tree_from(its, root);
    std::vector<Block> blocks;
    if (!from_spine) {
      blocks.push_back(MainLine(drawing_, bus, tree).take());
      return blocks;
    }
    for (const Node& child : tree.children) {
      const Node one{root, nowhere, false, {child}};
      blocks.push_back(MainLine(drawing_, bus, one).take());
    }
    return blocks;
  }

  /// The connector, else a module that already has its box.
  const End* wished_beginning(std::size_t bus) {
    const Bus& its = network_.buses[bus];
    wished_ = connector_end;
    if (has_end(its, wished_) && tree_from(its, wished_).children.size() == 1) return &wished_;
    for (std::size_t i = 0; i < network_.modules.size(); ++i) {
      wished_ = {End::Kind::module, i};
      if (drawing_.home[i] != nowhere && has_end(its, wished_)) return &wished_;
    }
    return nullptr;
  }

  /// Modules that are on no bus.
  void draw_lone_modules() {
    double x = margin, bottom = y_;
    for (std::size_t i = 0; i < network_.modules.size(); ++i) {
      if (drawing_.home[i] != nowhere || network_.buses.empty()) continue;
      if (x + box_width > margin + widest_row) {
        x = margin;
        y_ = bottom + column_gap;
      }
      Boxed box = box_of(drawing_, {End::Kind::module, i}, 0);
      bottom = std::max(bottom, y_ + box.height);
      page_.add(std::move(box.block), x + box_width / 2, y_);
      x += box_width + column_gap;
    }
    if (bottom > y_) y_ = bottom + band_gap;
  }

  void add_below(Block block) {
    if (block.things.empty()) return;
    page_.add(std::move(block), margin, y_);
    y_ = bounds_of(page_.things).bottom() + band_gap;
  }

  const Network& network_;
  Drawing drawing_;
  Block page_;
  End wished_;
  double y_ = margin;
};

}  // namespace

Picture picture_of(const Network& network, const Marks* marks, const PictureOptions& options) {
  return Sheet(network, marks, options).draw();
}

}  // namespace whichwire
