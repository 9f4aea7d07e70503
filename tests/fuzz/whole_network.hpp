// A network that was accepted is whole: every index leads somewhere, and nothing in it cannot be printed.
#pragma once

#include "fuzz.hpp"

namespace whichwire::fuzz {

inline void insist_on_end(const Network& network, const End& end) {
  const bool module = end.kind == End::Kind::module;
  if (end.kind != End::Kind::diagnostic_connector) {
    insist(end.index < (module ? network.modules.size() : network.points.size()));
  }
  insist(!id_of(network, end).empty());
}

inline void insist_on_pins(const Network& network, const std::vector<PowerPin>& power,
                           const std::vector<GroundPin>& ground) {
  for (const PowerPin& pin : power) insist(pin.feed == nowhere || pin.feed < network.feeds.size());
  for (const GroundPin& pin : ground) insist(pin.ground == nowhere || pin.ground < network.grounds.size());
}

inline void insist_on_modules(const Network& network) {
  for (const Module& module : network.modules) {
    insist_on_pins(network, module.power, module.ground);
    for (const std::size_t heard : module.listens_to.value_or(std::vector<std::size_t>())) {
      insist(heard < network.modules.size());
    }
    for (const OwnCode& own : module.own_codes) {
      const bool bus = own.says == OwnCode::Says::bus_fault;
      insist(own.subject < (bus ? network.buses.size() : network.modules.size()));
    }
    insist_printable(module.id + module.name + module.place.where);
  }
}

inline void insist_on_buses(const Network& network) {
  for (const Bus& bus : network.buses) {
    insist(!bus.segments.empty());
    for (const Segment& segment : bus.segments) {
      insist_on_end(network, segment.from);
      insist_on_end(network, segment.to);
      insist(!(segment.from == segment.to));
    }
    for (const Terminator& terminator : bus.terminators) insist_on_end(network, terminator.at);
    insist(bus.commander == nowhere || bus.commander < network.modules.size());
  }
}

inline void insist_on_rest(const Network& network) {
  for (const Gateway& gateway : network.gateways) {
    insist(gateway.module < network.modules.size() && gateway.joins.size() >= 2);
    for (const std::size_t bus : gateway.joins) insist(bus < network.buses.size());
  }
  for (const Feed& feed : network.feeds) {
    std::size_t steps = 0;
    for (std::size_t at = feed.from; at != nowhere; at = network.feeds[at].from)
      insist(++steps <= network.feeds.size());
  }
  for (const Function& function : network.functions) {
    for (const std::size_t module : function.modules) insist(module < network.modules.size());
    for (const auto& message : function.messages) {
      insist(message.from < network.modules.size() && message.to < network.modules.size());
    }
  }
  insist(!network.diagnostic_connector.buses.empty());
  insist_on_pins(network, network.diagnostic_connector.power, network.diagnostic_connector.ground);
  for (const auto& pins : network.diagnostic_connector.buses) insist(pins.bus < network.buses.size());
}

inline void insist_on_whole(const Network& network) {
  insist_on_modules(network);
  insist_on_buses(network);
  insist_on_rest(network);
}

}  // namespace whichwire::fuzz
