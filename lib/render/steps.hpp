// Checks as steps of a document, each with its place, its meter, its cautions and what each reading means.
// Tests: tests/render/findings_text.cpp, tests/cli/case.cpp.
#pragma once

#include <span>
#include <string>
#include <vector>
#include <whichwire/check.hpp>

#include "render/document.hpp"

namespace whichwire::render {

/// One check. `said`: cautions that stand before all steps already; `if_good`: what the meter shows with nothing wrong,
/// empty where only the check's own range is known.
void say_step(Document& page, const Network& network, const Check& check, const std::vector<std::string>& said = {},
              const std::string& if_good = "");

/// The checks; cautions that belong to every one of them stand once, before the first.
void say_steps(Document& page, const Network& network, std::span<const Check> checks);

/// Places that must not be measured, under a heading.
void say_refused(Document& page, const std::vector<Refused>& refused);

}  // namespace whichwire::render
