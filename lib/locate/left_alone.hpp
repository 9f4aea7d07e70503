// Which breaks of a bus may together leave a module alone on its piece. Judged by tests/differential.
#pragma once

#include "effects/wiring.hpp"

namespace whichwire {

struct LeftAlone {
  PointIndex module;
  bool by_one;  ///< the break of all lines of this segment does so by itself
  bool
      nearest;  ///< of whole segments: breaks that together do so, none by itself, have two at least that are `nearest`
};

/// By segment of a bus that is a tree: the modules that its break may help to leave alone.
std::vector<std::vector<LeftAlone>> left_alone(const Wiring&);

}  // namespace whichwire
