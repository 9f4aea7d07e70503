// Learned rates as a table that `--rates` reads, each row with its counts. Tests: tests/fleet/learn_rates.cpp.
#include <cstdio>
#include <whichwire/render_fleet.hpp>

#include "render/page.hpp"

namespace whichwire {

namespace {

std::string shortest(double value) {
  char digits[32];
  std::snprintf(digits, sizeof digits, "%.6g", value);
  return digits;
}

}  // namespace

std::string csv_of(const LearnedRates& learned) {
  const std::string cases = std::to_string(learned.cases);
  std::string table =
      "# Learned from proven cases: " + cases + ". Rows that are not here keep the built-in rate.\nwhat,odds,source\n";
  for (const LearnedRate& row : learned.rows) {
    table += row.what + "," + shortest(row.after) + ",\"found in " + std::to_string(row.found) + " of " + cases +
             " proven, " + render::number(row.expected) + " expected by " + shortest(row.before) + "\"\n";
  }
  return table;
}

}  // namespace whichwire
