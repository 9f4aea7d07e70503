// A probability as people read it, on pages and in pictures. Tests: tests/render/page.cpp.
#pragma once

#include <string>

namespace whichwire::draw {

/// `94 %`, `over 99 %`, `under 1 %`.
std::string percent(double probability);

}  // namespace whichwire::draw
