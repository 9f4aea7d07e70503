// Entries of a case in words, for its pages. Tests: tests/cli/case.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/casefile.hpp>
#include <whichwire/render.hpp>

#include "render/document.hpp"

namespace whichwire::render {

/// `T-14, Tarnbeck Thimble 1.2 2015`.
std::string vehicle_phrase(const Case& job);

/// `1 module`, `2 modules`.
std::string counted(std::size_t count, const std::string& one);

/// `unplugged`, `out`, `bridged`.
std::string off_word(WorkKind kind);

/// `key run, battery 12.5 V`; what the scan states.
std::string scan_conditions(const Scan& scan);

/// Ids of the modules that are silent, those always fitted but shown as not fitted included.
std::vector<std::string> silent_in(const Network& network, const Scan& scan);

std::size_t answering_in(const Scan& scan);
std::size_t codes_in(const Scan& scan);

/// The scan of an entry, or null.
const Scan* scan_of(const Case& job, std::size_t entry);

/// Where, what was read and how, and the note; in one line `ECM/A-1: 12.3 V (volts with a load, key run); lamp bright`.
std::vector<Cell> reading_cells(const Case& job, std::size_t entry);
std::string reading_phrase(const Case& job, std::size_t entry);

/// A fault in the words of the command line as a person says it; else as it stands.
std::string ruled_out_phrase(const Network& network, const std::string& words);

/// What the case has not shown, in sentences.
std::vector<std::string> not_proven(const CasePages& pages);

}  // namespace whichwire::render
