// Faults in the words of the trade, and lists of them short enough to read.
// Tests: tests/render/phrases.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/render.hpp>

namespace whichwire::render {

/// Faults that are present together: `a, together with b`; `no fault` for none.
std::string phrase_of(const Network& network, const std::vector<Fault>& faults);

/// The sets that an explanation stands for, in words.
struct Alternatives {
  std::vector<std::string> each;  ///< likeliest first; what differs only in the line of one segment is one phrase
  std::string besides;            ///< what holds with all of several, as `this vehicle has no PDC`; may be empty
  std::string first;              ///< the first of them with all that it says
};
Alternatives alternatives_of(const Network& network, const Explanation& explanation);

/// A bus by id and name: `DRV (Drivetrain bus)`.
std::string bus_phrase(const Bus& bus);

}  // namespace whichwire::render
