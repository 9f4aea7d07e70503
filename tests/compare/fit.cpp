// How well a network fits a scan, against plain enumeration of every set of a few faults; and the verdict of samples
// whose story says which trim is right.
#include "compare/fit.hpp"

#include <cmath>
#include <whichwire/expected_scan.hpp>

#include "compare/networks.hpp"
#include "compare/numbers.hpp"
#include "differential/plain_locate.hpp"
#include "differential/random_network.hpp"
#include "effort.hpp"

using namespace whichwire;
using test::Dice;

namespace {

/// log P(scan | network) by enumeration.
double plain_log_probability(const Network& network, const std::vector<Fault>& faults, const Scan& scan) {
  const Effects effects(network);
  const auto evidence = evidence_of(effects, scan).observations;
  double all = test::plain_locate(network, faults, evidence, {scan.key, scan.tool_has_own_battery}).log_total;
  for (const Fault& fault : faults) all -= std::log1p(fault.odds);
  return all;
}

ScanOfBoth scan_of(const std::string& sample, const Network& a, const Network& b) {
  const std::string path = WHICHWIRE_SOURCE_DIR "/samples/" + sample;
  const std::string text = test::read_text(path);
  const auto read = read_scan_of_both(text, sample, a, b);
  REQUIRE(read.scan.has_value());
  return *read.scan;
}

}  // namespace

TEST_CASE("how well a network fits a scan is the sum over all sets of faults, on 100 random networks") {
  std::size_t with_silence = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Network network = test::random_network(dice, {5, 3});
    auto faults = faults_of(network);
    // Present ones only: of those that come and go the plain sum knows more than a search may leave out.
    std::erase_if(faults, [](const Fault& fault) { return fault.comes_and_goes; });
    dice.shuffle(faults);
    faults.resize(std::min<std::size_t>(faults.size(), 8));
    const Effects effects(network);
    const std::vector<Fault> present = {dice.one_of(faults)};
    const Scan scan = expected_scan(effects, present).scan;
    for (const ModuleSeen& seen : scan.modules) with_silence += seen.answer == Answer::no ? 1 : 0;
    const Fits fits = fits_of({effects, faults, scan}, {effects, faults, scan});
    const double plain = plain_log_probability(network, faults, scan);
    CHECK(fits.a.low <= plain + 1e-9);
    CHECK(fits.a.high >= plain - 1e-9);
    CHECK(fits.a.high - fits.a.low < 1.1e-2);
    CHECK(fits.strength == Fits::Strength::none);
  }
  CHECK(with_silence > 30);
}

TEST_CASE("a module that answers and that the network does not have counts against it, one that is silent does not") {
  const Network network = test::shipped("template-one-bus");
  const Effects effects(network);
  const auto faults = faults_of(network);
  const Scan plain = expected_scan(effects, {}).scan;
  Scan stranger = plain, silent = plain;
  stranger.modules.push_back({"STRANGER", Answer::yes, {}});
  silent.modules.push_back({"STRANGER", Answer::no, {}});
  const Fits fits = fits_of({effects, faults, stranger}, {effects, faults, silent});
  CHECK(fits.b.low - fits.a.low == doctest::Approx(std::log(0.999 / 0.001)));
  CHECK(fits.a.strangers == std::vector<std::string>{"STRANGER"});
  CHECK(fits.b.strangers.empty());
  CHECK(fits.strength == Fits::Strength::very_strong);
  CHECK(fits.for_b);
}

TEST_CASE("the steps of strength are the published ones") {
  CHECK(compare_number("positive") == 3);
  CHECK(compare_number("strong") == 20);
  CHECK(compare_number("very-strong") == 150);
}

TEST_CASE("the trim that a sample's story calls right is the one that fits" * doctest::skip(test::only_few())) {
  const Network base = test::shipped("van-base"), high = test::shipped("van-high");
  struct Sample {
    const char* scan;
    bool is_high;
  };
  for (const Sample& sample :
       {Sample{"14-wrong-trim-base/scan.txt", true}, Sample{"17-wrong-trim-high/scan.json", false},
        Sample{"16-camera-silent/scan.txt", true}, Sample{"19-assist-bus-shorted/scan.json", true}}) {
    CAPTURE(sample.scan);
    const Fits fits = *compare(Effects(base), Effects(high), scan_of(sample.scan, base, high)).fits;
    CHECK(fits.for_b == sample.is_high);
    CHECK(fits.strength == Fits::Strength::very_strong);
  }
}

TEST_CASE("which network stands first makes no difference to how well each fits") {
  const Network base = test::shipped("van-base"), high = test::shipped("van-high");
  const std::string sample = "16-camera-silent/scan.txt";
  const Fits fits = *compare(Effects(base), Effects(high), scan_of(sample, base, high)).fits;
  const Fits turned = *compare(Effects(high), Effects(base), scan_of(sample, high, base)).fits;
  CHECK(turned.for_b != fits.for_b);
  CHECK(turned.a.low == doctest::Approx(fits.b.low));
  CHECK(turned.b.low == doctest::Approx(fits.a.low));
  CHECK(fits.a.codes_unknown == std::vector<std::string>{"U1614", "U023A-87", "U023A-87"});
  CHECK(fits.b.codes_unknown.empty());
}

TEST_CASE("a function that only one network has is no mistake of the scan, and one of another name is the same") {
  const Network base = test::shipped("van-base"), high = test::shipped("van-high");
  const std::string text =
      R"({"format": "whichwire.scan.v1", "modules": [{"module": "ECM", "answer": "yes"}], "functions": [)"
      R"({"function": "radio", "works": false}, {"function": "lane-keeping", "works": true}]})";
  const auto read = read_scan_of_both(text, "scan", base, high);
  REQUIRE(read.scan.has_value());
  CHECK(read.scan->in_a.functions.front().function == "radio");
  CHECK(read.scan->in_b.functions.front().function == "sound");
  CHECK(read.scan->in_b.functions.back().function == "lane-keeping");
  const auto wrong = read_scan_of_both(R"({"format": "whichwire.scan.v1", "modules": [], "functions": [)"
                                       R"({"function": "flying", "works": true}]})",
                                       "scan", base, high);
  CHECK_FALSE(wrong.scan.has_value());
  REQUIRE_FALSE(wrong.mistakes.empty());
  CHECK(wrong.mistakes.front().message.find("no function `flying`") != std::string::npos);
}
