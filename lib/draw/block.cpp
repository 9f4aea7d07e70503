#include "draw/block.hpp"

#include <algorithm>
#include <limits>

namespace whichwire::draw {

namespace {

bool turns_by_point(const Thing& thing) { return thing.role == Thing::Role::wire || thing.role == Thing::Role::joint; }

/// A rectangle that grows over what it is shown.
class Bounds {
 public:
  void cover(double x, double y) {
    left_ = std::min(left_, x);
    top_ = std::min(top_, y);
    right_ = std::max(right_, x);
    bottom_ = std::max(bottom_, y);
  }
  void cover(const Rectangle& at) {
    cover(at.x, at.y);
    cover(at.right(), at.bottom());
  }
  Rectangle rectangle() const {
    return left_ > right_ ? Rectangle{} : Rectangle{left_, top_, right_ - left_, bottom_ - top_};
  }

 private:
  static constexpr double infinite = std::numeric_limits<double>::infinity();
  double left_ = infinite, top_ = infinite, right_ = -infinite, bottom_ = -infinite;
};

}  // namespace

Rectangle bounds_of(const Thing& thing) {
  Bounds bounds;
  for (const Shape& shape : thing.shapes) {
    const double around = shape.form == Shape::Form::disc ? shape.radius : 0;
    for (const Spot& spot : shape.points) {
      bounds.cover({spot.x - around, spot.y - around, 2 * around, 2 * around});
    }
  }
  for (const Words& words : thing.words) bounds.cover(words.at);
  return bounds.rectangle();
}

Rectangle bounds_of(std::span<const Thing> things) {
  Bounds bounds;
  for (const Thing& thing : things) {
    if (!thing.shapes.empty() || !thing.words.empty()) bounds.cover(bounds_of(thing));
  }
  return bounds.rectangle();
}

void move(Thing& thing, double dx, double dy) {
  for (Shape& shape : thing.shapes) {
    for (Spot& spot : shape.points) spot = {spot.x + dx, spot.y + dy};
  }
  for (Words& words : thing.words) {
    words.at.x += dx;
    words.at.y += dy;
  }
}

void Block::add(Block other, double dx, double dy) {
  for (Thing& thing : other.things) {
    move(thing, dx, dy);
    things.push_back(std::move(thing));
  }
}

void Block::mirror(double width) {
  for (Thing& thing : things) {
    if (turns_by_point(thing)) {
      for (Shape& shape : thing.shapes)
        for (Spot& spot : shape.points) spot.x = width - spot.x;
    } else {
      const Rectangle at = bounds_of(thing);
      move(thing, width - at.right() - at.x, 0);
    }
  }
}

void Block::flip() {
  for (Thing& thing : things) {
    if (turns_by_point(thing)) {
      for (Shape& shape : thing.shapes)
        for (Spot& spot : shape.points) spot.y = -spot.y;
    } else {
      const Rectangle at = bounds_of(thing);
      move(thing, 0, -at.bottom() - at.y);
    }
  }
}

Shape line(Ink ink, std::vector<Spot> points) { return {Shape::Form::line, ink, std::move(points), 0}; }

Shape box(Ink ink, const Rectangle& at, double corner) {
  return {Shape::Form::box, ink, {{at.x, at.y}, {at.right(), at.bottom()}}, corner};
}

}  // namespace whichwire::draw
