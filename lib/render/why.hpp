// What a ranking says and why, for the findings of a scan and for the report of a case.
// Tests: tests/render/findings_text.cpp, tests/cli/case.cpp.
#pragma once

#include <string>
#include <vector>

#include "render/document.hpp"

namespace whichwire::render {

/// A ranking and what it was made from.
struct Reasoned {
  const Network& network;
  const Scan& scan;
  const Ranking& ranking;
  const Verdict& verdict;
  std::string where_more;  ///< what a text adds to `and 3 more`
};

/// Modules of the scan with this answer, as the network calls them.
std::vector<std::string> modules_with(const Network& network, const Scan& scan, Answer answer);

/// The verdict in a sentence, and how much the search left out where that must be said.
void say_verdict(Document& page, const Reasoned& reasoned);

/// The likeliest explanation of the verdict's class and those alike; what it explains, what not, what speaks against
/// it.
void say_why(Document& page, const Reasoned& reasoned);

/// The other explanations.
void say_rivals(Document& page, const Reasoned& reasoned);

}  // namespace whichwire::render
