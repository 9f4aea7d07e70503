// Files that cannot be read, and where results and messages go.
#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>

#include "running.hpp"

using namespace whichwire::test;

namespace {

constexpr const char* car = "topologies/compact-car.json";

void refused_with(const std::string& command, const std::string& message) {
  CAPTURE(command);
  const Run refused = run(command);
  CHECK(refused.status == 2);
  CHECK(refused.out == "");
  CHECK(refused.err == "whichwire: " + message + "\n");
}

}  // namespace

TEST_CASE("a file that is not there, is a directory or may not be read is refused with its name and the reason") {
  refused_with("whichwire locate nowhere.json scan.json", "nowhere.json: no such file");
  refused_with("whichwire locate topologies scan.json", "topologies: is a directory, not a file");
  refused_with(std::string("whichwire locate ") + car + " nowhere.txt", "nowhere.txt: no such file");
  refused_with(std::string("whichwire predict ") + car + " --rates nowhere.csv", "nowhere.csv: no such file");
  refused_with("whichwire check a.json --network nowhere.json", "nowhere.json: no such file");
  if (geteuid() != 0) {
    const std::string secret = scratch() + "/secret";
    write_text(secret, "{}");
    std::filesystem::permissions(secret, std::filesystem::perms::none);
    refused_with("whichwire locate " + secret, secret + ": cannot be opened: Permission denied");
  }
}

TEST_CASE("a file that does not end is refused, not read for ever") {
  refused_with("whichwire locate /dev/zero", "/dev/zero: larger than 256 MiB");
}

TEST_CASE("a result that cannot be written is a failure with status 3") {
  const Run full = run("whichwire codes U0100 >/dev/full");
  CHECK(full.status == 3);
  CHECK(full.err == "whichwire: cannot write the result: No space left on device\n");
}

TEST_CASE("a scan can be predicted into a file that cannot be written: refused") {
  const Run refused = run(std::string("whichwire predict ") + car + " --scan-out /no/such/folder/scan.json");
  CHECK(refused.status == 2);
  CHECK(refused.err == "whichwire: /no/such/folder/scan.json: cannot be written\n");
}

TEST_CASE("colour appears on a terminal, never in a pipe and never with NO_COLOR") {
  const std::string bold = "\x1b[1m";
  const std::string in_terminal = "script -qec 'whichwire codes U0100' /dev/null";
  CHECK(run(in_terminal).out.find(bold) != std::string::npos);
  CHECK(run("NO_COLOR=1 " + in_terminal).out.find('\x1b') == std::string::npos);
  CHECK(run("whichwire codes U0100").out.find('\x1b') == std::string::npos);
}

TEST_CASE("a narrow terminal gets short lines") {
  const Run narrow = run("script -qec 'stty cols 40; whichwire codes U0100' /dev/null");
  CHECK(narrow.status == 0);
  std::size_t width = 0;
  std::size_t widest = 0;
  for (char byte : narrow.out) {
    width = byte == '\n' || byte == '\r' ? 0 : width + 1;
    widest = std::max(widest, width);
  }
  CHECK(widest > 25);
  CHECK(widest <= 48);  // the heading's bold marks take eight bytes and no column
}

TEST_CASE("at a terminal without a scan the program says how to give one instead of waiting") {
  const Run asked = run(std::string("script -qec 'whichwire locate ") + car + "' /dev/null");
  CHECK(asked.status == 2);
  CHECK(asked.out.find("whichwire: no scan: give a file, or `-` to paste one here") != std::string::npos);
}
