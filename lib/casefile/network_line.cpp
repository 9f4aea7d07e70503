// A network as one line of JSON, bases merged in, so that a case needs no other file to be read again.
// Tested in tests/casefile/network_line.cpp.
#include <cmath>
#include <nlohmann/json.hpp>
#include <whichwire/casefile.hpp>

#include "network/draft.hpp"
#include "network/extends.hpp"

namespace whichwire {

namespace {

using Tree = nlohmann::ordered_json;

Tree number_tree(double number) {
  constexpr double exact = 9'007'199'254'740'992.0;  // 2^53: below it every whole number is itself
  const bool whole = std::nearbyint(number) == number && std::abs(number) < exact;
  return whole ? Tree(static_cast<std::int64_t>(number)) : Tree(number);
}

Tree tree_of(const json::Value& value) {
  switch (value.kind) {
    case json::Value::Kind::null:
      return nullptr;
    case json::Value::Kind::boolean:
      return value.truth;
    case json::Value::Kind::number:
      return number_tree(value.number);
    case json::Value::Kind::text:
      return value.text;
    case json::Value::Kind::list: {
      Tree list = Tree::array();
      for (const json::Value& item : value.items) list.push_back(tree_of(item));
      return list;
    }
    case json::Value::Kind::object:
      break;
  }
  Tree object = Tree::object();
  for (const json::Member& member : value.members) object[member.key] = tree_of(member.value);
  return object;
}

}  // namespace

NetworkLine network_line(std::string_view text, const std::string& name) {
  NetworkTexts texts;
  texts.sources.push_back({name, text});
  const std::optional<json::Value> tree = whole_tree(texts);
  NetworkLine line;
  if (tree && network_of(*tree, name, texts.complaints))
    line.json = tree_of(*tree).dump(-1, ' ', false, Tree::error_handler_t::replace);
  line.mistakes = texts.complaints.mistakes(texts.sources);
  return line;
}

}  // namespace whichwire
