// Reads the table of rates. The compiled-in one is read by the same code as the user's, so it cannot be malformed
// without a test noticing. Tested in tests/faults/rates.cpp.
#include "faults/rates.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view rates_csv;
}

namespace {

constexpr double most_odds = 1e6;

/// One pass over a table: rows that stand, mistakes for those that do not.
struct RatesReader {
  CsvSheet sheet;
  const std::vector<Rate>* known = nullptr;  ///< rows that may be overridden; null: any
  std::vector<Rate> rows;
  std::vector<Mistake> mistakes;

  void complain(const CsvCell& cell, const std::string& path, std::string message) {
    mistakes.push_back(mistake_at(sheet, cell, path, std::move(message)));
  }

  void read_header() {
    static const std::vector<std::string> columns = {"what", "odds", "source"};
    const auto& header = sheet.rows.front();
    const bool right = header.size() == columns.size() &&
                       std::equal(columns.begin(), columns.end(), header.begin(),
                                  [](const std::string& column, const CsvCell& cell) { return column == cell.text; });
    if (!right) complain(header.front(), "", "the first line must name the columns: what,odds,source");
  }

  void check_key(const CsvCell& cell) {
    const auto has_key = [&](const Rate& row) { return row.what == cell.text; };
    if (std::any_of(rows.begin(), rows.end(), has_key)) {
      return complain(cell, cell.text, "this rate is given twice, keep one of the two lines");
    }
    if (known == nullptr || std::any_of(known->begin(), known->end(), has_key)) return;
    std::vector<std::string> keys;
    for (const Rate& row : *known) keys.push_back(row.what);
    const std::string near = nearest(cell.text, keys);
    complain(cell, cell.text,
             "there is no rate of this name" + (near.empty() ? std::string() : ", did you mean '" + near + "'?"));
  }

  double read_odds(const CsvCell& cell, const std::string& what) {
    double odds = 0;
    const char* end = cell.text.data() + cell.text.size();
    const auto [stop, error] = std::from_chars(cell.text.data(), end, odds);
    if (error != std::errc() || stop != end || !std::isfinite(odds)) {
      complain(cell, what, "the odds must be a number, as in 0.002");
    } else if (odds <= 0 || odds > most_odds) {
      complain(cell, what, "the odds must be above 0 and at most 1000000");
    }
    return odds;
  }

  void read_row(const std::vector<CsvCell>& cells) {
    if (cells.size() != 3) {
      const std::string path = cells.front().text;
      return complain(cells.front(), path,
                      "a line has three columns (what,odds,source), this one has " + std::to_string(cells.size()) +
                          (cells.size() > 3 ? "; put quotes around a text that has a comma" : ""));
    }
    check_key(cells[0]);
    const double odds = read_odds(cells[1], cells[0].text);
    if (cells[2].text.empty()) {
      complain(cells[2], cells[0].text, "the source is missing, write where the number is from");
    }
    rows.push_back({cells[0].text, odds, cells[2].text});
  }

  void read() {
    mistakes = sheet.mistakes;
    if (sheet.rows.empty()) {
      if (mistakes.empty()) complain({}, "", "the table is empty, its first line must be: what,odds,source");
      return;
    }
    read_header();
    for (std::size_t i = 1; i < sheet.rows.size(); ++i) read_row(sheet.rows[i]);
  }
};

RatesReader read_table(std::string_view csv, const std::string& name, const std::vector<Rate>* known) {
  RatesReader reader;
  reader.sheet = read_csv(csv, name);
  reader.known = known;
  reader.read();
  std::stable_sort(reader.mistakes.begin(), reader.mistakes.end(), [](const Mistake& a, const Mistake& b) {
    return std::pair(a.line, a.column) < std::pair(b.line, b.column);
  });
  return reader;
}

}  // namespace

const Rates& default_rates() {
  static const Rates rates = [] {
    RatesReader reader = read_table(data::rates_csv, "rates.csv", nullptr);
    if (!reader.mistakes.empty()) throw std::logic_error(text_of(reader.mistakes.front()));
    return Rates{std::move(reader.rows)};
  }();
  return rates;
}

RatesResult read_rates(std::string_view csv, const std::string& name) {
  RatesReader reader = read_table(csv, name, &default_rates().rows);
  RatesResult result{default_rates(), std::move(reader.mistakes)};
  if (!result.mistakes.empty()) return result;
  for (Rate& row : result.rates.rows) {
    const auto over = std::find_if(reader.rows.begin(), reader.rows.end(),
                                   [&](const Rate& candidate) { return candidate.what == row.what; });
    if (over != reader.rows.end()) row = *over;
  }
  return result;
}

double odds_of(const Rates& rates, std::string_view what) {
  const auto row =
      std::find_if(rates.rows.begin(), rates.rows.end(), [&](const Rate& candidate) { return candidate.what == what; });
  if (row == rates.rows.end()) throw std::logic_error("no rate of the name " + std::string(what));
  return row->odds;
}

double factor_of_no_fault(const Rates& rates) { return odds_of(rates, "no-fault"); }

}  // namespace whichwire
