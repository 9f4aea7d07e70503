#include "render/phrases.hpp"

#include <algorithm>

#include "render/page.hpp"

namespace whichwire {

namespace {

using render::bus_phrase;

std::string in_brackets(const std::vector<std::string>& words) {
  std::vector<std::string> said;
  std::copy_if(words.begin(), words.end(), std::back_inserter(said), [](const auto& word) { return !word.empty(); });
  return said.empty() ? "" : " (" + render::joined(said, ", ") + ")";
}

/// `ECM pin A-27 (VT, from fuse F4)`; a pin that the network does not name is the module's feed or ground.
std::string power_phrase(const Network& network, const std::string& owner, const std::vector<PowerPin>& pins,
                         std::size_t item) {
  if (item == nowhere) return "feed of " + owner;
  const PowerPin& pin = pins[item];
  const std::string from = pin.feed == nowhere ? "" : "from " + phrase_for(network.feeds[pin.feed]);
  return "feed wire at " + owner + (pin.pin.empty() ? "" : " pin " + pin.pin) + in_brackets({pin.wire, from});
}

std::string ground_phrase(const Network& network, const std::string& owner, const std::vector<GroundPin>& pins,
                          std::size_t item) {
  if (item == nowhere) return "ground of " + owner;
  const GroundPin& pin = pins[item];
  const std::string to = pin.ground == nowhere ? "" : "to ground point " + network.grounds[pin.ground].id;
  return "ground wire at " + owner + (pin.pin.empty() ? "" : " pin " + pin.pin) + in_brackets({pin.wire, to});
}

std::string reference_phrase(const Network& network, const Fault& fault) {
  const Module& module = network.modules[fault.owner];
  const Reference& reference = module.references[fault.item];
  return "sensor supply " + reference.id + " of " + module.id +
         in_brackets({reference.pin.empty() ? "" : "pin " + reference.pin, reference.wire});
}

std::string line_phrase(const Bus& bus, Lines lines) {
  if (lines_of(bus.protocol) == 1) return "";
  switch (lines) {
    case Lines::high:
      return ", the high line";
    case Lines::low:
      return ", the low line";
    case Lines::both:
      return ", both lines";
  }
  return "";
}

/// A wiring end in words; the hidden centre of a bus whose wiring is not known is the rest of the bus.
std::string end_phrase(const Network& network, const End& end) {
  if (end.kind == End::Kind::diagnostic_connector) return "the diagnostic connector";
  if (end.kind == End::Kind::point && network.points[end.index].kind == Point::Kind::hidden)
    return "the rest of the bus";
  return id_of(network, end);
}

std::string segment_words(const Network& network, const Fault& fault) {
  const Bus& bus = network.buses[fault.bus];
  const Segment& segment = bus.segments[fault.item];
  return "bus wire " + segment.id + " of " + bus.id + " (" + end_phrase(network, segment.from) + " to " +
         end_phrase(network, segment.to) + ")";
}

std::string segment_phrase(const Network& network, const Fault& fault) {
  return segment_words(network, fault) + line_phrase(network.buses[fault.bus], fault.lines);
}

std::string connector_pin_phrase(const Network& network, const Fault& fault) {
  const LinePins& pins = network.diagnostic_connector.buses[fault.item].pins;
  const std::string& pin = fault.lines == Lines::low ? pins.low : pins.high;
  return "diagnostic connector" + (pin.empty() ? "" : " pin " + pin) + " for bus " + network.buses[fault.bus].id +
         (pin.empty() ? line_phrase(network.buses[fault.bus], fault.lines) : "");
}

/// The part that is broken, in words.
std::string part_phrase(const Network& network, const Fault& fault) {
  const DiagnosticConnector& connector = network.diagnostic_connector;
  const std::string dlc = "the diagnostic connector";
  switch (fault.part) {
    case PartKind::module:
      return network.modules[fault.owner].id;
    case PartKind::segment:
      return segment_phrase(network, fault);
    case PartKind::power_pin: {
      const Module& module = network.modules[fault.owner];
      return power_phrase(network, module.id, module.power, fault.item);
    }
    case PartKind::ground_pin: {
      const Module& module = network.modules[fault.owner];
      return ground_phrase(network, module.id, module.ground, fault.item);
    }
    case PartKind::reference:
      return reference_phrase(network, fault);
    case PartKind::feed:
      return phrase_for(network.feeds[fault.owner]);
    case PartKind::ground:
      return "ground point " + network.grounds[fault.owner].id;
    case PartKind::terminator:
      return "terminator of " + network.buses[fault.bus].id + " at " +
             end_phrase(network, network.buses[fault.bus].terminators[fault.item].at);
    case PartKind::bus:
      return "bus " + bus_phrase(network.buses[fault.bus]);
    case PartKind::connector_bus_pin:
      return connector_pin_phrase(network, fault);
    case PartKind::connector_power_pin:
      return power_phrase(network, dlc, connector.power, fault.item);
    case PartKind::connector_ground_pin:
      return ground_phrase(network, dlc, connector.ground, fault.item);
  }
  return "";
}

std::string shorted(const Fault& fault) {
  if (!fault.to) return " shorted";
  switch (*fault.to) {
    case ShortTo::ground:
      return " shorted to ground";
    case ShortTo::supply:
      return " shorted to supply";
    case ShortTo::other_line:
      return ": its two lines touch";
  }
  return "";
}

std::string steady_phrase(const Network& network, const Fault& fault) {
  std::string part = part_phrase(network, fault);
  const std::string bus = fault.bus == nowhere ? "its bus" : "bus " + network.buses[fault.bus].id;
  switch (fault.kind) {
    case FaultKind::dead:
      return part + " itself does not work";
    case FaultKind::holds:
      return part + " loads " + bus + " and holds it down";
    case FaultKind::babbles:
      return part + " floods " + bus;
    case FaultKind::unconfigured:
      return part + " is fitted but not programmed";
    case FaultKind::not_forwarding:
      return part + " answers but passes nothing on";
    case FaultKind::port_dead:
      return part + ": its port on " + bus + " is dead";
    case FaultKind::back_feeds:
      return part + " lost a feed or ground and pushes current into " + bus;
    case FaultKind::not_fitted:
      return "this vehicle has no " + part;
    case FaultKind::open:
      return part + (fault.part == PartKind::feed ? " open or blown" : " open");
    case FaultKind::short_circuit:
      return part + shorted(fault);
    case FaultKind::resistive:
      return part + ": poor contact, corroded";
    case FaultKind::missing:
      return part + " missing";
    case FaultKind::extra:
      return "one terminator too many on " + part;
    case FaultKind::added_device:
      return "an added device that the diagram does not show disturbs " + part;
  }
  return part;
}

}  // namespace

std::string phrase_of(const Network& network, const Fault& fault) {
  return steady_phrase(network, fault) + (fault.comes_and_goes ? ", now and then" : "");
}

namespace render {

namespace {

/// `this vehicle has no PDC and no TCM`.
std::string without(const Network& network, const std::vector<Fault>& absent) {
  std::vector<std::string> ids;
  ids.reserve(absent.size());
  for (const Fault& fault : absent) ids.push_back("no " + network.modules[fault.owner].id);
  return "this vehicle has " + joined(ids);
}

}  // namespace

std::string bus_phrase(const Bus& bus) { return bus.name.empty() ? bus.id : bus.id + " (" + bus.name + ")"; }

std::string phrase_of(const Network& network, const std::vector<Fault>& faults) {
  if (faults.empty()) return "no fault";
  std::vector<std::string> wrong;
  std::vector<Fault> absent;  // what is not fitted is no fault: it is said last
  for (const Fault& fault : faults) {
    if (fault.kind == FaultKind::not_fitted) {
      absent.push_back(fault);
    } else {
      wrong.push_back(whichwire::phrase_of(network, fault));
    }
  }
  std::string text = joined(wrong, ", together with ");
  if (!absent.empty()) text += (text.empty() ? "" : "; and ") + without(network, absent);
  return text;
}

namespace {

/// Modules that are not fitted in any of the sets, all of which say more than that.
std::vector<Fault> absent_in_all(const std::vector<std::vector<Fault>>& sets) {
  std::vector<Fault> absent;
  const auto is_absent = [](const Fault& fault) { return fault.kind == FaultKind::not_fitted; };
  if (std::ranges::any_of(sets, [&](const auto& set) { return std::ranges::all_of(set, is_absent); })) return absent;
  for (const Fault& fault : sets.front()) {
    const auto has_it = [&](const auto& set) { return std::ranges::find(set, fault) != set.end(); };
    if (is_absent(fault) && std::ranges::all_of(sets, has_it)) absent.push_back(fault);
  }
  return absent;
}

/// Whether two single faults say the same but for the line, so that one phrase serves for both.
bool same_but_line(const std::vector<Fault>& a, const std::vector<Fault>& b) {
  if (a.size() != 1 || b.size() != 1 || a[0].part != PartKind::segment) return false;
  Fault other = b[0];
  other.lines = a[0].lines;
  other.to = a[0].to;
  other.odds = a[0].odds;
  return other == a[0];
}

/// What tells one of such a group from the others: `high line`, `low line to ground`, `line to line`; on a bus of one
/// line `to ground`.
std::string variant_phrase(const Network& network, const Fault& fault) {
  if (fault.to == ShortTo::other_line) return "line to line";
  const std::string to = fault.to ? "to " + std::string(word_for(*fault.to)) : "";
  if (lines_of(network.buses[fault.bus].protocol) == 1) return to;
  const std::string line = fault.lines == Lines::both ? "both lines" : std::string(word_for(fault.lines)) + " line";
  return line + (to.empty() ? "" : " " + to);
}

/// The phrase of a group that differs only in the line.
std::string merged_phrase(const Network& network, const Fault& fault, const std::vector<std::string>& variants) {
  const bool single = lines_of(network.buses[fault.bus].protocol) == 1;
  const std::string state = fault.kind == FaultKind::open            ? "open"
                            : fault.kind == FaultKind::short_circuit ? "shorted"
                                                                     : "poor contact";
  return segment_words(network, fault) + " " + state + (single ? " " : ": ") + joined(variants, " or ") +
         (fault.comes_and_goes ? ", now and then" : "");
}

}  // namespace

Alternatives alternatives_of(const Network& network, const Explanation& explanation) {
  std::vector<std::vector<Fault>> sets = {explanation.faults};
  sets.insert(sets.end(), explanation.alike.begin(), explanation.alike.end());
  Alternatives alternatives;
  if (const std::vector<Fault> absent = absent_in_all(sets); sets.size() > 1 && !absent.empty()) {
    alternatives.besides = without(network, absent);
    for (auto& set : sets)
      std::erase_if(set, [&](const Fault& fault) { return std::ranges::find(absent, fault) != absent.end(); });
  }
  std::vector<bool> said(sets.size(), false);
  for (std::size_t i = 0; i < sets.size(); ++i) {
    if (said[i]) continue;
    std::vector<std::string> variants;
    for (std::size_t j = i; j < sets.size(); ++j) {
      if (said[j] || !same_but_line(sets[i], sets[j])) continue;
      said[j] = true;
      variants.push_back(variant_phrase(network, sets[j][0]));
    }
    alternatives.each.push_back(variants.size() > 1 ? merged_phrase(network, sets[i][0], variants)
                                                    : phrase_of(network, sets[i]));
    if (i > 0) continue;
    alternatives.first = variants.size() > 1 ? alternatives.each.front() : phrase_of(network, explanation.faults);
    if (variants.size() > 1 && !alternatives.besides.empty()) alternatives.first += "; and " + alternatives.besides;
  }
  return alternatives;
}

}  // namespace render

}  // namespace whichwire
