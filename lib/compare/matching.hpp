// Which part of one network is which of the other: by id; what is left over by role and place. Segments go by the ends
// they join before they go by their ids, pins by their name and what feeds them.
// Tests: tests/compare/trims.cpp, tests/compare/edits.cpp.
#pragma once

#include <optional>
#include <vector>
#include <whichwire/fault.hpp>
#include <whichwire/network.hpp>

namespace whichwire {

/// By index in A: the index in B, or `nowhere`.
using Map = std::vector<std::size_t>;

struct Matching {
  Map modules, buses, points, feeds, grounds, functions;
  std::vector<Map> segments, terminators;      ///< by bus of A
  std::vector<Map> power, ground, references;  ///< by module of A
  Map connector_power, connector_ground, connector_buses;

  /// The same end in B; nullopt where B lacks it.
  std::optional<End> in_b(const End& end) const;
};

Matching match(const Network& a, const Network& b);

/// `map[index]`; `nowhere` stays so.
std::size_t at(const Map& map, std::size_t index);

/// Indices in B that no part of A is matched with.
std::vector<std::size_t> only_in_b(const Map& map, std::size_t count_b);

/// The inverse: by index in B.
Map inverse(const Map& map, std::size_t count_b);

/// The same fault in B; nullopt where a part of it is not there.
std::optional<Fault> in_b(const Matching& match, const Network& b, const Fault& fault);

}  // namespace whichwire
