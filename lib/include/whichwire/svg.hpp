// A picture as SVG. Every text that comes from a user's file passes through `printable` and is escaped.
#pragma once

#include <cstdint>
#include <string>
#include <whichwire/picture.hpp>

namespace whichwire {

/// A picture and what it was made from; `marks` is null without a scan. `brief`: what a page shows on paper and on
/// phones instead; null where the picture itself is small enough.
struct Drawn {
  const Network& network;
  const Marks* marks;
  const Picture& picture;
  const Picture* brief = nullptr;
};

/// For a page of HTML; refers to all that it is given.
Drawn drawn_for_page(const Network& network, const Marks* marks, const PagePictures& pictures);

/// One SVG file with its own style, for light and dark screens and for paper.
std::string svg_of(const Drawn& drawn);

/// On sheets: the second below the first, on a sheet of its own.
enum class Together : std::uint8_t { side_by_side, on_sheets };

/// Two networks in one file.
std::string svg_of(const Drawn& a, const Drawn& b, Together how);

}  // namespace whichwire
