// What each of some candidates would change where the search stands, by observation.
#pragma once

#include "locate/context.hpp"

namespace whichwire::search {

/// What a minor has to do with an observation. All losses are natural logs; a gain is a negative loss.
struct Stake {
  std::uint32_t minor;
  Level raises = Level::up;  ///< up: it does not raise it
  double loss = 0;           ///< by raising it, alone
  double lower_loss = 0;     ///< by lowering it, at most
};

struct Stakes {
  Stakes(const Problem& problem, Context& context, const std::vector<const Prospect*>& minors);

  std::vector<double> log_odds;        ///< by minor: of adding it alone, exactly
  std::vector<std::vector<Stake>> at;  ///< by observation, by rising minor
};

}  // namespace whichwire::search
