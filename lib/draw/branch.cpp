#include "draw/branch.hpp"

#include <algorithm>

#include "draw/boxes.hpp"
#include "draw/lettering.hpp"
#include "draw/notes.hpp"

namespace whichwire::draw {

namespace {

constexpr double least_wire = 18;
constexpr std::size_t most_hanging = 4;

bool is_point(const Node& node) { return node.end.kind == End::Kind::point; }
bool is_box(const Node& node) { return !is_point(node); }

/// Length of a stretch of stub that holds notes.
double stretch(double least, const std::vector<Note>& notes) {
  return std::max(least, notes.empty() ? 0 : height_of(notes) + 6);
}

/// Adds the branches side by side at `y`, the middle between the first and the last at 0; `begin` is told where each
/// has come to stand.
template <class Begin>
void spread(Branch& made, std::vector<Branch>& branches, double y, const Begin& begin) {
  if (branches.empty()) return;
  std::vector<double> entries;
  double x = 0;
  for (const Branch& branch : branches) {
    entries.push_back(x + branch.left);
    x += branch.left + branch.right + column_gap;
  }
  const double middle = (entries.front() + entries.back()) / 2;
  for (std::size_t i = 0; i < branches.size(); ++i) {
    begin(branches[i], entries[i] - middle);
    made.block.add(std::move(branches[i].block), entries[i] - middle, y);
  }
  made.left = std::max(made.left, middle);
  made.right = std::max(made.right, x - column_gap - middle);
}

/// The small bus that the module leads, as branches below it; its heading stands beside the first.
void hang(Drawing& drawing, std::size_t bus, const End& end, std::vector<Branch>& below) {
  drawing.bus_drawn[bus] = true;
  const Bus& its = drawing.network.buses[bus];
  const Part part{Part::Kind::bus, bus};
  std::vector<Note> heading = {{Note::Kind::label, its.id + " " + protocol_name(its.protocol)}};
  for (Note& note : marks_at(drawing, part)) heading.push_back(std::move(note));
  const Node tree = tree_from(its, end);
  for (const Node& child : tree.children) {
    const bool heads = &child == &tree.children.front();
    Branch branch = branch_of(drawing, bus, child, {8 + (heads ? height_of(heading) + 4 : 0), 0});
    if (heads) {
      Thing said = notes_at(part, heading, {clear_of_wire, 8});
      said.role = Thing::Role::heading;
      branch.block.things.push_back(std::move(said));
      branch.right = std::max(branch.right, clear_of_wire + width_of(heading) + 4);
    }
    below.push_back(std::move(branch));
  }
}

/// A branch as it grows downward.
class Stem {
 public:
  Stem(Drawing& drawing, std::size_t bus, const Stub& stub) : drawing_(drawing), bus_(bus), stub_(stub) {}

  Branch grow(const Node& first) {
    const Node* node = &first;
    while (true) {
      const std::vector<Note> wire_notes = marks_at(drawing_, {Part::Kind::segment, node->segment, bus_});
      const std::vector<Note> notes = is_point(*node) ? notes_of_point(drawing_, node->end.index) : std::vector<Note>{};
      wire(*node, wire_notes, notes);
      if (is_box(*node)) return end_in_box(*node);
      if (node->children.size() > 1) return end_in_splice(*node);
      made_.block.things.push_back(joint_sign(drawing_, node->end.index, bus_, {0, y_}, true));
      if (node->children.empty()) return take();
      node = &node->children.front();
    }
  }

 private:
  /// The wire to `node`, its notes, then those of the point at its end.
  void wire(const Node& node, const std::vector<Note>& wire_notes, const std::vector<Note>& notes) {
    const double begin = std::max(y_, stub_.clear);
    const double mark = begin + stretch(least_wire, wire_notes) / 2;
    double end = begin + stretch(least_wire, wire_notes);
    const double parted = end;
    if (!notes.empty()) end += node.children.size() > 1 ? height_of(notes) + 5 : height_of(notes) / 2;
    if (is_box(node)) end = std::max(end, stub_.length);
    made_.block.things.push_back(wire_of(drawing_, bus_, node.segment, {{0, y_}, {0, end}}, {0, mark}, true));
    if (!wire_notes.empty()) say({Part::Kind::segment, node.segment, bus_}, wire_notes, begin + 3);
    if (!notes.empty()) say({Part::Kind::point, node.end.index}, notes, parted);
    y_ = end;
    stub_.clear = y_ + (notes.empty() || node.children.size() > 1 ? 0 : height_of(notes) / 2);
  }

  void say(const Part& part, const std::vector<Note>& notes, double y) {
    made_.block.things.push_back(notes_at(part, notes, {clear_of_wire, y}));
    made_.right = std::max(made_.right, clear_of_wire + width_of(notes) + 4);
  }

  Branch end_in_box(const Node& node) {
    std::vector<const Node*> children;
    for (const Node& child : node.children) children.push_back(&child);
    Branch box = box_with_branches(drawing_, bus_, node, children);
    made_.block.add(std::move(box.block), 0, y_);
    made_.left = std::max(made_.left, box.left);
    made_.right = std::max(made_.right, box.right);
    return take();
  }

  Branch end_in_splice(const Node& node) {
    const std::size_t here = made_.block.things.size();
    double length = 0;
    for (const Node& child : node.children) length = std::max(length, natural_length(drawing_, bus_, child, 6));
    std::vector<Branch> below;
    for (const Node& child : node.children) below.push_back(branch_of(drawing_, bus_, child, {6, length}));
    double first = 0, last = 0;
    const Point::Kind kind = drawing_.network.points[node.end.index].kind;
    const bool star = kind == Point::Kind::star, connector = kind == Point::Kind::inline_connector;
    const double part = y_ + (star ? 14 : connector ? connector_lead : 0);
    spread(made_, below, part, [&](Branch& branch, double x) {
      first = std::min(first, x);
      last = std::max(last, x);
      if (star) begin_at(branch, {{-x, -14}});
    });
    Thing joint = joint_sign(drawing_, node.end.index, bus_, {0, y_}, true);
    if (!star) joint.shapes.insert(joint.shapes.begin(), line(Ink::joint, {{first, part}, {last, part}}));
    if (connector)
      joint.shapes.insert(joint.shapes.begin(), line(ink_of(drawing_.network.buses[bus_]), {{0, y_}, {0, part}}));
    made_.block.things.insert(made_.block.things.begin() + static_cast<std::ptrdiff_t>(here), std::move(joint));
    return take();
  }

  Branch take() {
    made_.left = std::max(made_.left, 8.0);
    made_.right = std::max(made_.right, 8.0);
    return std::move(made_);
  }

  Drawing& drawing_;
  std::size_t bus_;
  Stub stub_;
  double y_ = 0;
  Branch made_;
};

}  // namespace

Branch box_with_branches(Drawing& drawing, std::size_t bus, const Node& node,
                         const std::vector<const Node*>& children) {
  Boxed box = box_of(drawing, node.end, bus, node.again);
  Branch made{std::move(box.block), box_width / 2, box_width / 2};
  std::vector<Branch> below;
  below.reserve(children.size());
  for (const Node* child : children) below.push_back(branch_of(drawing, bus, *child, {8, 0}));
  if (!box.again && node.end.kind == End::Kind::module)
    for (const std::size_t its : hanging_buses(drawing, node.end.index)) hang(drawing, its, node.end, below);
  const double drop = below.size() > 1 ? 8 : 0;
  spread(made, below, box.height + drop, [&](Branch& branch, double x) {
    const double edge = std::clamp(x, -box_width / 2 + 8, box_width / 2 - 8) - x;
    if (drop > 0) begin_at(branch, {{edge, -drop}, {edge, 0}});
  });
  return made;
}

double natural_length(const Drawing& drawing, std::size_t bus, const Node& first, double clear) {
  double y = clear;
  for (const Node* node = &first;; node = &node->children.front()) {
    y += stretch(least_wire, marks_at(drawing, {Part::Kind::segment, node->segment, bus}));
    if (is_box(*node)) return y;
    if (node->children.size() != 1) return 0;
    y += height_of(notes_of_point(drawing, node->end.index));
  }
}

Branch branch_of(Drawing& drawing, std::size_t bus, const Node& node, const Stub& stub) {
  return Stem(drawing, bus, stub).grow(node);
}

void begin_at(Branch& branch, const std::vector<Spot>& way) {
  for (Shape& shape : branch.block.things.front().shapes) {
    const bool from_origin = !shape.points.empty() && shape.points.front().x == 0 && shape.points.front().y == 0;
    if (from_origin) shape.points.insert(shape.points.begin(), way.begin(), way.end());
  }
}

std::vector<std::size_t> hanging_buses(const Drawing& drawing, std::size_t module) {
  std::vector<std::size_t> buses;
  const End end{End::Kind::module, module};
  for (const Gateway& gateway : drawing.network.gateways) {
    if (gateway.module != module || module == drawing.spine) continue;
    for (const std::size_t bus : gateway.joins) {
      const Bus& its = drawing.network.buses[bus];
      if (drawing.bus_drawn[bus] || its.protocol == Protocol::ring || !has_end(its, end)) continue;
      if (has_end(its, {End::Kind::diagnostic_connector, nowhere})) continue;
      const Node tree = tree_from(its, end);
      const bool small = modules_in(tree) <= most_hanging + 1 && longest_way(its, tree).size() <= 5;
      if (small && std::ranges::find(buses, bus) == buses.end()) buses.push_back(bus);
    }
  }
  return buses;
}

Thing wire_of(const Drawing& drawing, std::size_t bus, std::size_t segment, std::vector<Spot> path, Spot mark,
              bool upright) {
  const Part part{Part::Kind::segment, segment, bus};
  Thing thing{Thing::Role::wire, part, {}, {}};
  const std::optional<Ink> halo = halo_at(drawing, part);
  if (halo) thing.shapes.push_back(line(*halo, path));
  thing.shapes.push_back(line(ink_of(drawing.network.buses[bus]), std::move(path)));
  if (!halo || *halo == Ink::differs_halo) return thing;
  // Two strokes across a gap: the wire may be parted or bridged here; the notes say which.
  const auto spot = [&](double along, double across) {
    return upright ? Spot{mark.x + across, mark.y + along} : Spot{mark.x + along, mark.y + across};
  };
  thing.shapes.push_back(line(Ink::blot, {spot(-3, 0), spot(3, 0)}));
  for (const double shift : {-4.0, 4.0})
    thing.shapes.push_back(line(Ink::symbol, {spot(shift + 3, -6), spot(shift - 3, 6)}));
  return thing;
}

}  // namespace whichwire::draw
