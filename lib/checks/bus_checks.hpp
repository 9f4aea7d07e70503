// Ohms on a quiet bus: terminators seen from a plug, shorts, halves of a parted bus, wires from plug to plug, and
// whether a link of a ring passes. Source of the rules: Ohm's law; common practice. Tests: tests/checks/bus_checks.cpp.
#pragma once

#include <memory>
#include <optional>

#include "checks/build.hpp"
#include "checks/bus_reading.hpp"

namespace whichwire {

using Wiring = std::shared_ptr<const BusWiring>;

/// Whether the ohms of the pair tell how many terminators are in reach: a pair that lists two or more.
bool has_pair_rule(const Bus& bus);

/// Between the wires, at the plug of a module (unplugged where the bus does not pass through it) or at the diagnostic
/// connector; nothing where no terminator is in reach from there with all whole.
std::optional<Candidate> pair_check(const Job& job, const Wiring& wiring, const End& at);

/// Each wire to ground and supply.
Candidate line_shorts_check(const Job& job, const Wiring& wiring, const End& at);

/// A connector parted, or a splice undone, each side measured by itself.
Candidate split_check(const Job& job, const Wiring& wiring, std::size_t point);

Candidate terminator_check(const Job& job, const Wiring& wiring, std::size_t terminator);

/// Each wire from the plug of a module to `other`.
Candidate continuity_check(const Job& job, const Wiring& wiring, std::size_t module, const End& other);

/// Light or signal at the `to` end of a segment of a ring.
Candidate ring_link_check(const Job& job, const Wiring& wiring, std::size_t segment);

}  // namespace whichwire
