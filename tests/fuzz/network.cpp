// What is refused says why; what is accepted is whole: every index leads somewhere, and bases are looked up beside the
// shipped networks, so that extending one is fuzzed too.
#include <whichwire/network.hpp>

#include "whole_network.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace whichwire;
  static const std::string beside_networks = std::string(WHICHWIRE_NETWORK) + ".fuzz";
  const auto result = read_network(fuzz::text_of_bytes(data, size), beside_networks);
  fuzz::insist_on(result.network.has_value(), result.mistakes);
  if (result.network) fuzz::insist_on_whole(*result.network);
  return 0;
}
