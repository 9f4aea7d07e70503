// What hangs from a fuse, relay or switch. Tested in tests/casefile/places.cpp and compare_scans.cpp.
#pragma once

#include <whichwire/network.hpp>

namespace whichwire {

/// Whether the feed is `above`, or hangs from it through others.
bool hangs_from(const Network& network, std::size_t feed, std::size_t above);

/// Whether one of the module's power pins hangs from it.
bool fed_through(const Network& network, const Module& module, std::size_t above);

}  // namespace whichwire
