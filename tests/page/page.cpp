// The pages of `locate --html` and `case report --html`, read by html5lib without script: they are HTML by its every
// rule, they say what the text says, and the picture in them marks what the findings name.
#include <doctest/doctest.h>

#include <algorithm>
#include <iterator>
#include <vector>

#include "effort.hpp"
#include "judging.hpp"
#include "marked.hpp"
#include "shipped.hpp"

using namespace whichwire;
using namespace whichwire::test;
using nlohmann::json;

namespace {

/// One for each shipped network.
const std::vector<std::string> samples = {"05-shared-fuse",     "10-shared-ground-two-buses", "16-camera-silent",
                                          "26-comes-and-goes",  "28-transfer-case-silent",    "33-ring-broken",
                                          "46-telematics-link", "49-template-one-bus",        "50-template-gateway",
                                          "51-template-truck"};

/// The sample's command with other options.
std::string command_of(const std::string& sample, const std::string& options) {
  std::string words = read_text(WHICHWIRE_SOURCE_DIR "/samples/" + sample + "/command");
  words.erase(words.find_last_not_of('\n') + 1);
  return words + options;
}

std::string network_of(const std::string& sample) {
  const std::string words = command_of(sample, "");
  const std::size_t begin = words.find("topologies/") + 11;
  return words.substr(begin, words.find(".json") - begin);
}

std::string scan_of(const std::string& sample) {
  const std::string words = command_of(sample, "");
  return words.substr(words.find("samples/"));
}

void check_golden(const std::string& name, const std::string& page) {
  const std::string bare = without_style_and_script(page);
  CHECK(bare == golden(WHICHWIRE_SOURCE_DIR "/tests/page/golden/" + name + ".html", bare));
}

/// Each of the first checks is a step with its cautions at it, or before all steps where they belong to every one.
void check_steps(const json& page, const json& findings) {
  const std::size_t count = std::min<std::size_t>(5, findings["checks"].size());
  REQUIRE(page["steps"].size() == count);
  const std::vector<json> first(findings["checks"].begin(),
                                std::next(findings["checks"].begin(), std::ssize(page["steps"])));
  for (std::size_t i = 0; i < count; ++i) {
    const json &step = page["steps"][i], &check = findings["checks"][i];
    CHECK(step["says"] == with_single_blanks(check["measure"]));
    for (const json& caution : check["cautions"]) {
      CAPTURE(caution);
      const bool of_all = std::ranges::all_of(first, [&](const json& one) { return has(one["cautions"], caution); });
      CHECK(has(step["cautions"], caution) != of_all);
      CHECK(says(page, caution));
    }
    for (const json& expect : check["expect"])
      CHECK(step["text"].get<std::string>().find(with_single_blanks(expect["if"])) != std::string::npos);
  }
}

const std::string case_page = "whichwire case report tests/page/whole-job.jsonl --html";

}  // namespace

TEST_CASE("no shipped network is without an expected page") {
  std::vector<std::string> with_page;
  for (const std::string& sample : samples) with_page.push_back(network_of(sample));
  std::ranges::sort(with_page);
  CHECK(with_page == shipped_names());
}

TEST_CASE("every shipped network gives its expected page, which is HTML and marks what the findings name") {
  const std::vector<std::string> some = some_of(samples);
  std::vector<std::string> pages;
  for (const std::string& sample : some) {
    CAPTURE(sample);
    const Run made = run(command_of(sample, " --html"));
    CHECK(made.status == 0);
    CHECK(made.err == "");
    pages.push_back(made.out);
    check_golden(sample, made.out);
  }
  const std::vector<json> read = read_pages(pages);
  for (std::size_t i = 0; i < some.size(); ++i) {
    CAPTURE(some[i]);
    CHECK(read[i]["complaints"] == json::array());
    const json findings = json::parse(run(command_of(some[i], " --json")).out);
    const Network network = shipped(network_of(some[i]));
    const std::string scan = read_text(WHICHWIRE_SOURCE_DIR "/" + scan_of(some[i]));
    const Scan seen = *read_any_scan(scan, "scan", network).scan;
    check_marks(read[i]["parts"], findings, network, seen);
    if (!read[i]["brief"].empty()) check_marks(read[i]["brief"], findings, network, seen);
    check_steps(read[i], findings);
    CHECK(says(read[i], findings["verdict"]["headline"]));
    CHECK(read[i]["first"][0].get<std::string>().starts_with("Verdict "));
  }
}

TEST_CASE("every module, bus and segment is in the picture of the page") {
  const Network network = shipped("compact-car");
  const json page = read_pages({run(command_of("05-shared-fuse", " --html")).out})[0];
  for (const Module& module : network.modules) CHECK(page["parts"].contains("module " + module.id));
  for (const Bus& bus : network.buses) {
    CHECK(page["parts"].contains("bus " + bus.id));
    for (const Segment& segment : bus.segments) CHECK(page["parts"].contains("segment " + segment.id));
  }
}

TEST_CASE("the page says what the text says") {
  const json page = read_pages({run(command_of("01-one-silent", " --html")).out})[0];
  CHECK(words_missing(page, run(command_of("01-one-silent", "")).out) == std::vector<std::string>{});
  // What the text only counts can be unfolded.
  CHECK(says(page, "and 5 more"));
  CHECK(says(page, "ECM itself"));
}

TEST_CASE("a step leads to its place in the picture") {
  const json page = read_pages({run(command_of("05-shared-fuse", " --html")).out})[0];
  const auto place = [&](std::size_t step) {
    return page["places"][page["steps"][step]["leads_to"].get<std::string>()].get<std::string>();
  };
  CHECK(place(0) == "feed F9");
  CHECK(place(1) == "module HVAC");
}

TEST_CASE("words of the trade are explained at the step that uses them") {
  const json page = read_pages({run(command_of("05-shared-fuse", " --html")).out})[0];
  const std::string step = page["steps"][0]["text"];
  CHECK(step.find("Words explained") != std::string::npos);
  CHECK(step.find("a good-looking fuse may be open") != std::string::npos);
  CHECK(step.find("terminator") == std::string::npos);
}

TEST_CASE("a case gives its expected page for a colleague and for the customer" * doctest::skip(only_few())) {
  const std::string colleague = run(case_page).out, customer = run(case_page + " --for customer").out;
  check_golden("case-colleague", colleague);
  check_golden("case-customer", customer);
  const std::vector<json> read = read_pages({colleague, customer});
  for (const json& page : read) CHECK(page["complaints"] == json::array());
  CHECK(read[0]["first"][0].get<std::string>().starts_with("Result with the readings "));
  const json reading = read[0]["rows"];
  const bool found = std::ranges::any_of(reading, [](const json& row) {
    return row.size() > 3 && row[1] == "ECM/A-1" && row[2] == "0.2 V" && row[4] == "lamp dark";
  });
  CHECK(found);
  // The customer's picture shows who is silent, and no probabilities.
  CHECK(has(read[1]["parts"]["module ECM"]["classes"], "silent"));
  CHECK_FALSE(suspected(read[1]["parts"]["module ECM"]));
}

TEST_CASE("a page goes to a file whole or not at all, and not together with another form") {
  const std::string small_page = "whichwire case report tests/casefile/jobs/page.jsonl --html";
  const std::string file = scratch() + "/out.html";
  CHECK(run(small_page + " --output " + file).out == "");
  CHECK(read_text(file) == run(small_page).out);
  const Run both = run("whichwire locate topologies/compact-car.json --json --html", "ECM ok\n");
  CHECK(both.status == 2);
  CHECK(both.out == "");
  const Run nowhere_to = run(small_page + " --output " + scratch() + "/none/out.html");
  CHECK(nowhere_to.status == 2);
  CHECK(nowhere_to.err.find("cannot be written") != std::string::npos);
}
