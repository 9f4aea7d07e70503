// What the parts of a picture are called, for titles that a pointer or a reading voice finds.
// Tests: tests/page/picture.cpp.
#include "render/svg_words.hpp"

#include <algorithm>

#include "draw/legend.hpp"
#include "render/page.hpp"
#include "render/svg.hpp"

namespace whichwire::render {

namespace {

std::string pins_words(const LinePins& pins) {
  if (pins.high.empty()) return "";
  return " (pin" + (pins.low.empty() ? " " + pins.high : "s " + pins.high + " and " + pins.low) + ")";
}

std::string end_words(const Network& network, const End& end, const LinePins& pins) {
  const bool hidden = end.kind == End::Kind::point && network.points[end.index].kind == Point::Kind::hidden;
  return hidden ? "the rest of the bus" : id_of(network, end) + pins_words(pins);
}

std::string colours_of(const Bus& bus) {
  if (bus.high_colour.empty()) return "";
  return ", " + bus.high_colour + (bus.low_colour.empty() ? "" : " and " + bus.low_colour);
}

std::string named(const std::string& id, const std::string& name) { return name.empty() ? id : id + ", " + name; }
std::string placed(const std::string& what, const Place& place) {
  return place.where.empty() ? what : what + "; " + place.where;
}

}  // namespace

std::string part_name(const Network& network, const Part& part) {
  switch (part.kind) {
    case Part::Kind::none:
      return "";
    case Part::Kind::module:
      return "module " + network.modules[part.index].id;
    case Part::Kind::connector:
      return "connector DLC";
    case Part::Kind::bus:
      return "bus " + network.buses[part.index].id;
    case Part::Kind::segment:
      return "segment " + network.buses[part.bus].segments[part.index].id;
    case Part::Kind::point:
      return "point " + network.points[part.index].id;
    case Part::Kind::feed:
      return "feed " + network.feeds[part.index].id;
    case Part::Kind::ground:
      return "ground " + network.grounds[part.index].id;
  }
  return "";
}

std::string part_words(const Network& network, const Part& part) {
  switch (part.kind) {
    case Part::Kind::none:
      return "";
    case Part::Kind::module: {
      const Module& module = network.modules[part.index];
      return placed(named(module.id, module.name) + (module.optional ? ", where fitted" : ""), module.place);
    }
    case Part::Kind::connector:
      return placed("Diagnostic connector", network.diagnostic_connector.place);
    case Part::Kind::bus:
      return named(network.buses[part.index].id, network.buses[part.index].name);
    case Part::Kind::segment: {
      const Bus& bus = network.buses[part.bus];
      const Segment& wire = bus.segments[part.index];
      return wire.id + " of " + bus.id + ": " + end_words(network, wire.from, wire.from_pins) + " to " +
             end_words(network, wire.to, wire.to_pins) + colours_of(bus);
    }
    case Part::Kind::point: {
      const Point& point = network.points[part.index];
      if (point.kind == Point::Kind::hidden) return "Wiring that the network file does not say";
      return placed(std::string(phrase_for(point.kind)) + " " + point.id, point.place);
    }
    case Part::Kind::feed: {
      const Feed& feed = network.feeds[part.index];
      return placed(phrase_for(feed), feed.place);
    }
    case Part::Kind::ground:
      return placed("ground point " + network.grounds[part.index].id, network.grounds[part.index].place);
  }
  return "";
}

std::string title_of(const Drawn& drawn, const Thing& thing) {
  std::string text = part_words(drawn.network, thing.part);
  const std::string_view state = draw::meaning_of(thing.state);
  if (!state.empty()) text.append(text.empty() ? "" : "; ").append(state);
  if (drawn.marks == nullptr) return text;
  for (const Suspicion& one : drawn.marks->suspicions)
    if (one.part == thing.part) text += "; suspected, " + one.what + ": " + percent(one.probability);
  for (const Probe& probe : drawn.marks->probes)
    if (probe.part == thing.part) text += "; check " + std::to_string(probe.number);
  for (const Distinction& one : drawn.marks->distinctions)
    if (one.part == thing.part) text += "; differs, " + one.what;
  return text;
}

std::string description_of(const Drawn& drawn) {
  const auto count = [](std::size_t number, const std::string& one, const std::string& many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
  };
  std::string text = count(drawn.network.modules.size(), "module", "modules") + " on " +
                     count(drawn.network.buses.size(), "bus", "buses") + ".";
  if (drawn.marks == nullptr) return text;
  std::vector<std::string> silent;
  for (const Thing& thing : drawn.picture.things) {
    if (thing.role == Thing::Role::box && thing.state == Thing::State::silent)
      silent.push_back(drawn.network.modules[thing.part.index].id);
  }
  if (!drawn.marks->answers.empty()) text += silent.empty() ? " None is silent." : " Silent: " + joined(silent) + ".";
  return drawn.marks->headline.empty() ? text : text + " " + drawn.marks->headline + ".";
}

}  // namespace whichwire::render
