// Probabilities and per cent as people read them, on pages and in pictures. Tests: tests/render/page.cpp,
// tests/draw/lettering.cpp.
#pragma once

#include <string>
#include <string_view>

namespace whichwire::draw {

/// `94 %`, `over 99 %`, `under 1 %`.
std::string percent(double probability);

constexpr std::string_view no_break_space = "\u00a0";

/// The text with a no-break space between each number and its per cent sign, for what is broken into lines at blanks.
std::string unbroken(std::string_view text);

}  // namespace whichwire::draw
