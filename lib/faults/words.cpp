// Faults in words: the kinds, the part that is broken, and the words of the command line.
// A fault's words are made here and nowhere else; parse.cpp reads them by making them for every fault of the network.
// Tested in tests/faults/words.cpp.
#include "faults/words.hpp"

#include <algorithm>

namespace whichwire {

namespace {

std::string numbered(std::string word, std::size_t number, bool alone) {
  if (!alone) word.append("#").append(std::to_string(number));
  return word;
}

/// `ECM/A-27`; a pin without a name is `ECM/feed`, and with others of its sort `ECM/feed#2`.
template <class Pin>
std::string pin_word(const std::string& owner, const std::vector<Pin>& pins, std::size_t item, const char* unnamed) {
  if (item == nowhere) return owner + "/" + unnamed;
  if (!pins[item].pin.empty()) return owner + "/" + pins[item].pin;
  return numbered(owner + "/" + unnamed, item + 1, pins.size() == 1);
}

std::string connector_bus_word(const Network& network, const Fault& fault) {
  const LinePins& pins = network.diagnostic_connector.buses[fault.item].pins;
  const std::string& pin = fault.lines == Lines::low ? pins.low : pins.high;
  return "DLC/" + (pin.empty() ? network.buses[fault.bus].id : pin);
}

/// The id of the end it sits at; `ECM#2` for the second at the same end.
std::string terminator_word(const Network& network, const Fault& fault) {
  const auto& all = network.buses[fault.bus].terminators;
  const End& at = all[fault.item].at;
  const auto earlier = std::count_if(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(fault.item),
                                     [&](const Terminator& other) { return other.at == at; });
  return numbered(id_of(network, at), static_cast<std::size_t>(earlier) + 1, earlier == 0);
}

/// Whether the line must be said: the pins of the connector have a name for each line.
bool line_named(const Network& network, const Fault& fault) {
  if (fault.part == PartKind::segment) return fault.lines != Lines::both;
  if (fault.part != PartKind::connector_bus_pin || fault.lines == Lines::both) return false;
  const LinePins& pins = network.diagnostic_connector.buses[fault.item].pins;
  return (fault.lines == Lines::low ? pins.low : pins.high).empty();
}

/// Whether the bus must be said: a module does it to one bus, an end carries a terminator of one bus.
bool bus_named(const Fault& fault) {
  return (fault.part == PartKind::module && fault.bus != nowhere) || fault.part == PartKind::terminator;
}

template <class T>
std::ptrdiff_t count_id(const std::vector<T>& all, const std::string& id) {
  return std::count_if(all.begin(), all.end(), [&](const T& part) { return part.id == id; });
}

/// Segments, feeds and grounds have ids of their own sort, which need not differ from those of another sort.
bool id_shared(const Network& network, const std::string& id) {
  std::ptrdiff_t count = count_id(network.feeds, id) + count_id(network.grounds, id);
  for (const Bus& bus : network.buses) count += count_id(bus.segments, id);
  return count > 1;
}

bool word_shared(const Network& network, const Fault& fault) {
  const auto pin_is = [](const std::string& name) { return [&name](const auto& pin) { return pin.pin == name; }; };
  switch (fault.part) {
    case PartKind::segment:
      return id_shared(network, network.buses[fault.bus].segments[fault.item].id);
    case PartKind::feed:
      return id_shared(network, network.feeds[fault.owner].id);
    case PartKind::ground:
      return id_shared(network, network.grounds[fault.owner].id);
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::reference: {
      const std::string word = part_of(network, fault);
      const Module& module = network.modules[fault.owner];
      const std::string name = word.substr(module.id.size() + 1);
      return std::count_if(module.power.begin(), module.power.end(), pin_is(name)) +
                 std::count_if(module.ground.begin(), module.ground.end(), pin_is(name)) +
                 count_id(module.references, name) >
             1;
    }
    default:
      return false;
  }
}

}  // namespace

std::string_view word_for(FaultKind kind) {
  switch (kind) {
    case FaultKind::dead:
      return "dead";
    case FaultKind::holds:
      return "holds";
    case FaultKind::babbles:
      return "babbles";
    case FaultKind::unconfigured:
      return "unconfigured";
    case FaultKind::not_forwarding:
      return "not-forwarding";
    case FaultKind::port_dead:
      return "port-dead";
    case FaultKind::back_feeds:
      return "back-feeds";
    case FaultKind::not_fitted:
      return "not-fitted";
    case FaultKind::open:
      return "open";
    case FaultKind::short_circuit:
      return "short";
    case FaultKind::resistive:
      return "resistive";
    case FaultKind::missing:
      return "missing";
    case FaultKind::extra:
      return "extra";
    case FaultKind::added_device:
      return "added-device";
  }
  return "";
}

std::string_view word_for(ShortTo to) {
  switch (to) {
    case ShortTo::ground:
      return "ground";
    case ShortTo::supply:
      return "supply";
    case ShortTo::other_line:
      return "other-line";
  }
  return "";
}

std::string_view word_for(Lines lines) {
  switch (lines) {
    case Lines::both:
      return "both";
    case Lines::high:
      return "high";
    case Lines::low:
      return "low";
  }
  return "";
}

std::string_view sort_word(PartKind part) {
  switch (part) {
    case PartKind::module:
      return "module";
    case PartKind::segment:
      return "segment";
    case PartKind::power_pin:
    case PartKind::connector_power_pin:
      return "power-pin";
    case PartKind::ground_pin:
    case PartKind::connector_ground_pin:
      return "ground-pin";
    case PartKind::reference:
      return "reference";
    case PartKind::feed:
      return "feed";
    case PartKind::ground:
      return "ground";
    case PartKind::terminator:
      return "terminator";
    case PartKind::bus:
      return "bus";
    case PartKind::connector_bus_pin:
      return "bus-pin";
  }
  return "";
}

std::string part_of(const Network& network, const Fault& fault) {
  const DiagnosticConnector& connector = network.diagnostic_connector;
  switch (fault.part) {
    case PartKind::module:
      return network.modules[fault.owner].id;
    case PartKind::segment:
      return network.buses[fault.bus].segments[fault.item].id;
    case PartKind::power_pin: {
      const Module& module = network.modules[fault.owner];
      return pin_word(module.id, module.power, fault.item, "feed");
    }
    case PartKind::ground_pin: {
      const Module& module = network.modules[fault.owner];
      return pin_word(module.id, module.ground, fault.item, "ground");
    }
    case PartKind::reference: {
      const Module& module = network.modules[fault.owner];
      return module.id + "/" + module.references[fault.item].id;
    }
    case PartKind::feed:
      return network.feeds[fault.owner].id;
    case PartKind::ground:
      return network.grounds[fault.owner].id;
    case PartKind::terminator:
      return terminator_word(network, fault);
    case PartKind::bus:
      return network.buses[fault.bus].id;
    case PartKind::connector_bus_pin:
      return connector_bus_word(network, fault);
    case PartKind::connector_power_pin:
      return pin_word("DLC", connector.power, fault.item, "feed");
    case PartKind::connector_ground_pin:
      return pin_word("DLC", connector.ground, fault.item, "ground");
  }
  return "";
}

std::string repair_of(const Network& network, const Fault& fault) {
  std::string part = part_of(network, fault);
  switch (fault.kind) {
    case FaultKind::unconfigured:
      return "configure " + part;
    case FaultKind::back_feeds:
      return "feeds and grounds of " + part;
    case FaultKind::added_device:
    case FaultKind::extra:
      return "remove what was added to " + part;
    default:
      return part;
  }
}

FaultWords words_of(const Network& network, const Fault& fault) {
  FaultWords words;
  words.kind = word_for(fault.kind);
  words.sort = sort_word(fault.part);
  words.part = part_of(network, fault);
  if (line_named(network, fault)) words.line = word_for(fault.lines);
  if (fault.to) words.to = word_for(*fault.to);
  if (fault.bus != nowhere) words.bus = network.buses[fault.bus].id;
  words.bus_needed = bus_named(fault);
  words.comes_and_goes = fault.comes_and_goes;
  return words;
}

std::string text_of(const FaultWords& words, bool in_full) {
  std::string text(words.kind);
  const auto say = [&](std::string_view word) {
    if (!word.empty()) text.append(" ").append(word);
  };
  if (in_full) say(words.sort);
  say(words.part);
  say(words.line);
  say(words.to);
  if (words.bus_needed || in_full) say(words.bus);
  if (words.comes_and_goes) say("comes-and-goes");
  return text;
}

std::string text_of(const Network& network, const Fault& fault) {
  return text_of(words_of(network, fault), word_shared(network, fault));
}

}  // namespace whichwire
