// Idea and tests: see lamp.hpp.
#include "electrical/lamp.hpp"

#include <algorithm>
#include <cmath>

namespace whichwire {

double lamp_ohms(const TestLoad& load, const PartValues& parts, double volts) {
  if (load.ohms) return std::max(*load.ohms, least_ohms);
  const double hot = parts.lamp_volts * parts.lamp_volts / load.watts;
  constexpr double cold_share =
      0.08;  // a cold filament has about a twelfth of its hot ohms: common practice, no source
  const double share = std::pow(std::abs(volts) / parts.lamp_volts, 1 - parts.lamp_exponent);
  return hot * std::max(share, cold_share);
}

double lamp_volts(const TestLoad& load, const PartValues& parts, double open_volts, double ohms) {
  if (std::isinf(ohms)) return 0;
  double low = 0, high = std::abs(open_volts);
  constexpr int halvings = 60;
  for (int i = 0; i < halvings; ++i) {
    const double volts = (low + high) / 2;
    const double drawn = volts / lamp_ohms(load, parts, volts);
    (volts + ohms * drawn < std::abs(open_volts) ? low : high) = volts;
  }
  return std::copysign((low + high) / 2, open_volts);
}

}  // namespace whichwire
