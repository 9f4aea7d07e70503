// Idea and tests: see csv.hpp.
#include "faults/csv.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>

namespace whichwire {

namespace {

constexpr std::size_t most_bytes = 1'000'000;
constexpr std::size_t most_line_bytes = 2'000;
constexpr std::size_t most_lines = 2'000;

bool blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

/// The column on the screen of the byte behind `before`, counting a UTF-8 sequence once.
std::size_t column_behind(std::string_view before) {
  std::size_t column = 1;
  for (const char c : printable(before)) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++column;
  }
  return column;
}

/// The cell that begins at byte `at`; moves `at` behind its comma, or behind the end of the line.
CsvCell read_cell(CsvSheet& sheet, std::string_view line, std::size_t& at) {
  while (at < line.size() && blank(line[at])) ++at;
  CsvCell cell{"", sheet.lines.size(), column_behind(line.substr(0, at))};
  if (at == line.size() || line[at] != '"') {
    const std::size_t end = std::min(line.find(',', at), line.size());
    cell.text = trimmed(line.substr(at, end - at));
    at = end + 1;
    return cell;
  }
  bool ended = false;
  for (++at; at < line.size() && !ended; ++at) {
    if (line[at] != '"') {
      cell.text += line[at];
    } else if (at + 1 < line.size() && line[at + 1] == '"') {
      cell.text += line[at++];
    } else {
      ended = true;
    }
  }
  if (!ended) {
    sheet.mistakes.push_back(mistake_at(sheet, cell, "", "the quotes that begin here are not ended on this line"));
  }
  const std::size_t end = std::min(line.find(',', at), line.size());
  if (at < line.size() && !trimmed(line.substr(at, end - at)).empty()) {
    sheet.mistakes.push_back(mistake_at(sheet, cell, "", "there is text behind the quotes, the comma should follow"));
  }
  at = end + 1;
  return cell;
}

std::vector<CsvCell> read_line(CsvSheet& sheet, std::string_view line) {
  std::vector<CsvCell> cells;
  std::size_t at = 0;
  do {
    cells.push_back(read_cell(sheet, line, at));
  } while (at <= line.size());
  return cells;
}

}  // namespace

Mistake mistake_at(const CsvSheet& sheet, const CsvCell& cell, const std::string& path, std::string message) {
  const bool placed = cell.line > 0 && cell.line <= sheet.lines.size();
  return {sheet.name,      cell.line,          cell.column,
          printable(path), std::move(message), placed ? printable(sheet.lines[cell.line - 1]) : ""};
}

CsvSheet read_csv(std::string_view text, const std::string& name) {
  CsvSheet sheet;
  sheet.name = name;
  if (text.size() > most_bytes) {
    sheet.mistakes.push_back(mistake_at(sheet, {}, "", "the table is larger than a million bytes"));
    return sheet;
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    while (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (sheet.lines.size() == most_lines || line.size() > most_line_bytes) {
      const std::size_t number = sheet.lines.size() + 1;
      const std::string why =
          line.size() > most_line_bytes ? "this line is longer than 2000 bytes" : "the table has more than 2000 lines";
      sheet.mistakes.push_back(mistake_at(sheet, {"", number, 1}, "", why + "; nothing from here on is read"));
      return sheet;
    }
    sheet.lines.emplace_back(line);
    const std::string_view content = trimmed(line);
    if (!content.empty() && content.front() != '#') sheet.rows.push_back(read_line(sheet, line));
  }
  return sheet;
}

NumberTable::NumberTable(std::string_view csv, const std::string& name) : name_(name) {
  const CsvSheet sheet = read_csv(csv, name);
  if (!sheet.mistakes.empty()) throw std::logic_error(text_of(sheet.mistakes.front()));
  for (std::size_t i = 1; i < sheet.rows.size(); ++i) {
    const std::string& text = sheet.rows[i].at(1).text;
    double value = 0;
    if (std::from_chars(text.data(), text.data() + text.size(), value).ec != std::errc())
      throw std::logic_error("broken row of " + name + ": " + sheet.rows[i][0].text);
    all_[sheet.rows[i][0].text] = value;
  }
}

double NumberTable::at(std::string_view what) const {
  const auto found = all_.find(what);
  if (found == all_.end()) throw std::logic_error(name_ + " has no row " + std::string(what));
  return found->second;
}

}  // namespace whichwire
