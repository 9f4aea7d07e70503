// Reads the compiled-in tables of the checks. Tests: tests/checks/knowledge.cpp.
#include "checks/knowledge.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view checks_csv, outcomes_csv, cautions_csv, limits_csv;
}

namespace {

using Row = std::vector<CsvCell>;

double number(const CsvCell& cell) {
  double value = 0;
  const char* end = cell.text.data() + cell.text.size();
  const auto [stop, error] = std::from_chars(cell.text.data(), end, value);
  if (error != std::errc() || stop != end) throw std::logic_error("not a number in a table of checks: " + cell.text);
  return value;
}

/// Calls `take` for every row behind the header; a row of another width is a broken table.
template <class Take>
void each_row(std::string_view csv, const std::string& name, std::size_t width, Take take) {
  const CsvSheet sheet = read_csv(csv, name);
  if (!sheet.mistakes.empty()) throw std::logic_error(text_of(sheet.mistakes.front()));
  for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
    if (sheet.rows[i].size() != width) throw std::logic_error("row " + std::to_string(i) + " of " + name);
    if (i > 0) take(sheet.rows[i]);
  }
}

Knowledge read() {
  Knowledge all;
  each_row(data::checks_csv, "checks.csv", 10, [&](const Row& row) {
    all.checks.push_back({row[0].text, row[1].text, row[2].text, row[8].text, row[9].text, number(row[3]),
                          number(row[4]), number(row[5]), number(row[6]), number(row[7])});
  });
  each_row(data::outcomes_csv, "outcomes.csv", 7, [&](const Row& row) {
    all.outcomes.push_back({row[0].text, row[1].text, row[2].text, row[3].text, row[4].text, row[5].text, row[6].text});
  });
  each_row(data::cautions_csv, "cautions.csv", 3, [&](const Row& row) {
    all.cautions.push_back({row[0].text, row[1].text, row[2].text});
  });
  each_row(data::limits_csv, "limits.csv", 4, [&](const Row& row) {
    all.limits.push_back({row[0].text, row[2].text, row[3].text, number(row[1])});
  });
  return all;
}

template <class T>
const T& find(const std::vector<T>& rows, std::string T::*key, std::string_view wanted) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const T& row) { return row.*key == wanted; });
  if (found == rows.end()) throw std::logic_error("no row in the tables of checks for " + std::string(wanted));
  return *found;
}

}  // namespace

const CheckKind& Knowledge::check(std::string_view what) const { return find(checks, &CheckKind::what, what); }

const Caution& Knowledge::caution(std::string_view belongs_to) const {
  return find(cautions, &Caution::belongs_to, belongs_to);
}

double Knowledge::limit(std::string_view what) const { return find(limits, &Limit::what, what).value; }

std::span<const OutcomeKind> Knowledge::outcomes_of(std::string_view what) const {
  const auto belongs = [&](const OutcomeKind& row) { return row.what == what; };
  const auto first = std::find_if(outcomes.begin(), outcomes.end(), belongs);
  if (first == outcomes.end()) throw std::logic_error("no outcomes in the tables of checks for " + std::string(what));
  return {first, std::find_if_not(first, outcomes.end(), belongs)};
}

const Knowledge& knowledge() {
  static const Knowledge all = read();
  return all;
}

std::string fill(std::string_view text, const Fields& fields) {
  std::string filled;
  while (!text.empty()) {
    const std::size_t open = std::min(text.find('{'), text.size());
    filled += text.substr(0, open);
    text.remove_prefix(open);
    const std::size_t close = text.find('}');
    if (close == std::string_view::npos) return filled.append(text);
    const std::string_view name = text.substr(1, close - 1);
    const auto field = std::find_if(fields.begin(), fields.end(), [&](const auto& each) { return each.first == name; });
    filled += field == fields.end() ? std::string(text.substr(0, close + 1)) : field->second;
    text.remove_prefix(close + 1);
  }
  return filled;
}

}  // namespace whichwire
