// What `whichwire draw` writes, read by Python's reader of XML: everything is in it with the right mark, and nothing
// that a file says is taken for anything but text.
#include <doctest/doctest.h>

#include <whichwire/svg.hpp>

#include "building.hpp"
#include "effort.hpp"
#include "judging.hpp"
#include "marked.hpp"
#include "shipped.hpp"

using namespace whichwire;
using namespace whichwire::test;
using nlohmann::json;

namespace {

const std::vector<std::pair<std::string, std::string>> samples = {
    {"compact-car", "01-one-silent/scan.txt"},         {"compact-car", "05-shared-fuse/scan.txt"},
    {"van-high", "16-camera-silent/scan.txt"},         {"tractor", "21-backbone-open/scan.txt"},
    {"ring-saloon", "34-ring-member-unfed/scan.json"}, {"compact-car", "04-own-connector/scan.json"}};

std::string file_of(const std::string& network) { return "topologies/" + network + ".json"; }

/// Without its style, which says nothing of the network.
void check_golden(const std::string& name, std::string svg) {
  const std::size_t begin = svg.find("<style>"), end = svg.find("</style>");
  REQUIRE(end != std::string::npos);
  svg.erase(begin, end + 9 - begin);
  CHECK(svg == golden(WHICHWIRE_SOURCE_DIR "/tests/page/golden/" + name + ".svg", svg));
}

/// A network with the text in every field that has words, hung on one bus. All invented.
Network hostile_network(const std::string& text) {
  Building made;
  made.network.vehicle = {text, text, text, 2010};
  made.network.note = text;
  for (const char* id : {"ECM", "ABS"}) {
    made.the_module(id).name = text;
    made.the_module(id).place = {text, 1.0, {text}};
    made.the_module(id).aliases = {text};
  }
  made.bus("CAN", Protocol::can_hs, 500000);
  made.the_bus("CAN").name = text;
  made.the_bus("CAN").high_colour = text;
  made.the_bus("CAN").low_colour = text;
  made.segment("CAN", "C1", "DLC", "S1");
  made.segment("CAN", "C2", "S1", "ECM");
  made.segment("CAN", "C3", "S1", "ABS");
  made.network.buses[0].segments[0].from_pins = {text, text};
  made.network.points[0].place.where = text;
  made.feed("F1");
  made.network.feeds[0].place.where = text;
  made.ground("G1");
  made.power_pin("ECM", text, "F1");
  made.ground_pin("ECM", text, "G1");
  made.connect("CAN", text, text);
  for (Module& module : made.network.modules) module.id += text;
  for (auto* id : {&made.network.buses[0].id, &made.network.buses[0].segments[0].id, &made.network.points[0].id,
                   &made.network.feeds[0].id, &made.network.grounds[0].id})
    *id += text;
  return made.network;
}

}  // namespace

TEST_CASE("every shipped network gives its expected picture") {
  for (const std::string& name : shipped_names()) {
    CAPTURE(name);
    const Run drawn = run("whichwire draw " + file_of(name));
    CHECK(drawn.status == 0);
    CHECK(drawn.err == "");
    check_golden(name, drawn.out);
  }
  for (const std::string& name : std::vector<std::string>{"compact-car", "electric-car"})
    check_golden(name + "-feeds", run("whichwire draw --feeds " + file_of(name)).out);
}

TEST_CASE("every module, segment, bus, feed and ground is in the picture by its name") {
  for (const std::string& name : shipped_names()) {
    CAPTURE(name);
    const Network network = *load_network(WHICHWIRE_SOURCE_DIR "/" + file_of(name)).network;
    const json picture = read_picture(run("whichwire draw --feeds " + file_of(name)).out);
    CHECK(picture["complaints"] == json::array());
    std::vector<std::string> missing;
    const auto need = [&](const std::string& part) {
      if (!picture["parts"].contains(part)) missing.push_back(part);
    };
    for (const Module& module : network.modules) need("module " + module.id);
    for (const Feed& feed : network.feeds) need("feed " + feed.id);
    for (const Ground& ground : network.grounds) need("ground " + ground.id);
    for (const Bus& bus : network.buses) {
      need("bus " + bus.id);
      for (const Segment& segment : bus.segments) need("segment " + segment.id);
    }
    CHECK(missing == std::vector<std::string>{});
  }
}

TEST_CASE("with a scan silent modules, suspects and checks of the findings have their marks") {
  for (const auto& sample : some_of(samples)) {
    CAPTURE(sample.second);
    const std::string scan = "samples/" + sample.second;
    const Network network = *load_network(WHICHWIRE_SOURCE_DIR "/" + file_of(sample.first)).network;
    const json picture = read_picture(run("whichwire draw " + file_of(sample.first) + " --scan " + scan).out);
    CHECK(picture["complaints"] == json::array());
    const json findings = json::parse(run("whichwire locate --json " + file_of(sample.first) + " " + scan).out);
    check_marks(picture["parts"], findings, network,
                *read_any_scan(read_text(WHICHWIRE_SOURCE_DIR "/" + scan), scan, network).scan);
  }
}

TEST_CASE("no text of a network becomes markup, and no control or turning character stands raw") {
  for (const std::string& text : hostile_bytes()) {
    CAPTURE(text);
    const Network network = hostile_network(text);
    Marks marks;
    marks.headline = text;
    marks.answers = {Answer::no, Answer::yes};
    marks.suspicions = {{{Part::Kind::module, 0}, text, 0.7}, {{Part::Kind::segment, 0, 0}, text, 0.2}};
    marks.probes = {{{Part::Kind::feed, 0}, 1, text}};
    const Picture picture = picture_of(network, &marks, {true});
    const json read = read_picture(svg_of({network, &marks, picture}));
    CHECK(read["complaints"] == json::array());
  }
}

TEST_CASE("a text comes back from the picture as it was") {
  const std::string name = "A<b>&\"c\" 'd'";
  Network network = hostile_network("x");
  network.modules[0].name = name;
  network.modules[0].place.where = "";
  const json read = read_picture(svg_of({network, nullptr, picture_of(network)}));
  const json titles = read["parts"]["module ECMx"]["titles"];
  REQUIRE(titles.size() > 0);
  CHECK(titles[0].get<std::string>().find(name) != std::string::npos);
}
