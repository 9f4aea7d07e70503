// Who among some minors spares whom what: the input of help.hpp, taken from their stakes.
#pragma once

#include "locate/help.hpp"
#include "locate/stakes.hpp"

namespace whichwire::search {

using MinorPair = std::pair<std::uint32_t, std::uint32_t>;

struct Among {
  const Problem& problem;
  const Context& context;
  const std::vector<const Prospect*>& minors;
  const Stakes& stakes;
  const std::vector<std::uint8_t>& listed;
};

/// `met`: pairs that act on each other in other ways too; `work` grows by the pairs looked at.
Help help_among(const Among& among, const std::vector<MinorPair>& met, std::size_t& work);

}  // namespace whichwire::search
