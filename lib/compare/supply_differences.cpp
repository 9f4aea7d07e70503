// Feeds, grounds, pins, the diagnostic connector. Tests: tests/compare/edits.cpp.
#include "compare/differ.hpp"

namespace whichwire {
namespace {

using Kind = Difference::Kind;
using Sort = Difference::Sort;

std::string pin_name(const std::string& owner, const std::string& pin, const std::string& otherwise) {
  return owner + "/" + (pin.empty() ? otherwise : pin);
}

/// `source_a` and `source_b`: where a pin leads, in words.
template <class Pin, class SourceA, class SourceB>
void differ_pins(Differ& to, Kind kind, const std::string& owner, const std::string& sort, const Map& map,
                 const std::vector<Pin>& list_a, const std::vector<Pin>& list_b, SourceA source_a, SourceB source_b) {
  for (std::size_t i = 0; i < list_a.size(); ++i) {
    const Pin& x = list_a[i];
    const std::string part = pin_name(owner, x.pin, sort);
    if (map[i] == nowhere) {
      to.only(Sort::only_in_a, kind, part, sort + " pin, " + source_a(x));
      continue;
    }
    const Pin& y = list_b[map[i]];
    to.changed(kind, part, "pin", said(x.pin), said(y.pin));
    to.changed(kind, part, sort, source_a(x), source_b(y));
    to.changed(kind, part, "wire", said(x.wire), said(y.wire));
  }
  for (const std::size_t j : only_in_b(map, list_b.size())) {
    const Pin& y = list_b[j];
    to.only(Sort::only_in_b, kind, pin_name(owner, y.pin, sort), sort + " pin, " + source_b(y));
  }
}

std::string live_in(const Feed& feed) {
  std::string words;
  for (const KeyState key : {KeyState::off, KeyState::accessory, KeyState::run, KeyState::start}) {
    if (feed.live[static_cast<std::size_t>(key)]) words += (words.empty() ? "" : ", ") + std::string(word_for(key));
  }
  return words.empty() ? "never" : words;
}

void differ_feeds(Differ& to) {
  const auto from = [](const std::string& id) { return id.empty() ? "battery" : id; };
  to.parts(Kind::feed, to.match.feeds, to.a.feeds, to.b.feeds, [&](const Feed& x, const Feed& y, std::size_t) {
    to.changed(Kind::feed, x.id, "kind", std::string(phrase_for(x.kind)), std::string(phrase_for(y.kind)));
    to.changed(Kind::feed, x.id, "size", said(x.amps, "A"), said(y.amps, "A"));
    to.changed(Kind::feed, x.id, "fed from", from(x.from == nowhere ? "" : to.a.feeds[x.from].id),
               from(to.feed_of_b(y.from)));
    to.changed(Kind::feed, x.id, "live with the key at", live_in(x), live_in(y));
    to.places(Kind::feed, x.id, x.place, y.place);
  });
}

void differ_connector(Differ& to) {
  const DiagnosticConnector &x = to.a.diagnostic_connector, &y = to.b.diagnostic_connector;
  const auto pins = [](const LinePins& of) {
    return of.high.empty() && of.low.empty() ? "" : " (pins " + of.high + (of.low.empty() ? "" : ", " + of.low) + ")";
  };
  Differ::Texts of_a, of_b;
  for (const auto& bus : x.buses) of_a.push_back(to.a.buses[bus.bus].id + pins(bus.pins));
  for (const auto& bus : y.buses) of_b.push_back(to.bus_of_b(bus.bus) + pins(bus.pins));
  to.changed(Kind::connector, "DLC", "buses", std::move(of_a), std::move(of_b));
  differ_power(to, Kind::connector, "DLC", to.match.connector_power, x.power, y.power);
  differ_ground(to, Kind::connector, "DLC", to.match.connector_ground, x.ground, y.ground);
  to.places(Kind::connector, "DLC", x.place, y.place);
}

}  // namespace

void differ_power(Differ& to, Kind kind, const std::string& owner, const Map& map, const std::vector<PowerPin>& list_a,
                  const std::vector<PowerPin>& list_b) {
  const auto words = [](const std::string& id) { return id.empty() ? "no feed stated" : "feed " + id; };
  differ_pins(
      to, kind, owner, "feed", map, list_a, list_b,
      [&](const PowerPin& pin) { return words(pin.feed == nowhere ? "" : to.a.feeds[pin.feed].id); },
      [&](const PowerPin& pin) { return words(to.feed_of_b(pin.feed)); });
}

void differ_ground(Differ& to, Kind kind, const std::string& owner, const Map& map,
                   const std::vector<GroundPin>& list_a, const std::vector<GroundPin>& list_b) {
  const auto words = [](const std::string& id) { return id.empty() ? "no ground stated" : "ground point " + id; };
  differ_pins(
      to, kind, owner, "ground", map, list_a, list_b,
      [&](const GroundPin& pin) { return words(pin.ground == nowhere ? "" : to.a.grounds[pin.ground].id); },
      [&](const GroundPin& pin) { return words(to.ground_of_b(pin.ground)); });
}

void differ_supply(Differ& differ) {
  differ_feeds(differ);
  differ.parts(
      Kind::ground, differ.match.grounds, differ.a.grounds, differ.b.grounds,
      [&](const Ground& x, const Ground& y, std::size_t) { differ.places(Kind::ground, x.id, x.place, y.place); });
  differ_connector(differ);
}

}  // namespace whichwire
