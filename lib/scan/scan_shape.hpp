// The shape of `whichwire.scan.v1`: every key, its type and its range. topologies/FORMAT.md says what they mean.
// Kept equal to topologies/scan.schema.json by tests/scan/schema.
#pragma once

#include "network/shape.hpp"

namespace whichwire {

constexpr std::string_view scan_format = "whichwire.scan.v1";

const json::Shape& scan_shape();

}  // namespace whichwire
