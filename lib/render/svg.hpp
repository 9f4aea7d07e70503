// The inside of a picture's SVG, for a file of its own and for a page that has its style already.
// Tests: tests/render/svg.cpp, tests/page.
#pragma once

#include <string>
#include <whichwire/svg.hpp>

namespace whichwire::render {

/// The element `svg`; with its style inside, or without where the page has it.
std::string svg_element(const Drawn& drawn, bool with_style);

/// The style of pictures.
std::string_view picture_style();

/// What the picture shows, in a sentence or two, for those who cannot see it.
std::string description_of(const Drawn& drawn);

/// `module ECM`, `segment DRV-2`: the name of a part in `data-part`.
std::string part_name(const Network& network, const Part& part);

}  // namespace whichwire::render
