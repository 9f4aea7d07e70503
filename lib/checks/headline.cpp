#include "checks/headline.hpp"

#include <algorithm>
#include <string_view>

namespace whichwire {
namespace {

constexpr std::size_t most_named = 4;  // parts of a class

std::string_view how_sure(const Ranking& ranking, double probability) {
  if (ranking.unsettled) {
    return ranking.other_trim
               ? "Not settled: the network may be that of another trim, look that up first; likeliest of what was "
                 "weighed, "
               : "Not settled, the search stopped with most still to be weighed; likeliest of what was weighed, ";
  }
  if (probability >= 0.99) return "Almost certainly ";
  if (probability >= 0.9) return "Very likely ";
  if (probability >= 0.7) return "Probably ";
  if (probability >= 0.5) return "More likely than not ";
  return "Most likely of several: ";
}

std::string either(const std::vector<std::string>& parts, std::string_view joint) {
  const std::size_t named = std::min(parts.size(), most_named);
  std::string text;
  for (std::size_t i = 0; i < named; ++i) {
    if (i > 0) text += i + 1 == named && named == parts.size() ? " " + std::string(joint) + " " : ", ";
    text += parts[i];
  }
  return parts.size() > named ? text + " or another" : text;
}

bool rings(const Network& network, const std::vector<std::string>& parts) {
  return !parts.empty() && std::all_of(parts.begin(), parts.end(), [&](const std::string& id) {
    const std::size_t bus = index_of(network.buses, id);
    return bus != nowhere && network.buses[bus].protocol == Protocol::ring;
  });
}

std::string what(const Network& network, const Named& named) {
  const std::string parts = either(named.parts, "or");
  switch (named.verdict_class) {
    case VerdictClass::module:
      return std::string(named.silent ? "one silent module: " : "one module: ") + parts +
             " - its feeds, grounds, plug, own wires, or the module itself";
    case VerdictClass::gateway:
      if (!named.only_bus.empty())
        return "the way of gateway " + parts + " to bus " + named.only_bus +
               " - its own wires and pins there, or its port";
      return "the gateway " + parts + " - its feeds, grounds, plug, own wires, or the gateway itself";
    case VerdictClass::segment:
      return "a break in the bus wiring: " + parts;
    case VerdictClass::bus:
      if (rings(network, named.parts))
        return "ring " + parts + " as a whole - a break in it or a member without supply";
      return "bus " + parts + " as a whole - a short, a module that loads it, something added, or a terminator";
    case VerdictClass::supply:
      return "a feed or ground that several modules share: " + parts;
    case VerdictClass::connector:
      return "the diagnostic connector - its pins, feed, ground or wires";
    case VerdictClass::intermittent:
      return "a fault that comes and goes: " + parts;
    case VerdictClass::several:
      return "more than one fault at once, among " + either(named.parts, "and");
    case VerdictClass::none:
      return "no fault of the network: nothing in this scan needs one";
    case VerdictClass::contradictory:
      return "this scan contradicts itself: no set of faults fits it";
  }
  return {};
}

}  // namespace

std::string headline_of(const Network& network, const Ranking& ranking, const std::vector<Named>& said,
                        double probability) {
  std::string headline(how_sure(ranking, probability));
  if (said.size() == 1) return headline + what(network, said.front());
  headline += "one of two: ";
  for (std::size_t i = 0; i < said.size(); ++i) headline += (i > 0 ? "; or " : "") + what(network, said[i]);
  return headline;
}

}  // namespace whichwire
