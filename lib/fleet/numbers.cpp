#include "fleet/numbers.hpp"

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view fleet_csv;
}

double fleet_number(std::string_view what) {
  static const NumberTable table(data::fleet_csv, "fleet.csv");
  return table.at(what);
}

}  // namespace whichwire
