// One scan in the terms of two networks. A function that only one of them has is no mistake of the scan: where it is
// refused it is read again with the other's functions added. A function that the other calls otherwise is translated.
// Tests: tests/compare/fit.cpp.
#include <whichwire/compare.hpp>

#include "compare/matching.hpp"

namespace whichwire {
namespace {

Network with_functions_of(const Network& other, Network network) {
  for (const Function& function : other.functions) {
    if (index_of(network.functions, function.id) == nowhere) network.functions.push_back({function.id, "", {}, {}});
  }
  return network;
}

/// `map`: by function of `other`, the one of `network`.
void translate(Scan& scan, const Network& network, const Network& other, const Map& map) {
  for (FunctionSeen& seen : scan.functions) {
    if (index_of(network.functions, seen.function) != nowhere) continue;
    const std::size_t of_other = index_of(other.functions, seen.function);
    const std::size_t here = of_other == nowhere ? nowhere : map[of_other];
    if (here != nowhere) seen.function = network.functions[here].id;
  }
}

ScanResult read_for(std::string_view text, const std::string& name, const Network& network, const Network& other) {
  ScanResult plain = read_any_scan(text, name, network);
  return plain.scan ? plain : read_any_scan(text, name, with_functions_of(other, network));
}

}  // namespace

ScanOfBothResult read_scan_of_both(std::string_view text, const std::string& name, const Network& a, const Network& b) {
  ScanResult in_a = read_for(text, name, a, b);
  ScanResult in_b = read_for(text, name, b, a);
  if (!in_a.scan || !in_b.scan) return {std::nullopt, in_a.scan ? in_b.mistakes : in_a.mistakes};
  const Matching matching = match(a, b);
  translate(*in_a.scan, a, b, inverse(matching.functions, b.functions.size()));
  translate(*in_b.scan, b, a, matching.functions);
  return {ScanOfBoth{std::move(*in_a.scan), std::move(*in_b.scan)}, {}};
}

}  // namespace whichwire
