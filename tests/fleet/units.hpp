// Units of a fleet: scans on one line, as a job that runs through a yard would give them.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>
#include <whichwire/expected_scan.hpp>
#include <whichwire/fleet.hpp>

#include "asking.hpp"
#include "shipped.hpp"

namespace whichwire::test {

using Tree = nlohmann::ordered_json;

inline std::string line_of(const Scan& scan) { return Tree::parse(json_of(scan)).dump(); }

/// What a unit of the network shows under the faults, on one line.
inline std::string unit_line(const Network& network, const std::string& unit, std::vector<Fault> faults) {
  Scan scan = expected_scan(Effects(network), faults).scan;
  scan.unit = unit;
  scan.battery_volts = 12.5;
  return line_of(scan);
}

inline std::string unit_line(const Network& network, const std::string& unit, Words words) {
  return unit_line(network, unit, faults_from(network, words));
}

inline Fleet fleet_of(std::initializer_list<const char*> names, const FleetOptions& options = {}) {
  std::vector<Network> networks;
  for (const char* name : names) networks.push_back(shipped(name));
  return Fleet(std::move(networks), options);
}

}  // namespace whichwire::test
