// Faults in the words of the trade, and lists of them short enough to read.
// Tests: tests/render/phrases.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/render.hpp>

namespace whichwire::render {

/// Faults that are present together: `a, together with b`; `no fault` for none.
std::string phrase_of(const Network& network, const std::vector<Fault>& faults);

/// The explanation's own set and those alike, likeliest first, as one phrase each; what differs only in the line
/// of one segment, or only in coming and going, becomes one phrase.
std::vector<std::string> phrases_of(const Network& network, const Explanation& explanation);

/// A bus by id and name: `DRV (Drivetrain bus)`.
std::string bus_phrase(const Bus& bus);

}  // namespace whichwire::render
