// What was understood of a line, in words. Tested in tests/scan/layouts.
#pragma once

#include "scan/line_meaning.hpp"

namespace whichwire {

/// `no answer`, `answers`, …
std::string_view said_of(Answer answer);

/// `ECM`, `the stranger`, or `one of DDM, PDM`.
std::string name_of(const Who& who, const Network& network);

/// `U0100-87 current (misses ECM)`.
std::string words_for(const CodeSeen& seen, std::size_t reporter, const Network& network);

/// The whole of one report: `TCM: answers; U0100-87 current (misses ECM)`.
std::string words_for(const Report& report, const Who& who, const Network& network);

/// Battery, key, unit and their like.
std::string words_for_facts(const LineMeaning& meaning, const Network& network);

/// Joins what is not empty with `; `.
void append_words(std::string& text, std::string_view more);

/// `text` fit to be kept: printable, blanks at its ends gone, cut to `most` bytes.
std::string kept(std::string_view text, std::size_t most);

}  // namespace whichwire
