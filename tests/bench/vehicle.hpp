// A generated vehicle of any size, wholly invented: a diagnostic bus to a central gateway, CAN buses from there with
// splices along a trunk, further CAN buses and LIN clusters behind gateways of their own, fuses below the ignition
// switch and the battery and ground points, each shared by several modules.
#pragma once

#include <string>

namespace whichwire::bench {

/// A `whichwire.network.v1` text.
std::string vehicle_text(std::size_t modules, std::size_t buses);

}  // namespace whichwire::bench
