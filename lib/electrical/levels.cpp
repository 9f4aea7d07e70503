// Idea and tests: see levels.hpp; tests/electrical/values.cpp.
#include "electrical/levels.hpp"

#include <string>

#include "electrical/values.hpp"

namespace whichwire {
namespace {

constexpr std::array<std::string_view, line_states> words{"off", "asleep", "rest", "drive", "commander", "tester"};

const Interval* row_of(const ElectricalValues& values, const std::string& key, Line line) {
  const Interval* own = find_value(values, key + (line == Line::high ? ".high" : ".low"));
  return own != nullptr ? own : find_value(values, key);
}

LineLevel read_level(const ElectricalValues& values, const std::string& prefix, Line line) {
  const Interval* ohms = row_of(values, prefix + ".ohms", line);
  if (ohms == nullptr) return std::nullopt;
  LineSource level{*ohms, {}, {}, Way::both};
  if (const Interval* volts = row_of(values, prefix + ".volts", line)) level.volts = *volts;
  if (const Interval* battery = row_of(values, prefix + ".battery", line)) level.battery = *battery;
  if (const Interval* way = row_of(values, prefix + ".way", line)) {
    level.way = way->nominal > 0 ? Way::into_a : way->nominal < 0 ? Way::out_of_a : Way::both;
  }
  return level;
}

}  // namespace

Levels::Levels(const ElectricalValues& values) {
  for (std::size_t p = 0; p < protocols; ++p) {
    for (std::size_t s = 0; s < line_states; ++s) {
      const std::string prefix = std::string(word_for(static_cast<Protocol>(p))) + "." + std::string(words[s]);
      for (const Line line : {Line::high, Line::low}) {
        table_[p][s][static_cast<std::size_t>(line)] = read_level(values, prefix, line);
      }
    }
  }
}

}  // namespace whichwire
