// Which checks can be done about the suspects. Tests: tests/planner/evidence.cpp.
#pragma once

#include <set>

#include "planner/places.hpp"
#include "planner/suspects.hpp"

namespace whichwire {

/// A check that can be done, and how to take its reading where a meter can predict it.
struct Prospect {
  Candidate candidate;
  std::optional<Measurement> measurement;
};

/// The checks that suspects of this weight call for, and all about these modules.
std::vector<Prospect> prospects_of(const Job& job, const Effects& effects, const Places& places,
                                   const Suspects& suspects, const std::set<std::size_t>& modules);

/// The buses that a module is on.
std::vector<std::size_t> buses_of(const Network& network, std::size_t module);

/// The hazard for which a check is refused, or empty.
std::string refused_for(const Candidate& candidate);

}  // namespace whichwire
