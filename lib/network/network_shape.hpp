// The shape of `whichwire.network.v1`: every key, its type and its range. topologies/FORMAT.md says what they mean.
// Kept equal to topologies/network.schema.json by tests/network/schema.
#pragma once

#include "network/shape.hpp"

namespace whichwire {

constexpr std::string_view network_format = "whichwire.network.v1";

/// Of the tree with all bases merged in.
const json::Shape& network_shape();

/// Compares the tree of one text with the shape; one that extends another states only what differs.
/// False when it is no network at all, so that nothing in it is worth a further look.
bool check_network_shape(const json::Value& tree, json::Complaints& complaints);

}  // namespace whichwire
