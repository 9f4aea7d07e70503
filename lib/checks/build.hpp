// Puts a check together from the tables and the network: words, place, minutes, cautions, what to expect.
// Tests: tests/checks/plan.cpp.
#pragma once

#include "checks/candidate.hpp"

namespace whichwire {

/// What the makers of checks work on.
struct Job {
  const Network& network;
  const Scan& scan;
};

/// Where a check is done.
struct Site {
  std::string part, pin, wire;
  Place place;
  std::optional<std::size_t> feed;  ///< for checks with the key `fed`: the feed, or nowhere where not known
};

/// The check `what` of the tables. `outcomes`: the rows of outcomes.csv, where not the same name.
Candidate build(const Job& job, std::string_view what, const Site& site, Fields fields, std::string id,
                std::string_view outcomes = {});

/// The lines of cautions.csv that belong to any of `keys`, in the order of the file.
std::vector<std::string> cautions_for(const std::vector<std::string>& keys);

/// The lowest key state in which the feed is live; run where it is not known.
KeyState key_for(const Network& network, std::size_t feed);

/// ` (VT)`, or nothing where the colour is not known.
std::string in_brackets(const std::string& text);

/// The hazards for which a place is never a measuring point: `restraint`, `high-voltage`.
bool refused(const std::string& hazard);

}  // namespace whichwire
