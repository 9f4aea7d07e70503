#include "effects/protocol_rules.hpp"

#include <stdexcept>

namespace whichwire {
namespace data {
extern const std::string_view protocols_csv;
}

namespace {

constexpr std::size_t protocol_count = 11;
using Table = std::array<ProtocolRules, protocol_count>;

std::string_view next_field(std::string_view& rest, char end) {
  const auto at = rest.find(end);
  const auto field = rest.substr(0, at);
  rest = at == std::string_view::npos ? std::string_view{} : rest.substr(at + 1);
  return field;
}

Protocol protocol_named(std::string_view word) {
  for (std::size_t i = 0; i < protocol_count; ++i) {
    if (word_for(static_cast<Protocol>(i)) == word) return static_cast<Protocol>(i);
  }
  throw std::logic_error("protocols.csv names an unknown protocol");
}

std::size_t short_named(std::string_view word) {
  constexpr std::array<std::string_view, 5> words{"line-line", "high-ground", "high-supply", "low-ground",
                                                  "low-supply"};
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) return i;
  }
  throw std::logic_error("protocols.csv names an unknown disturbance");
}

Table read_table() {
  Table table;
  auto rest = data::protocols_csv;
  next_field(rest, '\n');  // heading
  while (!rest.empty()) {
    auto row = next_field(rest, '\n');
    if (row.empty()) continue;
    auto& rules = table[static_cast<std::size_t>(protocol_named(next_field(row, ',')))];
    const auto which = short_named(next_field(row, ','));
    const auto level = next_field(row, ',');
    rules.shorted[which] = level == "up" ? Level::up : level == "unsure" ? Level::unsure : Level::down;
    rules.source[which] = row;
  }
  return table;
}

}  // namespace

const ProtocolRules& rules_of(Protocol protocol) {
  static const Table table = read_table();
  return table[static_cast<std::size_t>(protocol)];
}

Short short_of(const Fault& fault) {
  if (fault.to == ShortTo::other_line) return Short::line_line;
  const bool low = fault.lines == Lines::low;
  if (fault.to == ShortTo::ground) return low ? Short::low_ground : Short::high_ground;
  return low ? Short::low_supply : Short::high_supply;
}

}  // namespace whichwire
