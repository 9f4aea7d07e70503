#include "render/phrases.hpp"

#include <doctest/doctest.h>

#include "example.hpp"

using namespace whichwire;
using namespace moor;

TEST_CASE("a fault is said with pin, colour and where the wire comes from") {
  const Network network = moor::network();
  CHECK(phrase_of(network, open_part(PartKind::power_pin, ECM, 1)) ==
        "feed wire at ECM pin A-27 (VT, from fuse F4) open");
  CHECK(phrase_of(network, open_part(PartKind::ground_pin, ECM, 0)) ==
        "ground wire at ECM pin A-1 (BN, to ground point G12) open");
  CHECK(phrase_of(network, open_part(PartKind::power_pin, HVC)) == "feed of HVC open");
  CHECK(phrase_of(network, open_part(PartKind::feed, F4)) == "fuse F4 open or blown");
  CHECK(phrase_of(network, open_part(PartKind::ground, G12)) == "ground point G12 open");
}

TEST_CASE("a bus wire is said with its ends and its line") {
  const Network network = moor::network();
  CHECK(phrase_of(network, open_segment(DRV, 1)) == "bus wire DRV-2 of DRV (S310 to C50), both lines open");
  CHECK(phrase_of(network, open_segment(DRV, 3, Lines::low)) ==
        "bus wire DRV-4 of DRV (S311 to ECM), the low line open");
  CHECK(phrase_of(network, open_segment(LIN, 0)) == "bus wire LIN-1 of LIN (BCM to WIP) open");
  Fault shorted = open_segment(DRV, 1, Lines::high);
  shorted.kind = FaultKind::short_circuit;
  shorted.to = ShortTo::ground;
  CHECK(phrase_of(network, shorted) == "bus wire DRV-2 of DRV (S310 to C50), the high line shorted to ground");
}

TEST_CASE("every kind of fault of a vehicle has a phrase of its own that names its part") {
  const Network network = moor::network();
  for (const Fault& fault : faults_of(network)) {
    const std::string phrase = phrase_of(network, fault);
    CAPTURE(text_of(network, fault));
    CHECK(phrase.find("  ") == std::string::npos);
    CHECK(phrase.size() > 8);
    const std::string part = part_of(network, fault);
    const std::string name = part.substr(0, part.find_first_of("/#"));
    CHECK((phrase.find(name) != std::string::npos || name == "DLC"));
    CHECK((phrase.find("now and then") != std::string::npos) == fault.comes_and_goes);
  }
}

TEST_CASE("faults that differ only in the line of one bus wire become one phrase") {
  const Network network = moor::network();
  Explanation explanation;
  explanation.faults = {dead(ECM)};
  explanation.alike = {{open_segment(DRV, 3, Lines::high)}, {open_segment(DRV, 3)}, {open_segment(DRV, 4)}};
  CHECK(render::alternatives_of(network, explanation).each ==
        std::vector<std::string>{"ECM itself does not work",
                                 "bus wire DRV-4 of DRV (S311 to ECM) open: high line or both lines",
                                 "bus wire DRV-5 of DRV (S310 to ABS), both lines open"});
}

TEST_CASE("a wire of a single-wire bus is never said to have a high line, a low line or both") {
  const Network network = moor::network();
  Explanation explanation;
  for (const ShortTo to : {ShortTo::ground, ShortTo::supply}) {
    Fault shorted = open_segment(LIN, 0);
    shorted.kind = FaultKind::short_circuit;
    shorted.to = to;
    (explanation.faults.empty() ? explanation.faults : explanation.alike.emplace_back()) = {shorted};
  }
  CHECK(render::alternatives_of(network, explanation).first ==
        "bus wire LIN-1 of LIN (BCM to WIP) shorted to ground or to supply");
}

TEST_CASE("what is not fitted in all of several sets is said once, beside them") {
  Network network = moor::network();
  const Fault absent{.kind = FaultKind::not_fitted, .part = PartKind::module, .owner = ABS};
  Explanation explanation;
  explanation.faults = {open_segment(DRV, 3, Lines::high), absent};
  explanation.alike = {{open_segment(DRV, 3), absent}};
  const render::Alternatives merged = render::alternatives_of(network, explanation);
  CHECK(merged.each == std::vector<std::string>{"bus wire DRV-4 of DRV (S311 to ECM) open: high line or both lines"});
  CHECK(merged.besides == "this vehicle has no ABS");
  CHECK(merged.first == merged.each.front() + "; and this vehicle has no ABS");
  explanation.alike.push_back({absent});  // of which nothing else would be left
  CHECK(render::alternatives_of(network, explanation).besides.empty());
}

TEST_CASE("several faults at once are joined, none is said plainly") {
  const Network network = moor::network();
  CHECK(render::phrase_of(network, std::vector<Fault>{}) == "no fault");
  CHECK(render::phrase_of(network, std::vector<Fault>{dead(ECM), open_part(PartKind::ground, G31)}) ==
        "ECM itself does not work, together with ground point G31 open");
}

TEST_CASE("what is not fitted is said last, as no fault") {
  const Network network = moor::network();
  Fault absent = dead(HVC), another = dead(WIP);
  absent.kind = another.kind = FaultKind::not_fitted;
  CHECK(render::phrase_of(network, {absent, dead(ECM)}) == "ECM itself does not work; and this vehicle has no HVC");
  CHECK(render::phrase_of(network, {absent, another}) == "this vehicle has no HVC and no WIP");
}
