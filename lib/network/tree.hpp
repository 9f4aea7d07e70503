// What a tree holds, read leniently: a value that is missing or of a wrong type counts as not stated.
// The shape has been checked before, and everything wrong with it has been said.
#pragma once

#include "network/placed_json.hpp"

namespace whichwire::json {

/// The text under this key, or an empty one.
inline const std::string& text_in(const Value& object, std::string_view key) {
  static const std::string none;
  const Value* const value = find(object, key);
  return value != nullptr ? value->text : none;
}

inline std::optional<double> number_in(const Value& object, std::string_view key) {
  const Value* const value = find(object, key);
  return value != nullptr && value->is(Value::Kind::number) ? std::optional(value->number) : std::nullopt;
}

/// A whole number that fits; any other counts as not stated.
inline std::optional<int> whole_in(const Value& object, std::string_view key) {
  const std::optional<double> number = number_in(object, key);
  const bool fits = number && *number >= -2'147'483'648.0 && *number <= 2'147'483'647.0;
  return fits ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

inline bool truth_in(const Value& object, std::string_view key) {
  const Value* const value = find(object, key);
  return value != nullptr && value->truth;
}

inline const std::vector<Value>& items_in(const Value& object, std::string_view key) {
  static const std::vector<Value> none;
  const Value* const value = find(object, key);
  return value != nullptr ? value->items : none;
}

inline const std::vector<Member>& members_in(const Value& object, std::string_view key) {
  static const std::vector<Member> none;
  const Value* const value = find(object, key);
  return value != nullptr ? value->members : none;
}

inline std::vector<std::string> texts_in(const Value& object, std::string_view key) {
  std::vector<std::string> texts;
  for (const Value& item : items_in(object, key)) texts.push_back(item.text);
  return texts;
}

}  // namespace whichwire::json
