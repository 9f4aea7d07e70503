#include <doctest/doctest.h>

#include <sstream>

#include "example.hpp"

using namespace whichwire;

namespace {

std::size_t place(const std::string& page, const std::string& words) {
  const std::size_t at = page.find(words);
  CAPTURE(words);
  REQUIRE(at != std::string::npos);
  return at;
}

}  // namespace

TEST_CASE("the page says what was read, doubts, verdict, why, rivals and checks, in this order") {
  const example::Page example;
  const std::string page = text_of(example.findings());
  std::size_t last = 0;
  for (const char* words : {"Hollin Moor 2018, base",
                            "What was read",
                            "4 answering: GWM, TCM, ABS, BCM",
                            "1 silent: ECM",
                            "not fitted, but always fitted, so silent: SRS",
                            "not in the scan: HVC, WIP",
                            "not in this network: Trailer unit",
                            "line 2: Bluetooth kit v5",
                            "What makes it doubtful",
                            "11.4 V",
                            "Verdict",
                            "One silent module: ECM (90 %).",
                            "Why",
                            "feed wire at ECM pin A-27",
                            "It explains:",
                            "+ ECM does not answer",
                            "It does not explain:",
                            "- SRS does not answer",
                            "Rivals",
                            "6 %  fuse F4",
                            "Check first",
                            "1. Unplug ECM",
                            "pin A-27, wire VT",
                            "key run; about 6 min",
                            "good (12 to 12.8 V): this feed carries a load",
                            "Do not measure",
                            "! SRS: part of"}) {
    const std::size_t at = place(page, words);
    CHECK(at >= last);
    last = at;
  }
}

TEST_CASE("a line that was understood is shown only when every line is asked for") {
  const example::Page example;
  CHECK(text_of(example.findings()).find("ECM no response") == std::string::npos);
  Look look;
  look.every_line = true;
  const std::string page = text_of(example.findings(), look);
  place(page, "line 1: ECM no response\n      = ECM: no\n");
  place(page, "line 2: Bluetooth kit v5\n      = not understood\n");
}

TEST_CASE("no line of the page is wider than the look allows") {
  const example::Page example;
  for (std::size_t width : {80U, 60U, 40U}) {
    Look look;
    look.width = width;
    std::istringstream page(text_of(example.findings(), look));
    for (std::string line; std::getline(page, line);) {
      CAPTURE(line);
      CHECK(line.size() <= width);
    }
  }
}

TEST_CASE("a scan alone condemns no module and nothing is to be replaced") {
  const example::Page example;
  const std::string page = text_of(example.findings());
  place(page, "Cannot condemn ECM yet");
  CHECK(page.find("eplace") == std::string::npos);
}

TEST_CASE("a search that was cut short says so, one with its certificate does not") {
  example::Page example;
  CHECK(text_of(example.findings()).find("cut short") == std::string::npos);
  example.ranking.outside = 0.3;
  CHECK(place(text_of(example.findings()), "cut short: up to 30 % may lie") > 0);
}

TEST_CASE("evidence against the explanation is shown as such") {
  example::Page example;
  example.ranking.explanations.front().contradicts = {2};
  const std::string page = text_of(example.findings());
  CHECK(place(page, "It speaks against it:\n    - TCM answers\n") > place(page, "It does not explain:"));
}

TEST_CASE("the explanation shown is the likeliest of the verdict's class") {
  example::Page example;
  example.verdict = {VerdictClass::supply, {"F4"}, 0.5, "A shared feed: F4", 0.5};
  const std::string page = text_of(example.findings());
  place(page, "Likeliest (6 %): fuse F4 open or blown");
  place(page, "It speaks against it:\n    - TCM answers\n");
  CHECK(place(page, "90 %  feed wire at ECM") > place(page, "Rivals"));
  CHECK(page.find("Cannot condemn") == std::string::npos);
}

TEST_CASE("a caution stands at its check, before the readings; one of every check stands once, before them all") {
  example::Page example;
  example.plan.checks.push_back(example.plan.checks.front());
  example.plan.checks[0].cautions = {"Hot parts.", "Local rules first."};
  example.plan.checks[1].cautions = {"Local rules first."};
  const std::string page = text_of(example.findings());
  CHECK(page.find("Local rules first.") == page.rfind("Local rules first."));
  CHECK(place(page, "! Local rules first.") < place(page, "1. Unplug ECM"));
  CHECK(place(page, "! Hot parts.") > place(page, "1. Unplug ECM"));
  CHECK(place(page, "! Hot parts.") < place(page, "= good"));
}

TEST_CASE("no more checks are shown than asked for") {
  example::Page example;
  example.plan.checks.assign(9, example.plan.checks.front());
  const std::string page = text_of(example.findings());
  place(page, "  5. Unplug ECM");
  CHECK(page.find("  6. Unplug ECM") == std::string::npos);
}

TEST_CASE("a scan that nothing explains still gives a page") {
  example::Page example;
  example.ranking.explanations.clear();
  example.plan = {};
  example.verdict = {VerdictClass::contradictory, {}, 0, "The evidence contradicts itself", 0};
  const std::string page = text_of(example.findings());
  place(page, "The evidence contradicts itself");
  CHECK(page.find("Check first") == std::string::npos);
  place(page, "service information and local rules come first");
}
