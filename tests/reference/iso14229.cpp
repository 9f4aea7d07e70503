// The trouble-code status byte. Source: ISO 14229-1 as five public sources give its bits; typical bytes from the same.
#include <doctest/doctest.h>

#include <whichwire/code.hpp>

#include "scan/code_tables.hpp"

using namespace whichwire;

TEST_CASE("the bits of the status byte stand in the order of ISO 14229-1") {
  const char* names[] = {"testFailed",
                         "testFailedThisOperationCycle",
                         "pendingDTC",
                         "confirmedDTC",
                         "testNotCompletedSinceLastClear",
                         "testFailedSinceLastClear",
                         "testNotCompletedThisOperationCycle",
                         "warningIndicatorRequested"};
  for (std::size_t bit = 0; bit < 8; ++bit) {
    CHECK(status_bits()[bit].name == names[bit]);
    CHECK(text_of_status(static_cast<std::uint8_t>(1U << bit)) == status_bits()[bit].brief);
  }
}

TEST_CASE("typical status bytes mean what public descriptions of ISO 14229-1 say") {
  CHECK(state_of_status(0x50) == CodeState::not_tested);  // never tested
  CHECK(state_of_status(0x2F) == CodeState::current);     // failing and confirmed
  CHECK(state_of_status(0x2E) == CodeState::history);     // failed earlier, not now
  CHECK(state_of_status(0x28) == CodeState::history);     // stored only
  CHECK(state_of_status(0x08) == CodeState::history);     // stored, module without bit 5
  CHECK(state_of_status(0x04) == CodeState::pending);
  CHECK(state_of_status(0x51) == CodeState::current);
  CHECK(state_of_status(0x40) == CodeState::not_tested);
  CHECK(state_of_status(0x68) == CodeState::not_tested);
}

TEST_CASE("a byte that says tested and passing is no verdict on a stored code") {
  CHECK(state_of_status(0x00) == CodeState::not_tested);
  CHECK(state_of_status(0x80) == CodeState::not_tested);
}
