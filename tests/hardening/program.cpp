// The program itself under what can befall it: signals while it writes a case, a pipe that nobody reads, files that
// cannot be read, little memory. The exit status is as documented, and nothing acknowledged is lost.
#include <doctest/doctest.h>
#include <signal.h>

#include <filesystem>
#include <random>
#include <whichwire/casefile.hpp>

#include "effort.hpp"
#include "running.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool sanitized = true;
#elif defined(__has_feature)
constexpr bool sanitized = __has_feature(address_sanitizer);
#else
constexpr bool sanitized = false;
#endif

constexpr const char* locate_one = "whichwire locate topologies/template-one-bus.json '";

std::string scan_file() {
  const std::string path = scratch() + "/one.txt";
  write_text(path, "ECM silent\nTCM ok U0100-87 active\nABS ok U0100-87 active\n");
  return path;
}

std::string new_case() {
  const std::string path = scratch() + "/job.jsonl";
  std::filesystem::remove(path);
  REQUIRE(run("whichwire case start '" + path + "' topologies/template-one-bus.json").status == 0);
  return path;
}

std::size_t entries_in(const std::string& path) {
  const CaseResult read = load_case(path);
  REQUIRE(read.job.has_value());
  return read.job->entries.size();
}

}  // namespace

TEST_CASE("interrupted or ended at random moments while it writes, the program loses nothing it acknowledged") {
  const std::string path = new_case();
  std::mt19937 random(20260302);
  std::uniform_int_distribution<int> milliseconds(1, 80);
  for (std::uint64_t round = 0; round < share_of(60) + 4; ++round) {
    // Notes one after another, each acknowledged by a line of its own. The signal comes to all of them, which `timeout`
    // makes a group, some time after the first was written: however slow the machine, there is something to lose.
    const std::string note = "whichwire case note \"" + path + "\" once";
    const std::string signal = std::string("(sleep ") + std::to_string(milliseconds(random) / 1000.0) + "; kill -s " +
                               (round % 2 == 0 ? "INT" : "TERM") + " 0) &";
    const Run ended = run("timeout 60 sh -c '" + note + "; " + signal + " while " + note + "; do :; done'");
    std::size_t acknowledged = 0;
    for (std::size_t at = ended.out.find("Entry "); at != std::string::npos; at = ended.out.find("Entry ", at + 1))
      acknowledged = std::stoul(ended.out.substr(at + 6));
    CHECK(acknowledged > 0);
    CHECK(entries_in(path) >= acknowledged);
  }
  CHECK(run("whichwire check '" + path + "'").status == 0);
}

TEST_CASE("a picture that is interrupted leaves the one that was there") {
  const std::string picture = scratch() + "/car.svg";
  write_text(picture, "as it was");
  for (int round = 0; round < 6; ++round) {
    run("whichwire draw topologies/electric-car.json --output '" + picture + "' & sleep 0.00" + std::to_string(round) +
        "; kill -TERM $!; wait $!");
    const std::string now = read_text(picture);
    const bool whole = now == "as it was" || now.ends_with("</svg>\n");
    CHECK(whole);
  }
}

TEST_CASE("a pipe that nobody reads ends the program by its signal, without a word") {
  const Run piped = run("{ " + std::string(locate_one) + scan_file() + "'; echo $? >'" + scratch() +
                        "/status'; } | true; cat '" + scratch() + "/status'");
  CHECK(piped.err == "");
  const bool as_usual = piped.out == std::to_string(128 + SIGPIPE) + "\n" || piped.out == "0\n";
  CHECK(as_usual);
}

TEST_CASE("an entry stands before its acknowledgement is written, so that a closed pipe loses none") {
  const std::string path = new_case();
  for (int i = 0; i < 5; ++i) run("whichwire case note '" + path + "' 'one more' | true; sleep 0.2");
  CHECK(entries_in(path) == 6);
}

TEST_CASE("a file that breaks off while it is read is refused with its name and the reason") {
  // The memory of a process, read from its start, is a file whose read fails.
  const Run broken = run("whichwire locate /proc/self/mem '" + scan_file() + "'");
  CHECK(broken.status == 2);
  CHECK(broken.err == "whichwire: /proc/self/mem: Input/output error\n");
  CHECK(broken.out == "");
  const Run scan = run("whichwire locate topologies/template-one-bus.json /proc/self/mem");
  CHECK(scan.status == 2);
  CHECK(scan.err == "whichwire: /proc/self/mem: Input/output error\n");
}

TEST_CASE("with little memory the program does its work or says that it cannot, with status 3") {
  if (sanitized) return;  // the sanitizers need terabytes of addresses
  for (const char* arguments : {"'", "' --json"}) {
    const std::string command = std::string(locate_one) + scan_file() + arguments;
    const Run usual = run(command);
    REQUIRE(usual.status == 0);
    std::size_t done = 0, refused = 0;
    for (int kilobytes = 8000; kilobytes <= 24000; kilobytes += 500) {
      CAPTURE(kilobytes);
      const std::string limited = "ulimit -v " + std::to_string(kilobytes) + "; ";
      if (run(limited + "whichwire --version").status != 0) continue;  // not even that
      const Run little = run(limited + command);
      (little.status == 0 ? done : refused) += 1;
      CHECK(little.out == (little.status == 0 ? usual.out : ""));
      CHECK(little.err == (little.status == 0 ? "" : "whichwire: out of memory\n"));
      if (little.status != 0) CHECK(little.status == 3);
    }
    CHECK(done > 0);
    CHECK(refused > 0);
  }
}

TEST_CASE("the same input gives the same bytes") {
  for (const char* arguments : {"'", "' --json", "' --lines"}) {
    const std::string command = std::string(locate_one) + scan_file() + arguments;
    CHECK(run(command).out == run(command).out);
  }
}
