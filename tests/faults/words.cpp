// Faults in the words of the command line, printed and read back.
#include <doctest/doctest.h>

#include <filesystem>
#include <whichwire/fault.hpp>

#include "every_part.hpp"
#include "round_trip.hpp"

using namespace whichwire;

namespace {

std::string error_of(const std::string& words) {
  const FaultResult read = parse_fault(test::network_with_every_part(), words);
  CHECK_FALSE(read.fault.has_value());
  return read.error;
}

Fault read(const Network& network, const std::string& words) {
  const FaultResult result = parse_fault(network, words);
  INFO(words, ": ", result.error);
  REQUIRE(result.fault.has_value());
  return *result.fault;
}

}  // namespace

TEST_CASE("every fault is read back from its own words") { test::check_round_trip(test::network_with_every_part()); }

TEST_CASE("every fault is read back from its own words even where ids clash") {
  test::check_round_trip(test::network_with_clashing_ids());
}

TEST_CASE("the words are those of the findings") {
  const Network network = test::network_with_every_part();
  for (const char* text : {"open DRV-2", "open DRV-2 high", "short DRV-2 high ground", "short DRV-2 other-line",
                           "dead ECM", "open ECM/A-27", "short ECM/5V-1 ground", "open F11", "holds ECM DRV",
                           "not-forwarding GWM", "missing ECM DRV", "open DLC/6", "open DRV-2 low comes-and-goes"}) {
    CHECK(text_of(network, read(network, text)) == text);
  }
}

TEST_CASE("case, spacing and words that add nothing do not matter") {
  const Network network = test::network_with_every_part();
  CHECK(read(network, "  SHORT\tdrv-2 high to ground ") == read(network, "short DRV-2 high ground"));
  CHECK(read(network, "open DRV-2 both") == read(network, "open DRV-2"));
  CHECK(read(network, "open segment DRV-2 high DRV") == read(network, "open DRV-2 high"));
}

TEST_CASE("words that fit two parts are refused, with words that tell them apart") {
  const FaultResult result = parse_fault(test::network_with_clashing_ids(), "open 4");
  CHECK_FALSE(result.fault.has_value());
  CHECK(result.error == "this can mean 'open feed 4', 'open ground 4', 'open segment 4 A', 'open segment 4 B'");
}

TEST_CASE("a word that is not known is answered with the one that was probably meant") {
  CHECK(error_of("opne DRV-2") == "this network has no fault 'opne', did you mean 'open'?");
  CHECK(error_of("open DRV-22") == "there is no 'DRV-22' that can be 'open', did you mean 'DRV-2'?");
  CHECK(error_of("open DRV-2 left") == "of this part there are 'open DRV-2 high', 'open DRV-2 low', 'open DRV-2'");
  CHECK(error_of("open") == "'open' of what? Name the part, as in 'open GWM/feed'");
  CHECK(error_of("") == "a fault is missing, as in 'open DRV-2 high' or 'dead ECM'");
  CHECK(error_of("holds ECM") == "of this part there are 'holds ECM DRV'");
}

TEST_CASE("control characters in the words of a fault are never repeated raw") {
  CHECK(error_of("open \x1b[31m").find('\x1b') == std::string::npos);
  CHECK(error_of("\x1b[31m").find('\x1b') == std::string::npos);
}
