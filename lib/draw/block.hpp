// A group of drawn things that is moved and turned as a whole. Wires and joints are turned point by point; boxes and
// notes keep their inside upright and are moved only.
#pragma once

#include <span>
#include <vector>
#include <whichwire/picture.hpp>

namespace whichwire::draw {

struct Block {
  std::vector<Thing> things;

  void add(Block other, double dx = 0, double dy = 0);
  /// Left becomes right: x becomes `width - x`.
  void mirror(double width);
  /// Above becomes below: y becomes `-y`.
  void flip();
};

Rectangle bounds_of(const Thing& thing);
/// Around all of them; empty for none.
Rectangle bounds_of(std::span<const Thing> things);
void move(Thing& thing, double dx, double dy);

Shape line(Ink ink, std::vector<Spot> points);
Shape box(Ink ink, const Rectangle& at, double corner = 0);

}  // namespace whichwire::draw
