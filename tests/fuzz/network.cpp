#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto result = whichwire::read_network(whichwire::fuzz::text_of_bytes(data, size), "fuzz.json");
  whichwire::fuzz::insist_on(result.network.has_value(), result.mistakes);
  return 0;
}
