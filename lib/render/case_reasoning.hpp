// What is known and what comes next, in words: for `case next`, `guide`, `status` and the reports.
// Tests: tests/cli/case_next.cpp.
#pragma once

#include "render/case_words.hpp"
#include "render/page.hpp"

namespace whichwire::render {

/// `fuse F4 open or blown`, `sensor supply … shorted to ground (pedal sensor)`, `no fault of the network`.
std::string repair_phrase(const Network& network, const Repair& repair);

/// The same by the name of the repair.
std::string repair_phrase(const Network& network, const Assessment& assessment, std::string_view what);

/// What the reading came to, in a sentence or two: what it means, and how it moved what is likely.
std::vector<std::string> meaning_of(const Network& network, const CaseReasoning& reasoning, const CaseAnswer& answer);

/// `Proven: …`, `Not to be condemned yet: …`; with the probability.
std::string result_phrase(const Network& network, const Assessment& assessment);

/// Why the check comes next, where that is not plain: `asked again …`; empty where it tells most.
std::string why_phrase(const Network& network, const CaseReasoning& reasoning);

/// What is to be put back or unplugged before the next check, in sentences.
std::vector<std::string> before_check_phrases(const Network& network, const CaseState& state);

/// What the meter shows with nothing wrong: `57 to 64 ohm`, `lamp dark`; empty where nothing is measured.
std::string if_good_phrase(const NextCheck& next);

/// What is to be done, or why nothing is, when there is no check.
std::vector<std::string> no_check_phrases(const Network& network, const CaseState& state);

/// What still must be ruled out or looked at.
std::vector<std::string> missing_phrases(const Assessment& assessment);

/// `entry 7 (F3: 0.2 V)`, `the scan`, `the network`: what ticked an item.
std::string ticked_by(const Case& job, const std::string& by);

}  // namespace whichwire::render
