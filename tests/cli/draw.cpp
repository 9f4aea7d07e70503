#include <doctest/doctest.h>

#include <filesystem>

#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string draw_car = "whichwire draw topologies/compact-car.json ";

std::size_t files_in_scratch() {
  std::size_t count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(scratch())) count += entry.is_regular_file() ? 1 : 0;
  return count;
}

}  // namespace

TEST_CASE("draw writes SVG to standard output, with --output the same into a file") {
  const Run shown = run(draw_car);
  CHECK(shown.status == 0);
  CHECK(shown.err == "");
  CHECK(shown.out.starts_with("<?xml "));
  CHECK(shown.out.ends_with("</svg>\n"));
  const std::string file = scratch() + "/car.svg";
  const Run written = run(draw_car + "--output " + file);
  CHECK(written.status == 0);
  CHECK(written.out == "");
  CHECK(read_text(file) == shown.out);
}

TEST_CASE("draw takes a scan from a file or from standard input") {
  const std::string scan = read_text(WHICHWIRE_SOURCE_DIR "/samples/01-one-silent/scan.txt");
  const Run from_file = run(draw_car + "--scan samples/01-one-silent/scan.txt");
  CHECK(from_file.status == 0);
  CHECK(from_file.out.find("Silent: ECM.") != std::string::npos);
  CHECK(run(draw_car + "--scan -", scan).out == from_file.out);
}

TEST_CASE("draw on paper is as wide as a sheet, in brief it names the modules of which nothing is said") {
  const std::string van = "whichwire draw topologies/van-high.json --scan samples/16-camera-silent/scan.txt ";
  const Run paper = run(van + "--paper"), brief = run(van + "--paper --brief");
  CHECK(paper.out.find("viewBox=\"0 0 960 ") != std::string::npos);
  CHECK(paper.out.find("data-part=\"module BCM\"") != std::string::npos);
  CHECK(brief.out.find("data-part=\"module FCM\"") != std::string::npos);
  CHECK(brief.out.find("data-part=\"module BCM\"") == std::string::npos);
  CHECK(brief.out.find("answers: BCM, IPC") != std::string::npos);
}

TEST_CASE("a picture laid out for sheets of A4 asks the printer for such, another takes what there is") {
  const std::string wish = "@page { size: A4; }";
  CHECK(run(draw_car).out.find(wish) == std::string::npos);
  CHECK(run(draw_car + "--paper").out.find(wish) != std::string::npos);
  const std::string both = "whichwire compare topologies/van-base.json topologies/van-high.json --svg ";
  CHECK(run(both).out.find(wish) == std::string::npos);
  CHECK(run(both + "--paper").out.find(wish) != std::string::npos);
}

TEST_CASE("what is marked takes a scan: --brief alone is refused") {
  const Run refused = run(draw_car + "--brief");
  CHECK(refused.status == 2);
  CHECK(refused.out == "");
  CHECK(refused.err.find("--scan") != std::string::npos);
}

TEST_CASE("a network or scan that is refused gives no picture and leaves the file as it was") {
  const std::string file = scratch() + "/kept.svg";
  write_text(file, "old");
  const Run no_scan = run(draw_car + "--scan nothing.txt --output " + file);
  CHECK(no_scan.status == 2);
  CHECK(no_scan.out == "");
  CHECK(no_scan.err == "whichwire: nothing.txt: no such file\n");
  CHECK(run("whichwire draw nothing.json --output " + file).status == 2);
  CHECK(read_text(file) == "old");
}

TEST_CASE("a place that cannot be written to is said so, and nothing is left behind") {
  const std::string nowhere = scratch() + "/none/car.svg";
  const Run refused = run(draw_car + "--output " + nowhere);
  CHECK(refused.status == 2);
  CHECK(refused.err == "whichwire: " + nowhere + ": cannot be written: No such file or directory\n");
  const Run folder = run(draw_car + "--output " + scratch());
  CHECK(folder.status == 2);
  const std::size_t before = files_in_scratch();
  CHECK(run("(ulimit -f 2; trap '' XFSZ; " + draw_car + "--output " + scratch() + "/cut.svg)").status == 2);
  CHECK(!std::filesystem::exists(scratch() + "/cut.svg"));
  CHECK(files_in_scratch() == before);
}

TEST_CASE("a device is written to, not replaced") {
  CHECK(run(draw_car + "--output /dev/null").status == 0);
  CHECK(!std::filesystem::is_regular_file("/dev/null"));
}
