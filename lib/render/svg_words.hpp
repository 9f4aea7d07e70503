// Parts of a picture in words. Tests: tests/render/svg.cpp.
#pragma once

#include <string>
#include <whichwire/svg.hpp>

namespace whichwire::render {

/// `DRV-2 of DRV: S310 to ABS (pins B-7 and B-8), GN/WH and GN`.
std::string part_words(const Network& network, const Part& part);

/// The part, what the scan says of it, what is suspected, which checks are done there.
std::string title_of(const Drawn& drawn, const Thing& thing);

}  // namespace whichwire::render
