// Text and numbers as XML and HTML take them. Tests: tests/page.
#pragma once

#include <string>
#include <string_view>

namespace whichwire::render {

/// Printable, with `&`, `<`, `>` and both quotes as references: fit for contents and for attributes in quotes.
/// Source: XML 1.0 (fifth edition) 2.2 and 2.4; HTML, "Escaping a string".
std::string escaped_markup(std::string_view text);

/// With at most one digit after the point.
std::string coordinate(double value);

}  // namespace whichwire::render
