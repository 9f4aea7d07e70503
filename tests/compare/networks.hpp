// A network with its keys in another order.
#pragma once

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <whichwire/network.hpp>

#include "running.hpp"
#include "shipped.hpp"

namespace whichwire::test {

/// The same file with the keys of every object sorted by name. Only of files that extend no other.
inline Network with_sorted_keys(const std::string& name) {
  const std::string text = read_text(path_of_shipped(name));
  auto result = read_network(nlohmann::json::parse(text, nullptr, true, true).dump(), name);
  REQUIRE(result.network.has_value());
  return std::move(*result.network);
}

}  // namespace whichwire::test
