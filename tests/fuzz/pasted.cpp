// No line is dropped silently: every line that is not blank is either understood or shown as not placed.
#include <whichwire/scan.hpp>

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace whichwire;
  const auto result = read_pasted_scan(fuzz::text_of_bytes(data, size), "fuzz.txt", fuzz::compact_car());
  for (const Mistake& mistake : result.mistakes) fuzz::insist_printable(text_of(mistake));
  fuzz::insist(result.scan.has_value() || !result.mistakes.empty());
  for (const LineRead& line : result.lines) {
    fuzz::insist(line.line > 0);
    fuzz::insist_printable(line.text);
    fuzz::insist_printable(line.understood);
  }
  return 0;
}
