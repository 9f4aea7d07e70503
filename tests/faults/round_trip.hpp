// Prints every fault of a network in words and reads it back.
#pragma once

#include <doctest/doctest.h>

#include <whichwire/fault.hpp>

namespace whichwire::test {

inline void check_round_trip(const Network& network) {
  for (const Fault& fault : faults_of(network)) {
    const std::string text = text_of(network, fault);
    const FaultResult read = parse_fault(network, text);
    CAPTURE(text);
    CAPTURE(read.error);
    REQUIRE(read.fault.has_value());
    CHECK(*read.fault == fault);
  }
}

}  // namespace whichwire::test
