#include "compare/numbers.hpp"

#include <charconv>
#include <map>
#include <stdexcept>
#include <string>

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view compare_csv;
}

namespace {

std::map<std::string, double, std::less<>> read() {
  const CsvSheet sheet = read_csv(data::compare_csv, "compare.csv");
  if (!sheet.mistakes.empty()) throw std::logic_error(text_of(sheet.mistakes.front()));
  std::map<std::string, double, std::less<>> all;
  for (std::size_t i = 1; i < sheet.rows.size(); ++i) {
    const std::string& text = sheet.rows[i].at(1).text;
    double value = 0;
    if (std::from_chars(text.data(), text.data() + text.size(), value).ec != std::errc())
      throw std::logic_error("broken row of compare.csv: " + sheet.rows[i][0].text);
    all[sheet.rows[i][0].text] = value;
  }
  return all;
}

}  // namespace

double compare_number(std::string_view what) {
  static const auto all = read();
  const auto found = all.find(what);
  if (found == all.end()) throw std::logic_error("compare.csv has no row " + std::string(what));
  return found->second;
}

}  // namespace whichwire
