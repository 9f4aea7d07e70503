#include "locate/likelihoods.hpp"

#include <cmath>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "scan/table.hpp"

namespace whichwire {
namespace data {
extern const std::string_view likelihood_csv;
}

const std::array<double, level_count>& log_likelihood_of(std::string_view seen) {
  using Row = std::pair<std::string_view, std::array<double, level_count>>;
  static const std::vector<Row> table = [] {
    std::vector<Row> rows;
    for (const auto& cells : rows_of<7>(data::likelihood_csv)) {
      Row row{cells[0], {}};
      for (std::size_t level = 0; level < level_count; ++level) {
        row.second[level] = std::log(std::strtod(std::string(cells[level + 1]).c_str(), nullptr));
      }
      rows.push_back(row);
    }
    return rows;
  }();
  for (const auto& [name, row] : table) {
    if (name == seen) return row;
  }
  throw std::logic_error("likelihood.csv has no row " + std::string(seen));
}

}  // namespace whichwire
