// The shape of `whichwire.scan.v1`: every key, its type and its range. topologies/FORMAT.md says what they mean.
// Kept equal to topologies/scan.schema.json by tests/scan/schema.
#pragma once

#include <whichwire/scan.hpp>

#include "network/shape.hpp"

namespace whichwire {

constexpr std::string_view scan_format = "whichwire.scan.v1";

/// Adds to `complaints` whatever in the tree is not of the shape of a scan; its status bytes are looked at too.
void check_scan_shape(const json::Value& tree, json::Complaints& complaints);

/// The scan of a tree; it counts only where `complaints` stays empty.
Scan scan_of(const json::Value& root, const std::string& name, const Network* network, json::Complaints& complaints);

/// `2F`, `0x2F`: a status byte, or nullopt.
std::optional<std::uint8_t> status_byte(std::string_view text);

}  // namespace whichwire
