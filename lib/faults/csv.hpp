// A small reader of comma-separated tables that keeps the place of every cell. Quotes (`"a, b"`, doubled inside) as in
// RFC 4180, but a cell does not run over the end of its line. Lines that are blank or begin with `#` are left out.
// Tested in tests/faults/rates.cpp.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/mistake.hpp>

namespace whichwire {

struct CsvCell {
  std::string text;  ///< without quotes and without the blanks around it
  std::size_t line = 0, column = 0;
};

struct CsvSheet {
  std::string name;
  std::vector<std::string> lines;  ///< as they stand, for messages
  std::vector<std::vector<CsvCell>> rows;
  std::vector<Mistake> mistakes;  ///< unended quotes, and a file that is too large
};

/// Reads a table of at most a million bytes.
CsvSheet read_csv(std::string_view text, const std::string& name);

/// A compiled-in table of numbers (columns `what,value,…`) by name. Throws std::logic_error where it is malformed.
class NumberTable {
 public:
  NumberTable(std::string_view csv, const std::string& name);
  /// Throws std::logic_error where there is no such row.
  double at(std::string_view what) const;

 private:
  std::string name_;
  std::map<std::string, double, std::less<>> all_;
};

Mistake mistake_at(const CsvSheet& sheet, const CsvCell& cell, const std::string& path, std::string message);

}  // namespace whichwire
