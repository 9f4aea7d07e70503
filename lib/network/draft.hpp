// A network while it is read: what is built so far, and where in the text each part stands, for the checks that follow.
// The parts are built in the order of the functions below; each says what is wrong with its own references.
#pragma once

#include <whichwire/network.hpp>

#include "network/ids.hpp"
#include "network/tree.hpp"

namespace whichwire {

struct Draft {
  const json::Value& root;
  json::Complaints& complaints;
  Network network;
  Ids ids;
  std::vector<const json::Member*> modules, buses, feeds;  ///< beside the network's vectors
  std::vector<bool> protocol_known;                        ///< by bus; an unknown one stands as can_hs

  Draft(const json::Value& tree, json::Complaints& said) : root(tree), complaints(said), ids(said) {}

  void say(json::Spot spot, const json::Trail& trail, std::string message) {
    complaints.add(spot, trail, std::move(message));
  }
};

/// Makes room for every part and learns all ids.
void build_ids(Draft& draft);

void build_feeds(Draft& draft);
void build_grounds(Draft& draft);
void build_points(Draft& draft);
void build_modules(Draft& draft);
void build_buses(Draft& draft);
void build_connector(Draft& draft);
void build_gateways(Draft& draft);
void build_functions(Draft& draft);
void build_vehicle(Draft& draft);

/// Pins of a module or of the diagnostic connector.
std::vector<PowerPin> power_pins(Draft& draft, const json::Value& owner, const json::Trail& trail);
std::vector<GroundPin> ground_pins(Draft& draft, const json::Value& owner, const json::Trail& trail);
Place place_of(const json::Value& value);
LinePins line_pins(const json::Value& value);
/// Complains of a low line where the bus has a single one.
void refuse_low_line(Draft& draft, const Bus& bus, const json::Value& pins, const json::Trail& trail);

/// Roles and bus subjects that the network-code tables know.
const std::vector<std::string>& role_names();
const std::vector<std::string>& bus_subject_names();

/// What only the whole shows: buses in pieces, modules on no bus, gateways and terminators off their bus.
void check_wiring(Draft& draft);

/// The network of a tree that has its bases merged in and the shape of a network; nullopt where anything is wrong.
std::optional<Network> network_of(const json::Value& tree, const std::string& name, json::Complaints& complaints);

/// For networks that do not say what is at the diagnostic connector.
void assume_connector(Network& network);

}  // namespace whichwire
