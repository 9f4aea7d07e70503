// What is refused says why; what is accepted is whole: every index leads somewhere, and bases are looked up beside the
// shipped networks, so that extending one is fuzzed too.
#include <whichwire/network.hpp>

#include "fuzz.hpp"

namespace {

using namespace whichwire;

void insist_on_end(const Network& network, const End& end) {
  const bool module = end.kind == End::Kind::module;
  if (end.kind != End::Kind::diagnostic_connector) {
    fuzz::insist(end.index < (module ? network.modules.size() : network.points.size()));
  }
  fuzz::insist(!id_of(network, end).empty());
}

void insist_on_pins(const Network& network, const std::vector<PowerPin>& power, const std::vector<GroundPin>& ground) {
  for (const PowerPin& pin : power) fuzz::insist(pin.feed == nowhere || pin.feed < network.feeds.size());
  for (const GroundPin& pin : ground) fuzz::insist(pin.ground == nowhere || pin.ground < network.grounds.size());
}

void insist_on_modules(const Network& network) {
  for (const Module& module : network.modules) {
    insist_on_pins(network, module.power, module.ground);
    for (const std::size_t heard : module.listens_to.value_or(std::vector<std::size_t>())) {
      fuzz::insist(heard < network.modules.size());
    }
    for (const OwnCode& own : module.own_codes) {
      const bool bus = own.says == OwnCode::Says::bus_fault;
      fuzz::insist(own.subject < (bus ? network.buses.size() : network.modules.size()));
    }
    fuzz::insist_printable(module.id + module.name + module.place.where);
  }
}

void insist_on_buses(const Network& network) {
  for (const Bus& bus : network.buses) {
    fuzz::insist(!bus.segments.empty());
    for (const Segment& segment : bus.segments) {
      insist_on_end(network, segment.from);
      insist_on_end(network, segment.to);
      fuzz::insist(!(segment.from == segment.to));
    }
    for (const Terminator& terminator : bus.terminators) insist_on_end(network, terminator.at);
    fuzz::insist(bus.commander == nowhere || bus.commander < network.modules.size());
  }
}

void insist_on_rest(const Network& network) {
  for (const Gateway& gateway : network.gateways) {
    fuzz::insist(gateway.module < network.modules.size() && gateway.joins.size() >= 2);
    for (const std::size_t bus : gateway.joins) fuzz::insist(bus < network.buses.size());
  }
  for (const Feed& feed : network.feeds) {
    std::size_t steps = 0;
    for (std::size_t at = feed.from; at != nowhere; at = network.feeds[at].from)
      fuzz::insist(++steps <= network.feeds.size());
  }
  for (const Function& function : network.functions) {
    for (const std::size_t module : function.modules) fuzz::insist(module < network.modules.size());
    for (const auto& message : function.messages) {
      fuzz::insist(message.from < network.modules.size() && message.to < network.modules.size());
    }
  }
  fuzz::insist(!network.diagnostic_connector.buses.empty());
  insist_on_pins(network, network.diagnostic_connector.power, network.diagnostic_connector.ground);
  for (const auto& pins : network.diagnostic_connector.buses) fuzz::insist(pins.bus < network.buses.size());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const std::string beside_networks = std::string(WHICHWIRE_NETWORK) + ".fuzz";
  const auto result = read_network(fuzz::text_of_bytes(data, size), beside_networks);
  fuzz::insist_on(result.network.has_value(), result.mistakes);
  if (!result.network) return 0;
  insist_on_modules(*result.network);
  insist_on_buses(*result.network);
  insist_on_rest(*result.network);
  return 0;
}
