// Reads the table of values; the compiled-in one by the same code as the user's. Tests: tests/electrical/values.cpp.
#include "electrical/values.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "electrical/circuit.hpp"
#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view electrical_values_csv;
}

namespace {

constexpr std::size_t width = 6;
constexpr double most = 1e12;

struct Reader {
  CsvSheet sheet;
  const ElectricalValues* known = nullptr;  ///< rows that may be overridden; null: any
  ElectricalValues values;
  std::vector<Mistake> mistakes;

  void complain(const CsvCell& cell, const std::string& path, std::string message) {
    mistakes.push_back(mistake_at(sheet, cell, path, std::move(message)));
  }

  double number(const CsvCell& cell, const std::string& what) {
    if (cell.text == "open") return open_circuit;
    double value = 0;
    const char* end = cell.text.data() + cell.text.size();
    const auto [stop, error] = std::from_chars(cell.text.data(), end, value);
    if (error != std::errc() || stop != end || !(std::abs(value) <= most)) {
      complain(cell, what, "here must be a number, as in 0.35, or the word open");
    }
    return value;
  }

  void check_key(const CsvCell& cell) {
    if (find_value(values, cell.text) != nullptr) {
      return complain(cell, cell.text, "this value is given twice, keep one of the two lines");
    }
    if (known == nullptr || find_value(*known, cell.text) != nullptr) return;
    std::vector<std::string> keys;
    for (const ElectricalValue& row : known->rows) keys.push_back(row.what);
    const std::string near = nearest(cell.text, keys);
    complain(cell, cell.text,
             "there is no value of this name" + (near.empty() ? "" : ", did you mean '" + near + "'?"));
  }

  void read_row(const std::vector<CsvCell>& cells) {
    const std::string what = cells.front().text;
    if (cells.size() != width) {
      return complain(
          cells.front(), what,
          "a line has six columns (what,low,nominal,high,unit,source), this one has " + std::to_string(cells.size()));
    }
    check_key(cells[0]);
    const Interval value{number(cells[1], what), number(cells[2], what), number(cells[3], what)};
    if (value.low > value.nominal || value.nominal > value.high) {
      complain(cells[1], what, "the numbers must rise: low, nominal, high");
    }
    if (cells[4].text == "ohm" && value.low < 0) complain(cells[1], what, "ohms cannot be less than 0");
    if (cells[5].text.empty()) complain(cells[5], what, "the source is missing, write where the number is from");
    values.rows.push_back({what, value, cells[4].text, cells[5].text});
  }

  void read() {
    mistakes = sheet.mistakes;
    const std::vector<std::string> columns{"what", "low", "nominal", "high", "unit", "source"};
    const bool headed = !sheet.rows.empty() && sheet.rows.front().size() == width &&
                        std::equal(columns.begin(), columns.end(), sheet.rows.front().begin(),
                                   [](const std::string& column, const CsvCell& cell) { return column == cell.text; });
    if (!headed) {
      complain(sheet.rows.empty() ? CsvCell{} : sheet.rows.front().front(), "",
               "the first line must name the columns: what,low,nominal,high,unit,source");
    }
    for (std::size_t i = headed ? 1 : 0; i < sheet.rows.size(); ++i) read_row(sheet.rows[i]);
  }
};

Reader read_table(std::string_view csv, const std::string& name, const ElectricalValues* known) {
  Reader reader;
  reader.sheet = read_csv(csv, name);
  reader.known = known;
  reader.read();
  return reader;
}

}  // namespace

const ElectricalValues& default_electrical_values() {
  static const ElectricalValues values = [] {
    Reader reader = read_table(data::electrical_values_csv, "values.csv", nullptr);
    if (!reader.mistakes.empty()) throw std::logic_error(text_of(reader.mistakes.front()));
    return std::move(reader.values);
  }();
  return values;
}

ElectricalValuesResult read_electrical_values(std::string_view csv, const std::string& name) {
  Reader reader = read_table(csv, name, &default_electrical_values());
  ElectricalValuesResult result{default_electrical_values(), std::move(reader.mistakes)};
  if (!result.mistakes.empty()) return result;
  for (ElectricalValue& row : result.values.rows) {
    for (const ElectricalValue& over : reader.values.rows) {
      if (over.what == row.what) row = over;
    }
  }
  return result;
}

const Interval* find_value(const ElectricalValues& values, std::string_view what) {
  const auto row = std::find_if(values.rows.begin(), values.rows.end(),
                                [&](const ElectricalValue& candidate) { return candidate.what == what; });
  return row == values.rows.end() ? nullptr : &row->value;
}

const Interval& value_of(const ElectricalValues& values, std::string_view what) {
  const Interval* value = find_value(values, what);
  if (value == nullptr) throw std::logic_error("no electrical value of the name " + std::string(what));
  return *value;
}

}  // namespace whichwire
