// The ids of a network: each names one thing, in whatever map it stands, so that a fault can be told by the id alone.
// Tested in tests/network/ids_test.cpp.
#pragma once

#include <unordered_map>
#include <whichwire/network.hpp>

#include "network/placed_json.hpp"

namespace whichwire {

class Ids {
 public:
  enum class Sort : std::uint8_t { module, point, bus, segment, feed, ground };

  explicit Ids(json::Complaints& complaints) : complaints_(complaints) {}

  /// Takes the key as the id of number `index` of its sort; says so when it is reserved or names something already.
  void add(Sort sort, std::size_t index, const json::Member& member, const json::Trail& trail);

  /// Index of the thing that the text names, or `nowhere`, said with a suggestion. Nothing is said about what is no
  /// text.
  std::size_t find(Sort sort, const json::Value& text, const json::Trail& trail) const;
  std::size_t find(Sort sort, std::string_view id, json::Spot spot, const json::Trail& trail) const;

  /// As `find`, for a segment's end: a module, a point or `DLC`. An unknown one has the index `nowhere`.
  End find_end(const json::Value& text, const json::Trail& trail) const;
  End find_end(std::string_view id, json::Spot spot, const json::Trail& trail) const;

 private:
  struct Entry {
    Sort sort = Sort::module;
    std::size_t index = nowhere;
    std::string id;
    json::Spot spot;
  };
  const Entry* look_up(std::string_view id) const;
  void say_unknown(std::string_view id, std::string_view what, std::initializer_list<Sort> sorts, json::Spot spot,
                   const json::Trail& trail) const;

  json::Complaints& complaints_;
  std::unordered_map<std::string, Entry> by_folded_id_;  // letter case aside
  std::array<std::vector<std::string>, 6> known_;        // by sort
};

constexpr std::string_view connector_id = "DLC";
constexpr std::string_view battery_id = "battery";

}  // namespace whichwire
