// An invented network that has every part of the model's table of faults.
#pragma once

#include "building.hpp"

namespace whichwire::test {

/// Every protocol once, a gateway, an optional module, references, every kind of feed, named and unnamed pins.
Network network_with_every_part();

/// Ids that clash: a feed, a ground and two segments called `4`, pins without names, two terminators at one end.
Network network_with_clashing_ids();

}  // namespace whichwire::test
