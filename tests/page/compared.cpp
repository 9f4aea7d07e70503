// The picture of two networks side by side: what the comparison names is marked at its part, and nothing else.
#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <set>

#include "judging.hpp"

using namespace whichwire::test;
using nlohmann::json;

namespace {

const std::string vans = "whichwire compare topologies/van-base.json topologies/van-high.json ";

/// Names in the picture of everything that differs, on the left and on the right, as the comparison says.
struct Expected {
  std::set<std::string> left, right;
};

std::string name_of(const std::string& kind, const std::string& id) {
  if (kind == "connector") return "connector DLC";
  return (kind == "gateway" ? "module" : kind) + " " + id;
}

Expected expected_of(const json& differences) {
  std::map<std::string, std::string> name_in_b;
  for (const json& one : differences)
    if (one["difference"] == "renamed") name_in_b[one["in_a"]] = one["in_b"];
  Expected expected;
  for (const json& one : differences) {
    const std::string kind = one["kind"], part = one["part"], sort = one["difference"];
    if (kind == "function" || kind == "vehicle") continue;
    const std::size_t slash = part.find('/');
    const std::string owner = part.substr(0, slash);
    const bool whole_in_b = sort == "only-in-b" && slash == std::string::npos;
    const std::string there = name_in_b.count(owner) > 0 && !whole_in_b ? name_in_b[owner] : owner;
    if (sort != "only-in-b") expected.left.insert(name_of(kind, owner));
    if (sort != "only-in-a") expected.right.insert(name_of(kind, there));
  }
  return expected;
}

std::set<std::string> marked_in(const json& parts) {
  std::set<std::string> all;
  for (const auto& part : parts.items())
    if (has(part.value()["classes"], "differs")) all.insert(part.key());
  return all;
}

}  // namespace

TEST_CASE("what differs between the van's trims is marked on its side, and nothing else") {
  const std::string svg = run(vans + "--svg").out;
  const json picture = read_picture(svg);
  CHECK(picture["complaints"] == json::array());
  const json found = json::parse(run(vans + "--json").out);
  const Expected expected = expected_of(found["differences"]);
  CHECK(expected.left.size() > 10);
  CHECK(marked_in(picture["sides"]["first"]) == expected.left);
  CHECK(marked_in(picture["sides"]["second"]) == expected.right);
  const std::string title = picture["sides"]["first"]["module SAS"]["titles"][0];
  CHECK(title.find("SCM there") != std::string::npos);
  const std::size_t begin = svg.find("<style>"), end = svg.find("</style>");
  const std::string bare = svg.substr(0, begin) + svg.substr(end + 9);
  CHECK(bare == golden(WHICHWIRE_SOURCE_DIR "/tests/page/golden/compare-vans.svg", bare));
}

TEST_CASE("a network beside itself has no mark") {
  const json picture = read_picture(run("whichwire compare topologies/tractor.json topologies/tractor.json --svg").out);
  CHECK(picture["complaints"] == json::array());
  CHECK(picture["sides"]["first"].size() > 50);
  CHECK(marked_in(picture["sides"]["first"]).empty());
  CHECK(marked_in(picture["sides"]["second"]).empty());
}

TEST_CASE("on paper the second network begins on a sheet of its own, with the same marks") {
  const std::string svg = run(vans + "--svg --paper").out;
  const json picture = read_picture(svg), beside = read_picture(run(vans + "--svg").out);
  CHECK(picture["complaints"] == json::array());
  for (const std::string side : {"first", "second"})
    CHECK(marked_in(picture["sides"][side]) == marked_in(beside["sides"][side]));
  constexpr double sheet = 960.0 * 297 / 210;
  const std::string begin = "transform=\"translate(0 ";
  const double sheets = std::stod(svg.substr(svg.find(begin) + begin.size())) / sheet;
  CHECK(sheets >= 1);
  CHECK(sheets == doctest::Approx(std::round(sheets)));
}
