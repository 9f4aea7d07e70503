// A table of rates that is refused says why; one that is accepted has every rate once, positive and finite, and is
// taken alike the second time.
#include <cmath>
#include <whichwire/fault.hpp>

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace whichwire;
  const std::string_view text = fuzz::text_of_bytes(data, size);
  const RatesResult result = read_rates(text, "fuzz.csv");
  for (const Mistake& mistake : result.mistakes) {
    fuzz::insist(!mistake.message.empty());
    fuzz::insist_printable(text_of(mistake));
  }
  fuzz::insist(result.rates.rows.size() == default_rates().rows.size());
  for (std::size_t i = 0; i < result.rates.rows.size(); ++i) {
    const Rate& rate = result.rates.rows[i];
    fuzz::insist(rate.what == default_rates().rows[i].what);
    fuzz::insist(rate.odds > 0 && std::isfinite(rate.odds) && !rate.source.empty());
    if (!result.mistakes.empty()) fuzz::insist(rate.odds == default_rates().rows[i].odds);
  }
  std::string written = "what,odds,source\n";
  for (const Rate& rate : result.rates.rows) {
    char odds[40];
    std::snprintf(odds, sizeof odds, "%.17g", rate.odds);
    written += rate.what + "," + odds + ",again\n";
  }
  const RatesResult again = read_rates(written, "again.csv");
  fuzz::insist(again.mistakes.empty());
  for (std::size_t i = 0; i < again.rates.rows.size(); ++i)
    fuzz::insist(again.rates.rows[i].odds == result.rates.rows[i].odds);
  fuzz::insist(faults_of(fuzz::compact_car(), result.rates).size() == faults_of(fuzz::compact_car()).size());
  return 0;
}
