// What a shorted line does to a bus, by protocol: the table of `protocols.csv`, each cell with its source.
// Tested by tests/reference/iso11898-2.cpp and iso11898-3.cpp.
#pragma once

#include <array>
#include <string_view>
#include <whichwire/prediction.hpp>

namespace whichwire {

/// The five shorts of a pair, in the order of the table's columns.
enum class Short : std::uint8_t { line_line, high_ground, high_supply, low_ground, low_supply };

struct ProtocolRules {
  std::array<Level, 5> shorted{Level::down, Level::down, Level::down, Level::down, Level::down};
  std::array<std::string_view, 5> source{};
};

const ProtocolRules& rules_of(Protocol);

/// Which short a fault of kind short_circuit on a segment is.
Short short_of(const Fault&);

}  // namespace whichwire
