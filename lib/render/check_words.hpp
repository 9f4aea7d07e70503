// A check in words, for the pages that show one. Tests: tests/render/findings_text.cpp, tests/cli/case.cpp.
#pragma once

#include <string>
#include <whichwire/check.hpp>

#include "render/page.hpp"

namespace whichwire::render {

/// `12 to 12.8 V`, `above 1000 ohms`; empty where the outcome has no range.
std::string range_phrase(const Expectation& expect, const std::string& mode);

/// `good (12 to 12.8 V)`.
std::string outcome_phrase(const Expectation& expect, const std::string& mode);

/// `ECM, connector A, pin A-27, wire VT, engine bay left`.
std::string at_phrase(const Check& check);

/// `meter on volts, with a load, key run; about 6 min`.
std::string with_phrase(const Check& check);

/// Where, with what, and the cautions at this step.
void say_how(Page& page, const Check& check);

}  // namespace whichwire::render
