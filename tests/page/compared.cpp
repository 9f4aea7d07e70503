// The picture of two networks side by side: what the comparison names is marked at its part, and nothing else.
#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <set>
#include <whichwire/svg.hpp>

#include "judging.hpp"
#include "shipped.hpp"

using namespace whichwire;
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

TEST_CASE("on paper a network that needs larger sheets makes those of the other as large") {
  const Network car = shipped("compact-car");
  Marks few, many;
  for (std::size_t i = 0; i < 150; ++i)
    many.suspicions.push_back({{Part::Kind::module, 1}, "pin " + std::to_string(i) + " open", 0.01});
  const PictureOptions on_paper{false, true, PictureFit::sheets};
  const Picture usual = picture_of(car, &few, on_paper), large = picture_of(car, &many, on_paper);
  REQUIRE(large.width > usual.width);
  const std::string svg = svg_of({car, &few, usual}, {car, &many, large}, Together::on_sheets);
  CHECK(read_picture(svg)["complaints"] == json::array());
  const double scale = large.width / usual.width;
  CHECK(svg.find("<g class=\"first\" transform=\"scale(" + std::to_string(scale) + ")\">") != std::string::npos);
  const std::string begin = "<g class=\"second\" transform=\"translate(0 ";
  const double down = std::stod(svg.substr(svg.find(begin) + begin.size()));
  CHECK(down == doctest::Approx(std::ceil(usual.height * scale / (large.width * 297 / 210)) * large.width * 297 / 210));
}

TEST_CASE("in brief all that differs is marked, and the modules of buses in which nothing does are named only") {
  json network = json::parse(read_text(path_of_shipped("electric-car")));
  network["modules"]["HUD"]["name"] = "Another display";
  const std::string other = scratch() + "/other.json", pair = "whichwire compare topologies/electric-car.json " + other;
  write_text(other, network.dump());
  const std::string svg = run(pair + " --svg --brief").out;
  const json picture = read_picture(svg), whole = read_picture(run(pair + " --svg").out);
  CHECK(picture["complaints"] == json::array());
  const std::string named = "VCU, ABS, IBB, EPS, SUS, SAS, EPB";
  CHECK(svg.find(">" + named + "<") != std::string::npos);
  for (const std::string side : {"first", "second"}) {
    CHECK(marked_in(picture["sides"][side]) == std::set<std::string>{"module HUD"});
    CHECK(picture["sides"][side].contains("module IPC"));
    CHECK_FALSE(picture["sides"][side].contains("module EPB"));
    CHECK(whole["sides"][side].contains("module EPB"));
  }
  const Run refused = run(pair + " --brief");
  CHECK(refused.status == 2);
  CHECK(refused.err.find("--svg") != std::string::npos);
}
