// Where the tester sits when the file does not say. A bus that reaches the diagnostic connector by a segment is there.
// With no bus there at all, one bus, or buses that no gateway joins, are taken to be at the connector; buses that a
// gateway joins are taken to be behind that gateway, which has a diagnostic bus of its own (common practice, no
// source). Tested in tests/network/connector_test.cpp.
#include <algorithm>

#include "network/draft.hpp"

namespace whichwire {

namespace {

const End connector_end{End::Kind::diagnostic_connector, nowhere};

/// The stub from a bus whose wiring to the connector is not known.
void add_stub(Bus& bus) {
  if (bus.segments.empty()) return;
  Segment stub;
  stub.id = bus.id + ":" + std::string(connector_id);
  stub.from = bus.segments.front().from;
  stub.to = connector_end;
  bus.segments.push_back(std::move(stub));
}

void put_at_connector(Network& network, std::size_t bus) {
  add_stub(network.buses[bus]);
  network.diagnostic_connector.buses.push_back({bus, {}});
}

/// Buses that can be reached from `start` over gateways.
std::vector<bool> behind(const Network& network, const Gateway& start) {
  std::vector<bool> reached(network.buses.size(), false);
  for (const std::size_t bus : start.joins) reached[bus] = true;
  for (bool more = true; more;) {
    more = false;
    for (const Gateway& gateway : network.gateways) {
      const auto is_reached = [&](std::size_t bus) { return reached[bus]; };
      if (std::none_of(gateway.joins.begin(), gateway.joins.end(), is_reached)) continue;
      for (const std::size_t bus : gateway.joins) {
        more = more || !reached[bus];
        reached[bus] = true;
      }
    }
  }
  return reached;
}

void add_diagnostic_bus(Network& network, Gateway& gateway) {
  Bus bus;
  bus.id = "DLC:" + network.modules[gateway.module].id;  // a colon: no id of the file can be the same
  bus.name = "Bus between gateway and diagnostic connector (assumed)";
  bus.wired = false;
  const End centre{End::Kind::point, network.points.size()};
  network.points.push_back({bus.id + ":centre", Point::Kind::hidden, {}});
  Segment stub;
  stub.id = bus.id + ":" + network.modules[gateway.module].id;
  stub.from = centre;
  stub.to = {End::Kind::module, gateway.module};
  bus.segments.push_back(std::move(stub));
  gateway.joins.push_back(network.buses.size());
  network.buses.push_back(std::move(bus));
  put_at_connector(network, network.buses.size() - 1);
}

}  // namespace

void assume_connector(Network& network) {
  std::vector<DiagnosticConnector::BusPins>& there = network.diagnostic_connector.buses;
  for (std::size_t b = 0; b < network.buses.size(); ++b) {
    const bool listed = std::any_of(there.begin(), there.end(), [&](const auto& pins) { return pins.bus == b; });
    const std::vector<Segment>& segments = network.buses[b].segments;
    const auto leads_there = [](const Segment& segment) {
      return segment.from == connector_end || segment.to == connector_end;
    };
    if (!listed && std::any_of(segments.begin(), segments.end(), leads_there)) there.push_back({b, {}});
  }
  if (!there.empty()) return;
  const std::size_t stated = network.buses.size();
  std::vector<bool> reached(stated, false);
  const auto wider = [](const Gateway& a, const Gateway& b) { return a.joins.size() < b.joins.size(); };
  const auto widest = std::max_element(network.gateways.begin(), network.gateways.end(), wider);
  if (widest != network.gateways.end() && stated > 1) {
    reached = behind(network, *widest);
    add_diagnostic_bus(network, *widest);
  }
  for (std::size_t b = 0; b < stated; ++b) {
    if (!reached[b]) put_at_connector(network, b);
  }
}

}  // namespace whichwire
