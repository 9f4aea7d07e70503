// See tables.hpp.
#include "reading/tables.hpp"

#include <charconv>
#include <map>
#include <stdexcept>

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view reading_meter_csv, reading_words_csv;
}

namespace {

double number(const CsvCell& cell) {
  double value = 0;
  const char* end = cell.text.data() + cell.text.size();
  const auto [stop, error] = std::from_chars(cell.text.data(), end, value);
  if (error != std::errc() || stop != end) throw std::logic_error("not a number in a table of readings: " + cell.text);
  return value;
}

std::vector<std::vector<CsvCell>> rows_of(std::string_view csv, const std::string& name) {
  constexpr std::size_t width = 4;
  CsvSheet sheet = read_csv(csv, name);
  if (!sheet.mistakes.empty()) throw std::logic_error(text_of(sheet.mistakes.front()));
  for (const auto& row : sheet.rows) {
    if (row.size() != width) throw std::logic_error("a row of " + name + ": " + row.front().text);
  }
  sheet.rows.erase(sheet.rows.begin());  // the heading
  return std::move(sheet.rows);
}

}  // namespace

const std::vector<ReadingWord>& reading_words() {
  static const std::vector<ReadingWord> words = [] {
    std::vector<ReadingWord> all;
    for (const auto& row : rows_of(data::reading_words_csv, "words.csv")) {
      all.push_back({row[0].text, row[1].text, number(row[2])});
    }
    return all;
  }();
  return words;
}

double meter_value(std::string_view what) {
  static const std::map<std::string, double, std::less<>> values = [] {
    std::map<std::string, double, std::less<>> all;
    for (const auto& row : rows_of(data::reading_meter_csv, "meter.csv")) all.emplace(row[0].text, number(row[1]));
    return all;
  }();
  const auto found = values.find(what);
  if (found == values.end()) throw std::logic_error("no value of a meter of the name " + std::string(what));
  return found->second;
}

}  // namespace whichwire
