#include "draw/ring.hpp"

#include <algorithm>

#include "draw/boxes.hpp"
#include "draw/branch.hpp"
#include "draw/notes.hpp"
#include "draw/wiring.hpp"

namespace whichwire::draw {

namespace {

constexpr double least_gap = 30;
constexpr double inner = 24;  // between what stands at the top and at the bottom

class Ring {
 public:
  Ring(Drawing& drawing, std::size_t bus) : drawing_(drawing), bus_(bus) {
    const Bus& its = drawing.network.buses[bus];
    const End spine{End::Kind::module, drawing.spine};
    from_spine_ = drawing.spine != nowhere && has_end(its, spine);
    const Node tree = tree_from(its, from_spine_ ? spine : its.segments.front().from);
    if (!from_spine_) stands_.push_back({tree.end, nowhere});
    for (const Node* node = &tree; !node->children.empty();) {
      node = &node->children.front();
      if (node->again) closing_ = node->segment;
      if (!node->again) stands_.push_back({node->end, node->segment});
    }
  }

  Block lay_out() {
    double all = 0;
    for (const Stand& stand : stands_) all += width_of_stand(stand);
    double top = 0;
    std::size_t i = 0;
    for (; i < stands_.size() && (i == 0 || top + width_of_stand(stands_[i]) <= (all + box_width) / 2); ++i)
      top += place(stands_[i], 0, top);
    double bottom = 0;
    for (; i < stands_.size(); ++i) bottom += place(stands_[i], 1, bottom);
    width_ = std::max(top, bottom) + least_gap;
    sides_[1].mirror(width_);
    height_ = bounds_of(sides_[0].things).bottom() - bounds_of(sides_[1].things).y + inner;
    Block whole = wires();
    whole.add(std::move(sides_[0]));
    whole.add(std::move(sides_[1]), 0, height_);
    return whole;
  }

 private:
  struct Stand {
    End end;
    std::size_t segment = nowhere;  ///< that leads here
    int side = 0;
    double in = 0, out = 0;  ///< where the ring enters and leaves, from the side's beginning
  };

  std::vector<Note> wire_notes(std::size_t segment) const {
    return marks_at(drawing_, {Part::Kind::segment, segment, bus_});
  }
  bool is_point(const Stand& stand) const { return stand.end.kind == End::Kind::point; }

  double gap_before(const Stand& stand) const {
    const std::vector<Note> notes = wire_notes(stand.segment);
    return std::max(least_gap, notes.empty() ? 0 : draw::width_of(notes) + 16);
  }
  double width_of_stand(const Stand& stand) const {
    const double own = is_point(stand) ? draw::width_of(notes_of_point(drawing_, stand.end.index)) : box_width;
    return gap_before(stand) + own;
  }

  /// Puts it on a side at `x` from where the ring comes to that side; what it takes of it.
  double place(Stand& stand, int side, double x) {
    Block& block = sides_[side];
    stand.side = side;
    stand.in = stand.out = x + gap_before(stand);
    const std::vector<Note> said = wire_notes(stand.segment);
    const Part segment{Part::Kind::segment, stand.segment, bus_};
    if (!said.empty()) block.things.push_back(notes_at(segment, said, {stand.in - draw::width_of(said) - 8, 5}));
    if (is_point(stand)) {
      const std::vector<Note> notes = notes_of_point(drawing_, stand.end.index);
      block.things.push_back(joint_sign(drawing_, stand.end.index, bus_, {stand.in, 0}, false));
      block.things.push_back(notes_at({Part::Kind::point, stand.end.index}, notes, {stand.in, -height_of(notes) - 7}));
    } else {
      stand.out += box_width;
      Boxed box = box_of(drawing_, stand.end, bus_);
      block.add(std::move(box.block), stand.in + box_width / 2, -box_height / 2);
    }
    return width_of_stand(stand);
  }

  Spot spot(const Stand& stand, double along) const {
    return stand.side == 0 ? Spot{along, 0} : Spot{width_ - along, height_};
  }

  Thing wire(std::size_t segment, std::vector<Spot> path) const {
    const Spot a = path[path.size() - 2], b = path.back();
    return wire_of(drawing_, bus_, segment, std::move(path), {(a.x + b.x) / 2, (a.y + b.y) / 2}, a.x == b.x);
  }

  Block wires() const {
    Block block;
    const Spot corners[] = {{0, 0}, {width_, 0}, {width_, height_}, {0, height_}};
    Spot at = corners[0];
    int side = 0;
    for (const Stand& stand : stands_) {
      std::vector<Spot> path = {at};
      if (stand.side != side) path.insert(path.end(), {corners[1], corners[2]});
      path.push_back(spot(stand, stand.in));
      if (stand.segment != nowhere) block.things.push_back(wire(stand.segment, std::move(path)));
      at = spot(stand, stand.out);
      side = stand.side;
    }
    std::vector<Spot> path = {at};
    if (side == 0) path.insert(path.end(), {corners[1], corners[2]});
    path.push_back(corners[3]);
    if (!from_spine_) path.insert(path.end(), {corners[0], spot(stands_.front(), stands_.front().in)});
    if (closing_ != nowhere) block.things.push_back(wire(closing_, std::move(path)));
    const std::vector<Note> said = wire_notes(closing_);
    if (!said.empty())
      block.things.push_back(notes_at({Part::Kind::segment, closing_, bus_}, said, {clear_of_wire, 30}));
    return block;
  }

  Drawing& drawing_;
  std::size_t bus_;
  bool from_spine_ = false;
  std::size_t closing_ = nowhere;  ///< the segment that comes back to the beginning
  std::vector<Stand> stands_;
  Block sides_[2];
  double width_ = 0, height_ = 0;
};

}  // namespace

Block ring_of(Drawing& drawing, std::size_t bus) { return Ring(drawing, bus).lay_out(); }

}  // namespace whichwire::draw
