// How wide a text gets, and texts cut to a width. Widths are those of DejaVu Sans, among the widest typefaces that a
// browser falls back on, so that nothing overlaps in another. Source: the glyph advances of DejaVu Sans and DejaVu Sans
// Bold 2.37 as Debian's fonts-dejavu-core ships them. Tests: tests/draw/lettering.cpp, tests/page (in a browser).
#pragma once

#include <string>
#include <string_view>
#include <vector>
#include <whichwire/picture.hpp>

namespace whichwire::draw {

double size_of(Lettering lettering);
double line_height(Lettering lettering);

/// `text` must be printable.
double width_of(std::string_view text, Lettering lettering);

/// `text` made printable and cut with an ellipsis to at most `width`.
std::string fitted(std::string_view text, Lettering lettering, double width);

/// At most `most` lines, broken between words; the last is cut.
std::vector<std::string> lines_of(std::string_view text, Lettering lettering, double width, std::size_t most);

}  // namespace whichwire::draw
