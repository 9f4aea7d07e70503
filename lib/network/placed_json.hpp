// JSON in which every value and every key knows its place. nlohmann_json keeps none, so its tokens are followed by
// counting bytes in the input it reads. Comments are allowed; a key that stands twice in an object is a mistake.
// Source of the grammar: RFC 8259. Tested in tests/network/placed_json_test.cpp, tests/bad and tests/fuzz.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "network/complaints.hpp"

namespace whichwire::json {

struct Member;

/// One value. Only the field of its kind is filled.
struct Value {
  enum class Kind : std::uint8_t { null, boolean, number, text, list, object };
  Kind kind = Kind::null;
  bool truth = false;
  Spot spot;  ///< where it begins
  double number = 0;
  std::string text;
  std::vector<Value> items;     ///< of a list
  std::vector<Member> members;  ///< of an object, in the order of the text, each key once

  bool is(Kind wanted) const { return kind == wanted; }
};

struct Member {
  std::string key;
  Spot spot;  ///< of the key
  Value value;
};

/// What a text may be at most; beyond it the text is refused with a message that names the limit.
struct Limits {
  std::size_t bytes = std::size_t{4} << 20U;  ///< of the whole text
  std::size_t depth = 64;                     ///< brackets inside each other
  std::size_t values = 100'000;
  std::size_t text_bytes = std::size_t{64} << 10U;  ///< of one key or text
};

/// The value that `text` holds, or nullopt when it cannot be read at all. Every mistake goes to `complaints`,
/// placed in the text of number `source`. A duplicate key is a mistake that does not stop the reading.
std::optional<Value> parse(std::string_view text, std::uint32_t source, Complaints& complaints,
                           const Limits& limits = {});

/// The member of this key, or null; null also when `object` is no object.
const Value* find(const Value& object, std::string_view key);
const Member* find_member(const Value& object, std::string_view key);

/// In words: "a text", "an object", "nothing (null)".
std::string_view word_for(Value::Kind kind);

}  // namespace whichwire::json
