// What a JSON text of one of our formats may hold, as a table of shapes; one walker compares any tree with the table
// and says everything that differs, with its place. It sees the text alone: whether an id leads anywhere is not its
// business. Tested in tests/network/shape_test.cpp and, against an independent JSON Schema validator, by
// tests/network/schema.
#pragma once

#include <limits>
#include <span>

#include "network/placed_json.hpp"

namespace whichwire::json {

struct Shape;

struct Field {
  std::string_view key;
  const Shape* shape = nullptr;
  bool required = false;  ///< where the text states a whole
  bool always = false;    ///< required in a difference too
};

struct Shape {
  enum class Kind : std::uint8_t { text, id, word, number, whole, truth, list, map, record };
  Kind kind = Kind::text;
  std::size_t least = 0;   ///< entries of a list or map
  std::size_t most = 200;  ///< characters of a text, entries of a list or map
  double low = 0, high = std::numeric_limits<double>::max();
  bool above_low = false;  ///< `low` itself is out of range
  bool unique = false;     ///< a list of texts holds each once
  std::span<const std::string_view> words{};
  const Shape* each = nullptr;  ///< entry of a list or map
  const Shape* key = nullptr;   ///< of a map: shape of its keys
  std::span<const Field> fields{};
  std::span<const std::string_view> one_of{};  ///< keys of a record of which exactly one is there
  std::span<const std::string_view> any_of{};  ///< keys of a record of which at least one is there
};

/// Whether a text states a whole, or only what differs from a base: then entries of maps may leave keys out.
enum class Extent : std::uint8_t { whole, difference };

/// Compares the value with the shape and adds what differs to `complaints`.
void check_shape(const Value& value, const Shape& shape, const Trail& trail, Extent extent, Complaints& complaints);

}  // namespace whichwire::json
