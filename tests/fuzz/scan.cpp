// Whatever is accepted can be written and read again, and says the same.
#include <whichwire/scan.hpp>

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace whichwire;
  const auto result = read_scan(fuzz::text_of_bytes(data, size), "fuzz.json", &fuzz::compact_car());
  fuzz::insist_on(result.scan.has_value(), result.mistakes);
  if (!result.scan) return 0;
  const std::string written = json_of(*result.scan);
  const auto again = read_scan(written, "again.json", &fuzz::compact_car());
  fuzz::insist(again.scan.has_value());
  fuzz::insist(json_of(*again.scan) == written);
  return 0;
}
