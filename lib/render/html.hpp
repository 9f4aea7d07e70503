// The parts of an HTML page. Tests: tests/page.
#pragma once

#include <string>
#include <string_view>

#include "render/document.hpp"

namespace whichwire::render {

/// `<b class="name">`, or without a class.
std::string tag(std::string_view element, std::string_view name = "");

/// Escaped, and no line is broken between a number and its per cent sign.
std::string prose(std::string_view text);

/// The element with escaped text in it.
std::string tagged(std::string_view element, std::string_view text, std::string_view name = "");

/// How much of a bar is full, as a picture that needs no style of its own.
std::string bar(double share);

/// The inside of the element `body`.
std::string html_body(const Document& document);

}  // namespace whichwire::render
