// Who among some minors spares whom what: the input of help.hpp, taken from their stakes.
#pragma once

#include "locate/crowds.hpp"
#include "locate/help.hpp"

namespace whichwire::search {

using MinorPair = std::pair<std::uint32_t, std::uint32_t>;

/// `met`: pairs that act on each other in other ways too. `least`: see Help.
Help help_among(const Context& context, const Crowds& crowds, const std::vector<MinorPair>& met, double least);

}  // namespace whichwire::search
