#include "compare/numbers.hpp"

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view compare_csv;
}

double compare_number(std::string_view what) {
  static const NumberTable table(data::compare_csv, "compare.csv");
  return table.at(what);
}

}  // namespace whichwire
