// The class of an explanation: what kind of thing is wrong, and the parts by which the class names it.
// Source: the classes of findings.v1, realised by the wiring. Tests: tests/checks/verdict_class.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/findings.hpp>

namespace whichwire {

/// A `not_fitted` module is benign and counts for nothing beside another fault.
VerdictClass class_of(const Network& network, const std::vector<Fault>& faults);

/// The module, gateway, bus, segment, feed or ground by which the class names the set; `DLC` for the connector.
std::vector<std::string> class_parts_of(const Network& network, const std::vector<Fault>& faults);

/// Modules with a power pin on the feed or on any feed that hangs from it, ascending.
std::vector<std::size_t> modules_on_feed(const Network& network, std::size_t feed);

/// Whether `feed` is `above` or hangs from it.
bool hangs_from(const Network& network, std::size_t feed, std::size_t above);

/// Modules with a ground pin on the ground point, ascending.
std::vector<std::size_t> modules_on_ground(const Network& network, std::size_t ground);

}  // namespace whichwire
