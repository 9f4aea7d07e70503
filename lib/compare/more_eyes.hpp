// What would let scans tell more apart: one more code that a module stores, or a second scan from another place.
// Tests: tests/compare/blindspots.cpp.
#pragma once

#include <whichwire/blindspots.hpp>

namespace whichwire {

/// Faults that are alike so far, with the numbers of their repairs.
struct AlikeClass {
  std::vector<Fault> faults;
  std::vector<std::size_t> repairs;
};

/// Pairs of different repairs among so many faults of each repair.
std::size_t pairs_among(const std::vector<std::size_t>& repairs);

std::vector<ExtraListening> extra_listening(const Effects& effects, const std::vector<AlikeClass>& classes,
                                            std::size_t most);
std::vector<AccessPoint> access_points(const Network& network, const std::vector<AlikeClass>& classes,
                                       std::size_t most);

}  // namespace whichwire
