// A scan as a vehicle with the given faults might show it, with the noise of life: modules that do not answer although
// they could, codes that are missing, left over or stored by modules that were never asked to listen.
#pragma once

#include <span>
#include <whichwire/scan.hpp>

#include "random_network.hpp"

namespace whichwire::test {

Scan random_scan(Dice& dice, const Network& network, std::span<const Fault> faults, const Circumstances& circumstances);

}  // namespace whichwire::test
