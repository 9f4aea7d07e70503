#include "draw/boxes.hpp"

#include <algorithm>

#include "draw/lettering.hpp"
#include "draw/notes.hpp"

namespace whichwire::draw {

namespace {

constexpr double inset = 7;  // from the edge of a box to its words
constexpr double resistor_width = 20;

const Terminator* terminator_at(const Bus& bus, const End& end) {
  const auto found = std::ranges::find(bus.terminators, end, &Terminator::at);
  return found == bus.terminators.end() ? nullptr : &*found;
}

void add_lines(Thing& thing, const std::vector<std::string>& lines, double x, double y) {
  for (const std::string& text : lines) {
    const double width = width_of(text, Lettering::name);
    thing.words.push_back({{x, y, width, line_height(Lettering::name) - 1}, text, Lettering::name});
    y += line_height(Lettering::name) - 1;
  }
}

void add_heading(Thing& thing, const std::string& id, double room) {
  const std::string text = fitted(id, Lettering::id, room);
  thing.words.push_back({{-box_width / 2 + inset, 4, width_of(text, Lettering::id), 15}, text, Lettering::id});
}

void add_resistor(Thing& thing) {
  const double right = box_width / 2 - inset, y = 11.5;
  thing.shapes.push_back(line(Ink::resistor, {{right - resistor_width, y}, {right, y}}));
  thing.shapes.push_back(box(Ink::resistor, {right - resistor_width + 4, y - 3.5, 12, 7}));
}

/// Feeds and grounds by name, each once.
std::vector<Note> supplies_of(const Drawing& drawing, const Module& module) {
  std::vector<Note> notes;
  const auto add = [&](Note::Kind kind, const std::vector<std::string>& ids) {
    std::string text;
    for (std::size_t i = 0; i < ids.size(); ++i) {
      if (std::find(ids.begin(), ids.begin() + static_cast<std::ptrdiff_t>(i), ids[i]) ==
          ids.begin() + static_cast<std::ptrdiff_t>(i))
        text += (text.empty() ? "" : " ") + ids[i];
    }
    for (const std::string& one : lines_of(text, Lettering::note, box_width - 2 * inset - 19, 3)) {
      notes.push_back({kind, one});
    }
  };
  std::vector<std::string> feeds, grounds;
  for (const PowerPin& pin : module.power)
    if (pin.feed != nowhere) feeds.push_back(drawing.network.feeds[pin.feed].id);
  for (const GroundPin& pin : module.ground)
    if (pin.ground != nowhere) grounds.push_back(drawing.network.grounds[pin.ground].id);
  add(Note::Kind::feed, feeds);
  add(Note::Kind::ground, grounds);
  return notes;
}

/// The box, and below it within a thin frame what is said of it.
Boxed with_notes(Thing thing, const std::vector<Note>& notes, const Part& part) {
  Boxed made{{}, box_height, false};
  made.block.things.push_back(std::move(thing));
  if (notes.empty()) return made;
  const double height = height_of(notes) + 5;
  Thing below = notes_at(part, notes, {-box_width / 2 + 4, 3}, box_width - 8);
  below.shapes.insert(below.shapes.begin(), box(Ink::outline, {-box_width / 2 + 3, 0, box_width - 6, height}));
  made.block.things.push_back(std::move(below));
  move(made.block.things.back(), 0, box_height);
  made.height += height;
  return made;
}

Boxed module_box(Drawing& drawing, std::size_t index, std::size_t bus, bool again) {
  const Module& module = drawing.network.modules[index];
  const Part part{Part::Kind::module, index};
  const Rectangle frame{-box_width / 2, 0, box_width, box_height};
  const bool ends = terminator_at(drawing.network.buses[bus], {End::Kind::module, index}) != nullptr;
  const double room = box_width - 2 * inset - (ends ? resistor_width + 4 : 0);
  Thing thing{Thing::Role::box, part, {}, {}, state_of(drawing, index)};
  if (again || drawing.home[index] != nowhere) {
    thing.role = Thing::Role::again;
    thing.shapes.push_back(box(Ink::torn_outline, frame, 3));
    add_heading(thing, module.id, room);
    const std::string where = drawing.network.buses[drawing.home[index]].id;
    add_lines(thing, {fitted("stands at " + where, Lettering::name, box_width - 2 * inset)}, -box_width / 2 + inset,
              20);
    if (ends) add_resistor(thing);
    return {{{std::move(thing)}}, box_height, true};
  }
  drawing.home[index] = bus;
  if (halo_at(drawing, part) == Ink::differs_halo) thing.shapes.push_back(box(Ink::differs_halo, frame, 3));
  thing.shapes.push_back(box(Ink::outline, frame, 3));
  add_heading(thing, module.id, room);
  add_lines(thing, lines_of(module.name, Lettering::name, box_width - 2 * inset, 2), -box_width / 2 + inset, 20);
  if (ends) add_resistor(thing);
  std::vector<Note> notes = marks_at(drawing, part);
  if (drawing.options.feeds)
    for (Note& note : supplies_of(drawing, module)) notes.push_back(std::move(note));
  return with_notes(std::move(thing), notes, part);
}

std::string pins_of(const Drawing& drawing, std::size_t bus) {
  for (const auto& at : drawing.network.diagnostic_connector.buses) {
    if (at.bus != bus || at.pins.high.empty()) continue;
    return at.pins.low.empty() ? "pin " + at.pins.high : "pins " + at.pins.high + " and " + at.pins.low;
  }
  return "";
}

Boxed connector_box(Drawing& drawing, std::size_t bus, bool again) {
  const Part part{Part::Kind::connector};
  Thing thing{Thing::Role::box, part, {}, {}};
  const bool torn = again || drawing.connector_home != nowhere;
  const double left = -box_width / 2, right = box_width / 2, slant = 9;
  const Ink ink = torn ? Ink::torn_outline : Ink::outline;
  thing.shapes.push_back(
      line(ink, {{left, 0}, {right, 0}, {right - slant, box_height}, {left + slant, box_height}, {left, 0}}));
  add_heading(thing, "DLC", box_width - 2 * inset);
  std::vector<std::string> lines = {torn ? "connector again" : "Diagnostic conn."};
  const std::string pins = pins_of(drawing, bus);
  if (!pins.empty()) lines.push_back(fitted(pins, Lettering::name, box_width - 2 * inset - 2 * slant));
  add_lines(thing, lines, left + inset + slant / 2, 20);
  if (torn) {
    thing.role = Thing::Role::again;
    return {{{std::move(thing)}}, box_height, true};
  }
  drawing.connector_home = bus;
  return with_notes(std::move(thing), marks_at(drawing, part), part);
}

}  // namespace

Thing::State state_of(const Drawing& drawing, std::size_t module) {
  if (drawing.marks == nullptr || drawing.marks->answers.empty()) return Thing::State::plain;
  const std::optional<Answer>& answer = drawing.marks->answers[module];
  if (!answer) return Thing::State::not_seen;
  switch (*answer) {
    case Answer::yes:
      return Thing::State::answers;
    case Answer::no:
      return Thing::State::silent;
    case Answer::refused:
      return Thing::State::refuses;
    case Answer::not_fitted:
      return drawing.network.modules[module].optional ? Thing::State::not_fitted : Thing::State::silent;
    case Answer::not_reachable:
      return Thing::State::not_reachable;
    case Answer::not_polled:
      return Thing::State::not_seen;
  }
  return Thing::State::plain;
}

Boxed box_of(Drawing& drawing, const End& end, std::size_t bus, bool again) {
  return end.kind == End::Kind::module ? module_box(drawing, end.index, bus, again)
                                       : connector_box(drawing, bus, again);
}

Thing joint_sign(const Drawing& drawing, std::size_t point, std::size_t bus, Spot at, bool upright) {
  Thing thing{Thing::Role::joint, {Part::Kind::point, point}, {}, {}};
  const Ink ink = drawing.network.points[point].kind == Point::Kind::inline_connector ? Ink::coupling : Ink::joint;
  if (ink == Ink::joint) {
    thing.shapes.push_back({Shape::Form::disc, Ink::joint, {at}, 4});
  } else {
    const double along = 4, across = 6;
    const auto spot = [&](double a, double b) { return upright ? Spot{at.x + b, at.y + a} : Spot{at.x + a, at.y + b}; };
    thing.shapes.push_back(line(Ink::blot, {spot(-along - 1, 0), spot(along + 1, 0)}));
    for (const double shift : {-along, along})
      thing.shapes.push_back(line(ink, {spot(shift - 3, -across), spot(shift + 1, 0), spot(shift - 3, across)}));
  }
  if (terminator_at(drawing.network.buses[bus], {End::Kind::point, point}) != nullptr) {
    thing.shapes.push_back(box(Ink::resistor, {at.x - 6, at.y - 3.5, 12, 7}));
  }
  return thing;
}

std::vector<Note> notes_of_point(const Drawing& drawing, std::size_t point) {
  const Point& its = drawing.network.points[point];
  std::vector<Note> notes;
  if (its.kind != Point::Kind::hidden) notes.push_back({Note::Kind::label, its.id});
  for (Note& note : marks_at(drawing, {Part::Kind::point, point})) notes.push_back(std::move(note));
  return notes;
}

}  // namespace whichwire::draw
