// What must hold of every picture, whatever the network: everything is in it once, and nothing lies upon a label. The
// browser's own measure of each label is taken in tests/page.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draw/block.hpp"
#include "pictures.hpp"

using namespace whichwire;
using whichwire::draw::bounds_of;

namespace {

struct Label {
  const Thing* thing;
  const Words* words;
};

std::vector<Label> labels_of(const Picture& picture) {
  std::vector<Label> labels;
  for (const Thing& thing : picture.things)
    for (const Words& words : thing.words) labels.push_back({&thing, &words});
  return labels;
}

bool overlap(const Rectangle& a, const Rectangle& b) {
  constexpr double touch = 0.5;
  return a.x + touch < b.right() && b.x + touch < a.right() && a.y + touch < b.bottom() && b.y + touch < a.bottom();
}

/// Whether a straight line has a part within the rectangle: what is left of it after cutting at each side
/// (Liang and Barsky, ACM Transactions on Graphics 3 (1984) 1).
bool crosses(const Spot& a, const Spot& b, const Rectangle& at) {
  double from = 0, to = 1;
  const auto cut = [&](double step, double room) {
    if (step == 0) return room >= 0;
    const double where = room / step;
    if (step < 0) from = std::max(from, where);
    if (step > 0) to = std::min(to, where);
    return from <= to;
  };
  const double dx = b.x - a.x, dy = b.y - a.y;
  return cut(-dx, a.x - at.x) && cut(dx, at.right() - a.x) && cut(-dy, a.y - at.y) && cut(dy, at.bottom() - a.y);
}

/// The frame of a box, which only its own words may be in.
std::vector<std::pair<const Thing*, Rectangle>> frames_of(const Picture& picture) {
  std::vector<std::pair<const Thing*, Rectangle>> frames;
  for (const Thing& thing : picture.things) {
    for (const Shape& shape : thing.shapes) {
      if (shape.ink != Ink::outline && shape.ink != Ink::torn_outline) continue;
      Thing only;
      only.shapes.push_back(shape);
      frames.emplace_back(&thing, bounds_of(only));
    }
  }
  return frames;
}

using Complaints = std::vector<std::string>;

void check_labels(const Picture& picture, Complaints& complaints) {
  const std::vector<Label> labels = labels_of(picture);
  if (labels.size() < 10) complaints.push_back("hardly a label");
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const Rectangle& at = labels[i].words->at;
    if (at.x < 0 || at.y < 0 || at.right() > picture.width || at.bottom() > picture.height)
      complaints.push_back(labels[i].words->text + " is not on the sheet");
    for (std::size_t j = i + 1; j < labels.size(); ++j) {
      if (overlap(at, labels[j].words->at))
        complaints.push_back(labels[i].words->text + " lies upon " + labels[j].words->text);
    }
  }
}

void check_frames(const Picture& picture, Complaints& complaints) {
  const auto frames = frames_of(picture);
  for (std::size_t i = 0; i < frames.size(); ++i) {
    for (const Label& label : labels_of(picture)) {
      if (label.thing != frames[i].first && overlap(label.words->at, frames[i].second))
        complaints.push_back(label.words->text + " lies upon a box");
    }
    for (std::size_t j = i + 1; j < frames.size(); ++j)
      if (overlap(frames[i].second, frames[j].second)) complaints.push_back("two boxes overlap");
  }
}

Rectangle inside_of(const Rectangle& at) { return {at.x + 1, at.y + 1, at.width - 2, at.height - 2}; }

/// How far a suspected wire's halo reaches to each side, as in picture.css.
double halo_of(Ink ink) {
  switch (ink) {
    case Ink::likely_halo:
      return 7.5;
    case Ink::possible_halo:
      return 6;
    case Ink::remote_halo:
    case Ink::differs_halo:
      return 4.5;
    default:
      return 0;
  }
}

/// Whether an upright halo lies upon the label; above a level one, only descenders reach into it.
bool glows_upon(const Shape& shape, const Spot& a, const Spot& b, const Rectangle& label) {
  const double halo = halo_of(shape.ink);
  return halo > 0 && a.x == b.x && crosses(a, b, {label.x - halo, label.y, label.width + 2 * halo, label.height});
}

void check_wires(const Picture& picture, Complaints& complaints) {
  const auto frames = frames_of(picture);
  const std::vector<Label> labels = labels_of(picture);
  for (const Thing& thing : picture.things) {
    if (thing.role != Thing::Role::wire && thing.role != Thing::Role::joint) continue;
    for (const Shape& shape : thing.shapes) {
      if (shape.form != Shape::Form::line) continue;
      for (std::size_t i = 1; i < shape.points.size(); ++i) {
        const Spot &a = shape.points[i - 1], &b = shape.points[i];
        for (const Label& label : labels) {
          if (crosses(a, b, inside_of(label.words->at))) complaints.push_back("a wire runs over " + label.words->text);
          if (glows_upon(shape, a, b, label.words->at)) complaints.push_back("a halo lies upon " + label.words->text);
        }
        for (const auto& frame : frames)
          if (crosses(a, b, inside_of(frame.second))) complaints.push_back("a wire runs through a box");
      }
    }
  }
}

std::vector<const Shape*> lines_in(const Picture& picture, Ink ink) {
  std::vector<const Shape*> lines;
  for (const Thing& thing : picture.things)
    for (const Shape& shape : thing.shapes)
      if (shape.ink == ink && shape.form == Shape::Form::line && thing.role != Thing::Role::legend)
        lines.push_back(&shape);
  return lines;
}

/// A bar is 8 wide, as in picture.css; a little more must be free.
void check_bars(const Picture& picture, Complaints& complaints) {
  constexpr double clear = 4 + 2;
  for (const Shape* connector : lines_in(picture, Ink::coupling)) {
    const Rectangle at = bounds_of(Thing{{}, {}, {*connector}, {}});
    const Rectangle around{at.x - clear, at.y - clear, at.width + 2 * clear, at.height + 2 * clear};
    for (const Shape* bar : lines_in(picture, Ink::joint))
      for (std::size_t i = 1; i < bar->points.size(); ++i)
        if (crosses(bar->points[i - 1], bar->points[i], around))
          complaints.push_back("a splice's bar touches an inline connector at " + std::to_string(at.x) + ", " +
                               std::to_string(at.y));
  }
}

void check_all(bool marked, const PictureOptions& options) {
  for (const auto& one : test::networks_to_draw()) {
    CAPTURE(one.first);
    const Marks marks = test::crowded_marks(one.second);
    const Picture picture = picture_of(one.second, marked ? &marks : nullptr, options);
    Complaints complaints;
    check_labels(picture, complaints);
    check_frames(picture, complaints);
    check_wires(picture, complaints);
    check_bars(picture, complaints);
    for (const std::string& complaint : complaints) FAIL_CHECK(complaint);
  }
}

std::size_t count(const Picture& picture, Thing::Role role, const Part& part) {
  return static_cast<std::size_t>(std::ranges::count_if(
      picture.things, [&](const Thing& thing) { return thing.role == role && thing.part == part; }));
}

}  // namespace

TEST_CASE("no label lies upon another, upon a box or upon a wire, and no wire runs through a box") {
  check_all(false, {});
}

TEST_CASE("nor with feeds and grounds") { check_all(false, {true}); }

TEST_CASE("nor with something suspected of every part") { check_all(true, {}); }

TEST_CASE("nor with both") { check_all(true, {true}); }

TEST_CASE("nor on sheets of paper") {
  check_all(false, {true, true, PictureFit::sheets});
  check_all(true, {false, true, PictureFit::sheets});
}

TEST_CASE("every module has one box, every segment one wire, every bus its heading") {
  for (const auto& one : test::networks_to_draw()) {
    CAPTURE(one.first);
    const Network& network = one.second;
    const Picture picture = picture_of(network);
    for (std::size_t i = 0; i < network.modules.size(); ++i) {
      CAPTURE(network.modules[i].id);
      CHECK(count(picture, Thing::Role::box, {Part::Kind::module, i}) == 1);
    }
    CHECK(count(picture, Thing::Role::box, {Part::Kind::connector}) == 1);
    for (std::size_t b = 0; b < network.buses.size(); ++b) {
      CAPTURE(network.buses[b].id);
      CHECK(count(picture, Thing::Role::heading, {Part::Kind::bus, b}) == 1);
      for (std::size_t i = 0; i < network.buses[b].segments.size(); ++i) {
        CAPTURE(network.buses[b].segments[i].id);
        CHECK(count(picture, Thing::Role::wire, {Part::Kind::segment, i, b}) == 1);
      }
    }
  }
}

TEST_CASE("what is suspected and where to check stands at its part") {
  for (const auto& one : test::networks_to_draw()) {
    CAPTURE(one.first);
    const Marks marks = test::crowded_marks(one.second);
    const Picture picture = picture_of(one.second, &marks);
    const auto says = [&](const Part& part, const std::string& text) {
      return std::ranges::any_of(picture.things, [&](const Thing& thing) {
        return thing.part == part &&
               std::ranges::any_of(thing.words, [&](const Words& words) { return words.text.starts_with(text); });
      });
    };
    for (const Suspicion& suspicion : marks.suspicions) {
      const bool hidden = suspicion.part.kind == Part::Kind::point &&
                          one.second.points[suspicion.part.index].kind == Point::Kind::hidden;
      CAPTURE(static_cast<int>(suspicion.part.kind));
      CAPTURE(suspicion.part.index);
      if (!hidden) CHECK(says(suspicion.part, std::to_string(std::lround(suspicion.probability * 100)) + " % "));
    }
    for (const Probe& probe : marks.probes) {
      CAPTURE(probe.number);
      CHECK(says(probe.part, std::to_string(probe.number)));
    }
  }
}

TEST_CASE("the wires of a bus meet where the network says that they do") {
  for (const auto& one : test::networks_to_draw()) {
    CAPTURE(one.first);
    const Picture picture = picture_of(one.second);
    for (const Thing& thing : picture.things) {
      if (thing.role != Thing::Role::wire) continue;
      const Segment& segment = one.second.buses[thing.part.bus].segments[thing.part.index];
      CAPTURE(segment.id);
      const std::vector<Spot>& path = thing.shapes.back().points;
      for (const End& end : {segment.from, segment.to}) {
        const Part part = end.kind == End::Kind::module  ? Part{Part::Kind::module, end.index}
                          : end.kind == End::Kind::point ? Part{Part::Kind::point, end.index}
                                                         : Part{Part::Kind::connector};
        if (end.kind == End::Kind::point && one.second.points[end.index].kind == Point::Kind::hidden) continue;
        const bool met = std::ranges::any_of(picture.things, [&](const Thing& other) {
          if (other.part != part || other.shapes.empty()) return false;
          const Rectangle at = bounds_of(other);
          const Rectangle around{at.x - 4, at.y - 4, at.width + 8, at.height + 8};
          const auto within = [&](const Spot& spot) {
            return spot.x >= around.x && spot.x <= around.right() && spot.y >= around.y && spot.y <= around.bottom();
          };
          return within(path.front()) || within(path.back());
        });
        CHECK(met);
      }
    }
  }
}
