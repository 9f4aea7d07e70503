// One tree from a text and the bases that it extends: the base, less what is removed, overlaid with what is stated.
// Objects are overlaid key by key, everything else is replaced whole. Every value keeps the place in the text it is
// from. Tested in tests/network/extends_test.cpp.
#pragma once

#include <deque>

#include "network/complaints.hpp"
#include "network/placed_json.hpp"

namespace whichwire {

/// The texts that are read for one network, and all that is wrong with them.
struct NetworkTexts {
  std::vector<json::Source> sources;
  std::deque<std::string> bases;  ///< keeps the texts of the bases alive
  json::Complaints complaints;
};

/// The tree of the first source with its bases merged in, or nullopt when it cannot be told what it holds.
std::optional<json::Value> whole_tree(NetworkTexts& reading);

}  // namespace whichwire
