// The shape of `whichwire.network.v1`: every key, its type and its range. topologies/FORMAT.md says what they mean.
// Kept equal to topologies/network.schema.json by tests/network/schema.
#pragma once

#include "network/shape.hpp"

namespace whichwire {

constexpr std::string_view network_format = "whichwire.network.v1";

/// Of a whole file; its maps may be checked as differences where the file extends another.
const json::Shape& network_shape();

}  // namespace whichwire
