// Rows that were written are read again: to go on after an interruption, and to gather what was spread over machines.
// Written by lib/render/fleet_json.cpp. Tests: tests/fleet/row.cpp.
#pragma once

#include <string>
#include <string_view>
#include <whichwire/fleet.hpp>

namespace whichwire {

bool is_fleet_row(std::string_view text);

/// The row; with what is wrong as its error where it is none.
FleetRow read_fleet_row(std::string_view text, const std::string& name);

}  // namespace whichwire
