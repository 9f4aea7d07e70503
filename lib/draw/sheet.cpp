// The whole picture. A gateway that joins many buses stands along them at the left, with the diagnostic connector and
// its bus before it; every other bus has a band of its own, small ones hang below the module that leads them; then
// feeds and grounds, then what the signs mean. A module that is on several buses has one box, and a torn one on each
// other bus, as connectors have on the sheets of a wiring diagram (common practice, no source).
// Tests: tests/draw/picture.cpp, tests/draw/paper.cpp.
#include <algorithm>
#include <cmath>

#include "draw/boxes.hpp"
#include "draw/legend.hpp"
#include "draw/lettering.hpp"
#include "draw/main_line.hpp"
#include "draw/notes.hpp"
#include "draw/quiet.hpp"
#include "draw/ring.hpp"
#include "draw/sheets.hpp"
#include "draw/supplies.hpp"

namespace whichwire {

namespace {

using namespace draw;

constexpr double band_gap = 34, folded_gap = 18, least_width = 560;
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
  Sheet(const Network& network, const Marks* marks, const PictureOptions& options, double sheet_width)
      : network_(network), drawing_(network, marks, options), sheets_(sheet_width) {}

  Picture draw() {
    if (drawing_.options.headings) head();
    choose_spine();
    quiet_ = drawing_.options.brief ? quiet_buses(drawing_) : std::vector<bool>(network_.buses.size(), false);
    if (drawing_.spine != nowhere) draw_spine();
    for (std::size_t bus = 0; bus < network_.buses.size(); ++bus)
      if (!drawing_.bus_drawn[bus] && !network_.buses[bus].segments.empty()) draw_band(bus, margin);
    draw_lone_modules();
    const double width = std::max(least_width, bounds_of(page_.things).right() - margin);
    add_below(supplies_of(drawing_, width));
    add_below(legend_of(page_.things, width));
    const Rectangle all = bounds_of(page_.things);
    const double least = on_sheets() ? sheets_.width() : least_width + 2 * margin;
    sheet_needed_ = std::max(std::ceil(all.right() + margin), sheet_with_room(highest_));
    return {std::max(all.right() + margin, least), all.bottom() + margin, std::move(page_.things), on_sheets()};
  }

  /// How wide sheets must be to hold all that `draw` has drawn, and to cut no row of it.
  double sheet_needed() const { return sheet_needed_; }

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
    highest_ = std::max(highest_, top - margin + box.height);
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
    if (drawing_.narrow()) return margin;
    for (const std::size_t bus : joins()) {
      if (!leads_in(network_.buses[bus], drawing_.spine)) continue;
      drawing_.bus_drawn[bus] = true;
      MainLine line(drawing_, bus, tree_from(network_.buses[bus], connector_end));
      const double length = std::max(line.end(), 1.0);
      Block heading = heading_of_band(bus, length - 8), block = line.take();
      const double y = y_ + bounds_of(heading.things).bottom() + 7 - bounds_of(block.things).y;
      page_.add(std::move(heading), margin, y_);
      page_.add(std::move(block), margin, y);
      return margin + length;
    }
    return margin;
  }

  /// From the origin downward.
  Block heading_of_band(std::size_t bus, double width) {
    const Part part{Part::Kind::bus, bus};
    Thing thing{Thing::Role::heading, part, {}, {}};
    double height = 0;
    for (const std::string& text : lines_of(draw::heading_of(network_.buses[bus]), Lettering::bus, width, 3)) {
      thing.words.push_back({{0, height, width_of(text, Lettering::bus), 16}, text, Lettering::bus});
      height += 17;
    }
    Block block{{std::move(thing)}};
    const std::vector<Note> notes = marks_at(drawing_, part);
    if (!notes.empty()) block.things.push_back(notes_at(part, notes, {0, height}));
    return block;
  }

  bool on_sheets() const { return drawing_.options.fit == PictureFit::sheets; }

  /// Goes on upon the next sheet of paper where this one has not that much room, and a whole one has. Of a block that
  /// no sheet holds, with `above` on top of it, there must be room for the first row.
  void make_room(const Block& block, double above = 0) {
    if (!on_sheets()) return;
    const RowHeights rows = row_heights(block);
    highest_ = std::max({highest_, above + rows.first, rows.highest});
    const double whole = above + bounds_of(block.things).height;
    y_ = sheets_.top_with_room(y_, whole <= sheets_.room() ? whole : above + rows.first);
  }

  /// Where y_ is the block's top; what no sheet holds goes on upon the next ones row by row.
  Block laid_out(Block block) const {
    const Rectangle bounds = bounds_of(block.things);
    return on_sheets() && bounds.height > sheets_.room() ? sheets_.over(std::move(block), y_ - bounds.y) : block;
  }

  /// A bus in a band of its own from `left` on; how far down the spine must reach for it.
  double draw_band(std::size_t bus, double left) {
    const double beside = left > margin ? 12 : 0;
    Block heading = heading_of_band(bus, drawing_.widest_row());
    const double below = bounds_of(heading.things).bottom() + 9;
    std::vector<Block> blocks = blocks_of(bus);
    make_room(blocks.front(), below);
    page_.add(std::move(heading), left + beside, y_);
    y_ += below;
    double spine_to = 0;
    for (Block& one : blocks) {
      make_room(one);
      Block block = laid_out(std::move(one));
      const Rectangle bounds = bounds_of(block.things);
      const double line = y_ - bounds.y;
      page_.add(std::move(block), left, line);
      spine_to = hangs_beside_spine(bus) ? line + bounds.bottom() + 6 : line + 24;
      y_ = line + bounds.bottom() + (quiet_[bus] ? folded_gap : band_gap);
    }
    return spine_to;
  }

  bool hangs_beside_spine(std::size_t bus) const { return quiet_[bus] || is_ring(bus); }

  bool is_ring(std::size_t bus) const {
    return network_.buses[bus].protocol == Protocol::ring && network_.buses[bus].wired;
  }

  std::vector<Block> blocks_of(std::size_t bus) {
    if (!quiet_[bus] && !is_ring(bus)) return lines(bus);
    std::vector<Block> blocks;
    blocks.push_back(quiet_[bus] ? folded(drawing_, quiet_, bus, drawing_.widest_row()) : ring_of(drawing_, bus));
    drawing_.bus_drawn[bus] = true;
    return blocks;
  }

  /// The line of the bus; where it leaves the spine by several wires, one for each.
  std::vector<Block> lines(std::size_t bus) {
    drawing_.bus_drawn[bus] = true;
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
    double x = 0, y = 0, bottom = 0;
    Block lone;
    for (std::size_t i = 0; i < network_.modules.size(); ++i) {
      if (drawing_.home[i] != nowhere || drawing_.listed[i] || network_.buses.empty()) continue;
      if (x + box_width > drawing_.widest_row()) {
        x = 0;
        y = bottom + column_gap;
      }
      Boxed box = box_of(drawing_, {End::Kind::module, i}, 0);
      bottom = std::max(bottom, y + box.height);
      lone.add(std::move(box.block), x + box_width / 2, y);
      x += box_width + column_gap;
    }
    add_below(std::move(lone));
  }

  void add_below(Block block) {
    if (block.things.empty()) return;
    make_room(block);
    page_.add(laid_out(std::move(block)), margin, y_);
    y_ = bounds_of(page_.things).bottom() + band_gap;
  }

  const Network& network_;
  Drawing drawing_;
  std::vector<bool> quiet_;  ///< by bus: whether it is folded
  Block page_;
  End wished_;
  const Sheets sheets_;
  double y_ = margin;
  double highest_ = 0;  ///< of what no end of a sheet may cut
  double sheet_needed_ = 0;
};

}  // namespace

Picture picture_of(const Network& network, const Marks* marks, const PictureOptions& options) {
  Sheet usual(network, marks, options, usual_sheet);
  Picture picture = usual.draw();
  if (options.fit != PictureFit::sheets || usual.sheet_needed() <= usual_sheet) return picture;
  return Sheet(network, marks, options, usual.sheet_needed()).draw();
}

PagePictures pictures_for_page(const Network& network, const Marks* marks) {
  // What a page of paper shows at seven tenths of its size, less a third of its height for the verdict.
  constexpr double readable_width = 1000, readable_height = 900;
  PagePictures pictures{picture_of(network, marks, {false, false}), std::nullopt};
  if (pictures.whole.width > readable_width || pictures.whole.height > readable_height)
    pictures.brief = picture_of(network, marks, {false, false, PictureFit::column, true});
  return pictures;
}

}  // namespace whichwire
