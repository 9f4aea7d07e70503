// Feeds, grounds and references: at the plug of a module or of the diagnostic connector, at the fuse, at the ground
// point, all under load. Source of the method: common practice, no source. Tests: tests/checks/supply_checks.cpp.
#pragma once

#include "checks/build.hpp"

namespace whichwire {

/// `item` nowhere: the pins are not known, so all of them together.
Candidate feed_pin_check(const Job& job, std::size_t module, std::size_t item);
Candidate ground_pin_check(const Job& job, std::size_t module, std::size_t item);
Candidate connector_feed_check(const Job& job, std::size_t item);
Candidate connector_ground_check(const Job& job, std::size_t item);

/// A fuse, relay, switch or fusible link; measured without a lamp where it also feeds a restraint module.
Candidate feed_check(const Job& job, std::size_t feed);
Candidate ground_point_check(const Job& job, std::size_t ground);
Candidate reference_check(const Job& job, std::size_t module, std::size_t item);

}  // namespace whichwire
