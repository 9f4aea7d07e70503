// See bus_site.hpp. Tests: tests/checks/bus_checks.cpp.
#include "checks/bus_site.hpp"

#include <algorithm>

namespace whichwire {
namespace {

std::string both(const std::string& high, const std::string& low) {
  return high.empty() || low.empty() ? high + low : high + " and " + low;
}

LinePins pins_at(const Network& network, const BusWiring& wiring, const End& at) {
  if (at.kind == End::Kind::diagnostic_connector) {
    for (const auto& each : network.diagnostic_connector.buses) {
      if (&network.buses[each.bus] == &wiring.bus()) return each.pins;
    }
  }
  for (const Segment& segment : wiring.bus().segments) {
    if (segment.from == at) return segment.from_pins;
    if (segment.to == at) return segment.to_pins;
  }
  return {};
}

Place place_of(const Network& network, const End& at) {
  switch (at.kind) {
    case End::Kind::module:
      return network.modules.at(at.index).place;
    case End::Kind::point:
      return network.points.at(at.index).place;
    case End::Kind::diagnostic_connector:
      return network.diagnostic_connector.place;
  }
  return {};
}

}  // namespace

Site bus_site(const Network& network, const BusWiring& wiring, const End& at) {
  const LinePins pins = pins_at(network, wiring, at);
  return {id_of(network, at),
          both(pins.high, pins.low),
          both(wiring.bus().high_colour, wiring.bus().low_colour),
          place_of(network, at),
          {}};
}

std::string pins_phrase(const Site& site) {
  if (site.pin.empty()) return "";
  return (site.pin.find(' ') == std::string::npos ? " (pin " : " (pins ") + site.pin + ")";
}

Fields bus_fields(const BusWiring& wiring, const Site& site) {
  return {{"bus", wiring.bus().id}, {"pins", pins_phrase(site)}};
}

bool any_on_bus(const std::vector<Fault>& present, std::size_t bus) {
  return std::any_of(present.begin(), present.end(), [&](const Fault& fault) { return fault.bus == bus; });
}

}  // namespace whichwire
