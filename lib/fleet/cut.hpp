// A scan's text with what is the unit's own cut out: scans that are alike otherwise have the same rest, and so the same
// finding. Far cheaper than parsing, so that a healthy unit costs next to nothing.
//
// Cut out are values of the top object: `unit`, `taken` and `scan` (of a row), where they are plain texts, and what is
// beyond tenths of `battery_volts`, since every threshold of a supply is a whole tenth. In their places stand marks
// that no valid text holds. So where the rest equals that of a text that was read without mistakes, this text differs
// from it only in values that are as valid: it has no mistakes either and says the same. Whatever is not as plain as
// that (comments, escapes, marks in the text) is not cut but read. Tests: tests/fleet/cut.cpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace whichwire {

struct CutText {
  std::string rest;
  std::string_view scan, unit;  ///< empty where there is none
};

std::optional<CutText> cut(std::string_view text);

}  // namespace whichwire
