#include "scan/generic_codes.hpp"

#include <algorithm>

#include "scan/hex.hpp"
#include "scan/table.hpp"

namespace whichwire {

namespace data {
extern const std::string_view network_codes;
}

const std::vector<GenericCode>& generic_codes() {
  static const std::vector<GenericCode> codes = [] {
    std::vector<GenericCode> rows;
    for (const auto& [code, kind, subject, qualifier, title] : rows_of<5>(data::network_codes))
      rows.push_back({parse_hex(code.substr(1)).value_or(0), kind, subject, qualifier, title});
    std::ranges::sort(rows, {}, &GenericCode::number);
    return rows;
  }();
  return codes;
}

const GenericCode* find_generic_code(std::uint32_t number) {
  const auto& codes = generic_codes();
  const auto found = std::ranges::lower_bound(codes, number, {}, &GenericCode::number);
  return found != codes.end() && found->number == number ? &*found : nullptr;
}

}  // namespace whichwire
