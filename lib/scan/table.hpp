// The compiled-in tables of this folder (*.csv) as rows of cells that point into the text.
// Tested in tests/scan/tables.cpp.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

namespace whichwire {

/// Cuts the next line off `rest`; the line is without its line feed.
inline std::string_view next_line(std::string_view& rest) {
  const std::size_t end = rest.find('\n');
  const std::string_view line = rest.substr(0, end);
  rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  return line;
}

/// Cuts the next cell off `rest`. A cell in quotes may hold commas; the tables need no quotes inside cells.
inline std::string_view next_cell(std::string_view& rest) {
  const bool quoted = rest.starts_with('"');
  const std::size_t close = quoted ? rest.find('"', 1) : std::string_view::npos;
  const std::size_t comma = rest.find(',', close == std::string_view::npos ? 0 : close);
  std::string_view cell = rest.substr(0, comma);
  if (quoted && close != std::string_view::npos) cell = rest.substr(1, close - 1);
  rest = comma == std::string_view::npos ? std::string_view{} : rest.substr(comma + 1);
  return cell;
}

/// The rows behind the heading, comments left out. A row with fewer cells than `columns` ends in empty ones.
template <std::size_t columns>
std::vector<std::array<std::string_view, columns>> rows_of(std::string_view csv) {
  std::vector<std::array<std::string_view, columns>> rows;
  bool heading_seen = false;
  while (!csv.empty()) {
    std::string_view line = next_line(csv);
    if (line.empty() || line.starts_with('#')) continue;
    if (!heading_seen) {
      heading_seen = true;
      continue;
    }
    std::array<std::string_view, columns> row;
    for (std::string_view& cell : row) cell = next_cell(line);
    rows.push_back(row);
  }
  return rows;
}

}  // namespace whichwire
