// Buses, wired segment by segment or known by their members only. Tested in tests/network/buses_test.cpp.
#include <algorithm>
#include <unordered_map>

#include "network/draft.hpp"

namespace whichwire {

namespace {

using json::Trail;
using json::Value;

std::optional<Protocol> protocol_of(const std::string& word) {
  for (std::uint8_t i = 0; i <= static_cast<std::uint8_t>(Protocol::ethernet_t1); ++i) {
    if (word == word_for(static_cast<Protocol>(i))) return static_cast<Protocol>(i);
  }
  return {};
}

LinePins pins_at(Draft& draft, const Bus& bus, const Value& segment, const std::string& end, const Trail& trail) {
  const Value* const pins = json::find(segment, "pins");
  const Value* const here = pins == nullptr || end.empty() ? nullptr : json::find(*pins, end);
  if (here == nullptr) return {};
  const Trail all = trail / "pins";
  refuse_low_line(draft, bus, *here, all / end);
  return line_pins(*here);
}

void build_segment(Draft& draft, Bus& bus, const json::Member& member, const Trail& trail) {
  const Value& value = member.value;
  const std::string& from = json::text_in(value, "from");
  const std::string& to = json::text_in(value, "to");
  Segment segment;
  segment.id = member.key;
  if (const Value* const end = json::find(value, "from")) segment.from = draft.ids.find_end(*end, trail / "from");
  if (const Value* const end = json::find(value, "to")) segment.to = draft.ids.find_end(*end, trail / "to");
  segment.length_m = json::number_in(value, "length_m");
  segment.area_mm2 = json::number_in(value, "area_mm2");
  segment.from_pins = pins_at(draft, bus, value, from, trail);
  segment.to_pins = pins_at(draft, bus, value, to, trail);
  if (!from.empty() && from == to) {
    draft.say(json::find(value, "to")->spot, trail / "to",
              "the segment leads from " + json::in_quotes(from) + " to itself");
  }
  const Trail pins = trail / "pins";
  for (const json::Member& end : json::members_in(value, "pins")) {
    if (end.key == from || end.key == to || from.empty() || to.empty()) continue;
    draft.say(end.spot, pins / end.key,
              json::in_quotes(end.key) + " is no end of this segment, which leads from " + json::in_quotes(from) +
                  " to " + json::in_quotes(to));
  }
  bus.segments.push_back(std::move(segment));
}

/// Wiring that is not known: a hidden centre, and a stub to each member.
void build_members(Draft& draft, Bus& bus, const Value& value, const Trail& trail) {
  bus.wired = false;
  const End centre{End::Kind::point, draft.network.points.size()};
  draft.network.points.push_back({bus.id + ":centre", Point::Kind::hidden, {}});
  const auto stub = [&](std::string_view id, const End& end) {
    Segment segment;
    segment.id = bus.id + ":" + std::string(id);
    segment.from = centre;
    segment.to = end;
    bus.segments.push_back(std::move(segment));
  };
  const Trail list = trail / "members";
  std::size_t i = 0;
  for (const Value& member : json::items_in(value, "members")) {
    const std::size_t module = draft.ids.find(Ids::Sort::module, member, list / i++);
    if (module != nowhere) stub(member.text, {End::Kind::module, module});
  }
  const Value* const connector = json::find(draft.root, "diagnostic_connector");
  const Value* const there = connector == nullptr ? nullptr : json::find(*connector, "buses");
  if (there != nullptr && json::find(*there, bus.id) != nullptr)
    stub(connector_id, {End::Kind::diagnostic_connector, nowhere});
}

void build_terminators(Draft& draft, Bus& bus, const Value& value, const Trail& trail) {
  const Trail list = trail / "terminators";
  std::unordered_map<std::string_view, json::Spot> seen;
  std::size_t i = 0;
  for (const Value& item : json::items_in(value, "terminators")) {
    const Trail one = list / i++;
    const Value* const at = json::find(item, "at");
    if (at == nullptr || at->text.empty()) {
      bus.terminators.push_back({});  // keeps the numbers those of the text
      continue;
    }
    const auto [first, fresh] = seen.try_emplace(at->text, at->spot);
    if (!fresh)
      draft.complaints.add(at->spot, one / "at", "there is a terminator at " + json::in_quotes(at->text) + " already",
                           first->second);
    const End end = draft.ids.find_end(*at, one / "at");
    bus.terminators.push_back({end, json::number_in(item, "ohms").value_or(120.0)});
  }
}

void build_commander(Draft& draft, Bus& bus, const Value& value, const Trail& trail) {
  const json::Member* const commander = json::find_member(value, "commander");
  if (commander == nullptr) return;
  bus.commander = draft.ids.find(Ids::Sort::module, commander->value, trail / "commander");
  if (bus.protocol == Protocol::lin || !draft.protocol_known.back()) return;
  draft.say(commander->spot, trail / "commander",
            "only a lin bus has a commander, and this one is " + std::string(word_for(bus.protocol)));
}

void build_lines(Draft& draft, Bus& bus, const Value& value, const Trail& trail) {
  const Value* const lines = json::find(value, "lines");
  if (lines == nullptr) return;
  if (const Value* const high = json::find(*lines, "high")) bus.high_colour = json::text_in(*high, "colour");
  if (const Value* const low = json::find(*lines, "low")) bus.low_colour = json::text_in(*low, "colour");
  refuse_low_line(draft, bus, *lines, trail / "lines");
}

void known_subjects_only(Draft& draft, const Value& value, const Trail& trail) {
  const std::vector<std::string>& known = bus_subject_names();
  const Trail list = trail / "called";
  std::size_t i = 0;
  for (const Value& subject : json::items_in(value, "called")) {
    const Trail here = list / i++;
    if (subject.text.empty() || std::binary_search(known.begin(), known.end(), subject.text)) continue;
    draft.say(
        subject.spot, here,
        "the table of codes has no bus " + json::in_quotes(subject.text) + json::did_you_mean(subject.text, known));
  }
}

}  // namespace

void refuse_low_line(Draft& draft, const Bus& bus, const Value& pins, const Trail& trail) {
  const Value* const low = json::find(pins, "low");
  if (low == nullptr || lines_of(bus.protocol) == 2) return;  // an unknown protocol counts as two lines
  draft.say(low->spot, trail / "low",
            "a " + std::string(word_for(bus.protocol)) + " bus has a single line, `high`; it has no low one");
}

void build_points(Draft& draft) {
  for (const json::Member& member : json::members_in(draft.root, "points")) {
    const std::string& kind = json::text_in(member.value, "kind");
    const Point::Kind known = kind == "star"               ? Point::Kind::star
                              : kind == "inline-connector" ? Point::Kind::inline_connector
                                                           : Point::Kind::splice;
    draft.network.points.push_back({member.key, known, place_of(member.value)});
  }
}

void build_buses(Draft& draft) {
  const Trail root;
  const Trail all = root / "buses";
  for (const json::Member* member : draft.buses) {
    const Value& value = member->value;
    const Trail trail = all / member->key;
    Bus bus;
    bus.id = member->key;
    bus.name = json::text_in(value, "name");
    const std::optional<Protocol> protocol = protocol_of(json::text_in(value, "protocol"));
    bus.protocol = protocol.value_or(Protocol::can_hs);
    draft.protocol_known.push_back(protocol.has_value());
    bus.bit_rate = json::whole_in(value, "bit_rate").value_or(0);
    bus.called = json::texts_in(value, "called");
    const Trail segments = trail / "segments";
    for (const json::Member& segment : json::members_in(value, "segments"))
      build_segment(draft, bus, segment, segments / segment.key);
    if (json::find(value, "members") != nullptr && bus.segments.empty()) build_members(draft, bus, value, trail);
    build_lines(draft, bus, value, trail);
    build_terminators(draft, bus, value, trail);
    build_commander(draft, bus, value, trail);
    known_subjects_only(draft, value, trail);
    draft.network.buses.push_back(std::move(bus));
  }
}

}  // namespace whichwire
