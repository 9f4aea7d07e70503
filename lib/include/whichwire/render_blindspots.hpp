// The blind spots of a network as a page and as JSON.
#pragma once

#include <whichwire/blindspots.hpp>
#include <whichwire/render.hpp>

namespace whichwire {

struct BlindspotsOf {
  const Network& network;
  const Blindspots& found;
};

/// What no scan can tell apart and the cheapest checks that do; whose silence nobody would notice; what would help.
std::string text_of(const BlindspotsOf& blindspots, const Look& look = {});

/// `whichwire.blindspots.v1`.
std::string json_of(const BlindspotsOf& blindspots);

}  // namespace whichwire
