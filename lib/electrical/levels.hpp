// What a module, a commander or a tester puts on a line, by protocol and state: the rows of values.csv made ready.
#pragma once

#include <array>
#include <optional>

#include "electrical/circuit.hpp"

namespace whichwire {

enum class LineState : std::uint8_t { off, asleep, rest, drive, commander, tester };
constexpr std::size_t line_states = 6;
constexpr std::size_t protocols = 11;

/// A source behind ohms, to ground.
struct LineSource {
  Interval ohms, volts, battery;  ///< `battery`: share of the battery volts, added to `volts`
  Way way = Way::both;
};

using LineLevel = std::optional<LineSource>;

class Levels {
 public:
  explicit Levels(const ElectricalValues& values);
  const LineLevel& of(Protocol protocol, LineState state, Line line) const {
    return table_[static_cast<std::size_t>(protocol)][static_cast<std::size_t>(state)][static_cast<std::size_t>(line)];
  }

 private:
  std::array<std::array<std::array<LineLevel, 2>, line_states>, protocols> table_;
};

}  // namespace whichwire
