// A locked gateway: what it says of the modules behind it, and of itself.
#include "scan/van.hpp"

using namespace whichwire;

namespace {

std::optional<Answer> answer_of(const Scan& scan, const char* id) {
  const ModuleSeen* const seen = test::seen(scan, id);
  return seen == nullptr ? std::nullopt : std::optional(seen->answer);
}

}  // namespace

TEST_CASE("a module behind a locked gateway is not reachable, and the gateway is not thereby polled") {
  for (const char* line :
       {"ABS: not reachable, gateway locked", "ABS not reachable - gateway is locked",
        "ABS \u2013 not reachable (locked gateway)", "ABS: gateway locked, not reachable",
        "ABS blocked, central gateway locked", "ABS behind locked gateway", "ABS: no access (GWM locked)",
        "ABS: not reachable because the gateway module is locked", "ABS: no answer, gateway locked",
        "gateway locked, ABS no answer", "ABS: gateway locked", "ABS: security gateway active, not reachable",
        "ABS: not reachable, security gateway locked", "ABS nicht erreichbar, Gateway gesperrt"}) {
    CAPTURE(line);
    const Scan scan = test::pasted(line);
    CHECK(answer_of(scan, "ABS") == Answer::not_reachable);
    CHECK(answer_of(scan, "GWM") == std::nullopt);
  }
}

TEST_CASE("a locked gateway may stand before the modules that it keeps from being reached") {
  for (const char* text : {"Gateway locked: ABS, TCM", "Gateway locked:\nABS\nTCM", "Locked gateway: ABS and TCM"}) {
    CAPTURE(text);
    const Scan scan = test::pasted(text);
    CHECK(answer_of(scan, "ABS") == Answer::not_reachable);
    CHECK(answer_of(scan, "TCM") == Answer::not_reachable);
    CHECK(answer_of(scan, "GWM") == std::nullopt);
  }
}

TEST_CASE("a gateway that refuses in a line or column of its own is alive") {
  CHECK(answer_of(test::pasted("Gateway: locked"), "GWM") == Answer::refused);
  CHECK(answer_of(test::pasted("GWM   locked"), "GWM") == Answer::refused);
  const Scan two = test::pasted("ECM  no reply    GWM  locked");
  CHECK(answer_of(two, "GWM") == Answer::refused);
  CHECK(answer_of(two, "ECM") == Answer::no);
  const Scan both = test::pasted("ECM ok, GWM locked");
  CHECK(answer_of(both, "GWM") == Answer::refused);
  CHECK(answer_of(both, "ECM") == Answer::yes);
}

TEST_CASE("another module that is locked refuses") {
  CHECK(answer_of(test::pasted("SRS locked"), "SRS") == Answer::refused);
  CHECK(answer_of(test::pasted("SRS: security access, locked"), "SRS") == Answer::refused);
}

TEST_CASE("not reachable without a word of a gateway gives way to a plain no answer") {
  CHECK(answer_of(test::pasted("ECM: not reachable"), "ECM") == Answer::not_reachable);
  CHECK(answer_of(test::pasted("ECM: not reachable, no answer after 3 tries"), "ECM") == Answer::no);
  CHECK(answer_of(test::pasted("ECM: no answer, behind a locked gateway"), "ECM") == Answer::not_reachable);
}
