// JSON that is safe to print: two-space indent, a line feed at the end, no raw control character of any sort.
// Tests: tests/render/findings_json.cpp.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>
#include <whichwire/check.hpp>

namespace whichwire::render {

using Json = nlohmann::ordered_json;

std::string dumped(const Json& json);

/// The same on one line, without its end.
std::string on_one_line(const Json& json);

/// Six digits after the point: what is known of a probability.
double rounded(double probability);

/// A fault as in `findings.v1`.
Json json_of(const Network& network, const Fault& fault);
Json json_of(const Network& network, const std::vector<Fault>& faults);

/// A check as in `findings.v1`.
Json json_of(const Check& check);

}  // namespace whichwire::render
