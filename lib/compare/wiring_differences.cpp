// Buses, segments, terminators, points, gateways. Tests: tests/compare/edits.cpp.
#include <algorithm>

#include "compare/differ.hpp"

namespace whichwire {
namespace {

using Kind = Difference::Kind;
using Texts = Differ::Texts;

std::string pair_of(const LinePins& pins) {
  if (pins.high.empty() && pins.low.empty()) return "not known";
  return pins.low.empty() ? pins.high : said(pins.high) + " and " + said(pins.low);
}

void differ_segment(Differ& to, const Segment& x, Segment y) {
  const auto name_a = [&](const End& end) { return id_of(to.a, end); };
  // Which end is called first means nothing.
  if (to.match.in_b(x.from) == y.to || to.match.in_b(x.to) == y.from) {
    std::swap(y.from, y.to);
    std::swap(y.from_pins, y.to_pins);
  }
  to.changed(Kind::segment, x.id, "end", name_a(x.from), to.end_of_b(y.from));
  to.changed(Kind::segment, x.id, "end", name_a(x.to), to.end_of_b(y.to));
  to.changed(Kind::segment, x.id, "length", said(x.length_m, "m"), said(y.length_m, "m"));
  to.changed(Kind::segment, x.id, "cross-section", said(x.area_mm2, "mm2"), said(y.area_mm2, "mm2"));
  to.changed(Kind::segment, x.id, "pins at " + name_a(x.from), pair_of(x.from_pins), pair_of(y.from_pins));
  to.changed(Kind::segment, x.id, "pins at " + name_a(x.to), pair_of(x.to_pins), pair_of(y.to_pins));
}

/// Ends of a bus whose wiring is not known.
template <class Name>
Texts members_of(const Network& network, const Bus& bus, const Name& name) {
  Texts members;
  for (const Segment& segment : bus.segments) {
    for (const End& end : {segment.from, segment.to}) {
      const bool centre = end.kind == End::Kind::point && network.points[end.index].kind == Point::Kind::hidden;
      if (!centre) members.push_back(name(end));
    }
  }
  return members;
}

void differ_segments(Differ& to, const Bus& x, const Bus& y, const Map& map) {
  to.changed(Kind::bus, x.id, "wiring", x.wired ? "known" : "not known", y.wired ? "known" : "not known");
  if (x.wired && y.wired) {
    to.parts(Kind::segment, map, x.segments, y.segments,
             [&](const Segment& of_a, const Segment& of_b, std::size_t) { differ_segment(to, of_a, of_b); });
  } else if (!x.wired && !y.wired) {
    to.changed(Kind::bus, x.id, "members", members_of(to.a, x, [&](const End& end) { return id_of(to.a, end); }),
               members_of(to.b, y, [&](const End& end) { return to.end_of_b(end); }));
  }
}

void differ_terminators(Differ& to, const Bus& x, const Bus& y, const Map& map) {
  const auto ohms = [](const Terminator& one) { return said(one.ohms, "ohms"); };
  for (std::size_t i = 0; i < x.terminators.size(); ++i) {
    const std::string part = x.id + "@" + id_of(to.a, x.terminators[i].at);
    if (map[i] == nowhere) {
      to.only(Difference::Sort::only_in_a, Kind::terminator, part, ohms(x.terminators[i]));
    } else {
      to.changed(Kind::terminator, part, "ohms", ohms(x.terminators[i]), ohms(y.terminators[map[i]]));
    }
  }
  for (const std::size_t j : only_in_b(map, y.terminators.size())) {
    const Terminator& one = y.terminators[j];
    to.only(Difference::Sort::only_in_b, Kind::terminator, x.id + "@" + to.end_of_b(one.at), ohms(one));
  }
}

void differ_bus(Differ& to, const Bus& x, const Bus& y, std::size_t index) {
  const auto say = [&](const std::string& what, const std::string& a, const std::string& b) {
    to.changed(Kind::bus, x.id, what, a, b);
  };
  const auto rate = [](const Bus& bus) { return bus.bit_rate == 0 ? "not known" : said(bus.bit_rate / 1e3, "kbit/s"); };
  say("name", said(x.name), said(y.name));
  say("protocol", std::string(word_for(x.protocol)), std::string(word_for(y.protocol)));
  say("bit rate", rate(x), rate(y));
  say("colour of the high line", said(x.high_colour), said(y.high_colour));
  say("colour of the low line", said(x.low_colour), said(y.low_colour));
  to.changed(Kind::bus, x.id, "called in codes", x.called, y.called);
  const auto commander = [](const auto& modules, std::size_t m) { return m == nowhere ? "" : modules[m].id; };
  say("commander", said(commander(to.a.modules, x.commander)), said(to.module_of_b(y.commander)));
  differ_segments(to, x, y, to.match.segments[index]);
  differ_terminators(to, x, y, to.match.terminators[index]);
}

/// Module by module, since a gateway is a module.
void differ_gateways(Differ& to) {
  const auto joins = [](const Network& network, std::size_t module, const auto& name) {
    Texts buses;
    for (const Gateway& gateway : network.gateways) {
      if (gateway.module != module) continue;
      for (const std::size_t bus : gateway.joins) buses.push_back(name(bus));
    }
    return buses;
  };
  for (std::size_t m = 0; m < to.a.modules.size(); ++m) {
    if (to.match.modules[m] == nowhere) continue;
    to.changed(Kind::gateway, to.a.modules[m].id, "joins",
               joins(to.a, m, [&](std::size_t bus) { return to.a.buses[bus].id; }),
               joins(to.b, to.match.modules[m], [&](std::size_t bus) { return to.bus_of_b(bus); }));
  }
}

void differ_points(Differ& to) {
  const auto visible = [](const std::vector<Point>& points, std::size_t i) {
    return points[i].kind != Point::Kind::hidden;
  };
  for (std::size_t i = 0; i < to.a.points.size(); ++i) {
    const Point& x = to.a.points[i];
    if (!visible(to.a.points, i)) continue;
    const std::string kind(phrase_for(x.kind));
    if (to.match.points[i] == nowhere) {
      to.only(Difference::Sort::only_in_a, Kind::point, x.id, kind);
      continue;
    }
    const Point& y = to.b.points[to.match.points[i]];
    to.named(Kind::point, x.id, y.id);
    to.changed(Kind::point, x.id, "kind", kind, std::string(phrase_for(y.kind)));
    to.places(Kind::point, x.id, x.place, y.place);
  }
  for (const std::size_t j : only_in_b(to.match.points, to.b.points.size())) {
    const Point& y = to.b.points[j];
    if (visible(to.b.points, j))
      to.only(Difference::Sort::only_in_b, Kind::point, y.id, std::string(phrase_for(y.kind)));
  }
}

}  // namespace

void differ_wiring(Differ& differ) {
  differ.parts(Kind::bus, differ.match.buses, differ.a.buses, differ.b.buses,
               [&](const Bus& x, const Bus& y, std::size_t index) { differ_bus(differ, x, y, index); });
  differ_points(differ);
  differ_gateways(differ);
}

}  // namespace whichwire
