// Reads the compiled-in table of the planner. Tests: tests/planner/evidence.cpp.
#include "planner/numbers.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view planner_csv;
}

namespace {

PlannerNumbers read() {
  const CsvSheet sheet = read_csv(data::planner_csv, "planner.csv");
  if (!sheet.mistakes.empty()) throw std::logic_error(text_of(sheet.mistakes.front()));
  PlannerNumbers all;
  for (std::size_t i = 1; i < sheet.rows.size(); ++i) {
    const auto& row = sheet.rows[i];
    double value = 0;
    const std::string& text = row.at(1).text;
    const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || row.size() != 4) throw std::logic_error("broken row of planner.csv: " + row[0].text);
    all.rows.push_back({row[0].text, value, row[2].text, row[3].text});
  }
  return all;
}

}  // namespace

const PlannerNumbers& default_planner_numbers() {
  static const PlannerNumbers all = read();
  return all;
}

bool set_number(PlannerNumbers& numbers, std::string_view what, double value) {
  const auto row = std::find_if(numbers.rows.begin(), numbers.rows.end(),
                                [&](const PlannerNumber& each) { return each.what == what; });
  if (row == numbers.rows.end()) return false;
  row->value = value;
  return true;
}

double number_of(const PlannerNumbers& numbers, std::string_view what) {
  for (const PlannerNumber& row : numbers.rows) {
    if (row.what == what) return row.value;
  }
  throw std::logic_error("no row in the table of the planner for " + std::string(what));
}

}  // namespace whichwire
