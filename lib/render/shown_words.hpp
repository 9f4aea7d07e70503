// What a scan shows, in words: which modules are silent, which codes are stored, which functions fail.
// Tests: tests/cli/compare.cpp, tests/cli/blindspots.cpp.
#pragma once

#include <span>
#include <string>
#include <vector>
#include <whichwire/compare.hpp>

#include "render/json.hpp"

namespace whichwire::render {

/// Phrases such as `silent: ECM, TCM`, answers first; nothing for nothing. `most`: names in each.
std::vector<std::string> phrases_of(const Network& network, std::span<const Shown> shown, std::size_t most);

/// `{"module": …, "level": …}` and so on for each.
Json json_of(const Network& network, std::span<const Shown> shown);

/// The first `most` texts and how many more there are.
std::vector<std::string> cut(std::vector<std::string> texts, std::size_t most);

/// The part that a fault is at, as short as can be: `DRV-1`, `F3`.
std::string name_of_part(const Network& network, const Fault& fault);

/// Faults part by part, as short as can be: `DRV-1 (both lines open, shorted)`.
std::vector<std::string> parts_of(const Network& network, const std::vector<Fault>& faults);

}  // namespace whichwire::render
