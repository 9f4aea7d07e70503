// Whether a picture, in a file or in a page, marks what the findings name: its parts as svg.py reads them.
#pragma once

#include <doctest/doctest.h>

#include <whichwire/picture.hpp>

#include "judging.hpp"

namespace whichwire::test {

/// The name of the part in the picture that a fault of the findings stands at.
inline std::string place_of(const nlohmann::json& fault, const Network& network) {
  const std::string part = fault["part"];
  const std::string owner = part.substr(0, part.find('/'));
  if (owner == "DLC") return "connector DLC";
  if (index_of(network.modules, owner) != nowhere) return "module " + owner;
  if (index_of(network.feeds, owner) != nowhere) return "feed " + owner;
  if (index_of(network.grounds, owner) != nowhere) return "ground " + owner;
  if (index_of(network.buses, owner) != nowhere) return "bus " + owner;
  return "segment " + owner;
}

inline bool suspected(const nlohmann::json& part) {
  return has(part["classes"], "likely") || has(part["classes"], "possible") || has(part["classes"], "remote");
}

inline void check_silent(const nlohmann::json& parts, const Network& network, const Scan& scan) {
  for (const ModuleSeen& seen : scan.modules) {
    const std::size_t index = index_of(network.modules, seen.module);
    if (index == nowhere) continue;
    CAPTURE(seen.module);
    const bool silent =
        seen.answer == Answer::no || (seen.answer == Answer::not_fitted && !network.modules[index].optional);
    const bool drawn = parts.contains("module " + seen.module);  // in brief the others are named only
    CHECK((drawn && has(parts["module " + seen.module]["classes"], "silent")) == silent);
  }
}

/// Silent modules, suspects of the findings and the first checks.
inline void check_marks(const nlohmann::json& parts, const nlohmann::json& findings, const Network& network,
                        const Scan& scan) {
  check_silent(parts, network, scan);
  std::size_t suspects = 0;
  for (const nlohmann::json& explanation : findings["explanations"]) {
    const bool best = &explanation == &findings["explanations"][0];
    if (!best && (explanation["probability"] < 0.02 || !explanation["alike"].empty())) continue;
    for (const nlohmann::json& fault : explanation["faults"]) {
      const std::string place = place_of(fault, network);
      CAPTURE(place);
      REQUIRE(parts.contains(place));
      CHECK(suspected(parts[place]));
      ++suspects;
    }
  }
  CHECK(suspects > 0);
  for (std::size_t i = 0; i < std::min<std::size_t>(5, findings["checks"].size()); ++i) {
    if (!findings["checks"][i]["at"].contains("part")) continue;  // to be done at no place
    const std::string number = std::to_string(i + 1);
    const bool anywhere = std::any_of(parts.begin(), parts.end(), [&](const nlohmann::json& part) {
      return (" " + part["checks"].get<std::string>() + " ").find(" " + number + " ") != std::string::npos;
    });
    CAPTURE(number);
    CHECK(anywhere);
  }
}

}  // namespace whichwire::test
