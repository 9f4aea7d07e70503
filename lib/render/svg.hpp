// The inside of a picture's SVG, for a file of its own and for a page that has its style already.
// Tests: tests/page.
#pragma once

#include <string>
#include <whichwire/svg.hpp>

namespace whichwire::render {

/// What the element `svg` is for: a file of its own has style and patterns inside; in a page, which has them already,
/// the first thing of each part has an id for links; beside that picture in the same page it has none.
enum class SvgFor : std::uint8_t { file, page, beside };
std::string svg_element(const Drawn& drawn, SvgFor what);

/// `module-3`, `segment-1-4`: where a link in a page leads; empty where the part is not in the picture.
std::string link_to(const Drawn& drawn, const Part& part);

/// What the pictures of a page refer to; once in each page, before them.
std::string svg_patterns();

/// The style of pictures.
std::string_view picture_style();

/// What the picture shows, in a sentence or two, for those who cannot see it.
std::string description_of(const Drawn& drawn);

/// `module ECM`, `segment DRV-2`: the name of a part in `data-part`.
std::string part_name(const Network& network, const Part& part);

}  // namespace whichwire::render
