// A picture as SVG. Every text that comes from a user's file passes through `printable` and is escaped.
#pragma once

#include <string>
#include <whichwire/picture.hpp>

namespace whichwire {

/// A picture and what it was made from; `marks` is null without a scan.
struct Drawn {
  const Network& network;
  const Marks* marks;
  const Picture& picture;
};

/// One SVG file with its own style, for light and dark screens and for paper.
std::string svg_of(const Drawn& drawn);

/// Two networks side by side in one file.
std::string svg_of(const Drawn& a, const Drawn& b);

}  // namespace whichwire
