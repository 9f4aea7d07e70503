// Where on a bus a meter goes: the place, its pins and wire colours. Tests: tests/checks/bus_checks.cpp.
#pragma once

#include "checks/bus_checks.hpp"

namespace whichwire {

Site bus_site(const Network& network, const BusWiring& wiring, const End& at);

/// ` (pins B-7 and B-8)`, or nothing where they are not known.
std::string pins_phrase(const Site& site);

/// What every check of a bus fills in: `bus`, `pins`.
Fields bus_fields(const BusWiring& wiring, const Site& site);

/// Whether any of the faults is on the bus of this number.
bool any_on_bus(const std::vector<Fault>& present, std::size_t bus);

}  // namespace whichwire
