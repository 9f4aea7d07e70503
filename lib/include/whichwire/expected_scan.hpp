// The other direction: what a scan would show if exactly these faults were present, without any noise.
#pragma once

#include <span>
#include <vector>
#include <whichwire/fault.hpp>
#include <whichwire/prediction.hpp>
#include <whichwire/scan.hpp>

namespace whichwire {

struct ExpectedScan {
  Circumstances circumstances;
  std::vector<Question>
      questions;  ///< answers of modules awake, what listeners hear, buses where a module is on one, functions
  std::vector<Level> levels;  ///< one a question
  Scan scan;                  ///< the answers, codes and functions that follow
};

/// In the scan a module is silent where its answer is `down`, and a function fails where it is `down`; anything
/// better answers and works. A module that answers stores a current code about a module that `listens_to` names,
/// or about a bus of its own, where that is `down`, and a history code where it `was_down`. Modules asleep in this
/// key state are not polled.
ExpectedScan expected_scan(const Effects& effects, std::span<const Fault> faults,
                           const Circumstances& circumstances = {});

}  // namespace whichwire
