// `fleet` under what can befall a long run: a disk that fills up, signals at random moments, a reader that is slow.
// Rows that were written are whole and stay; the same words and --resume come to what one run comes to.
#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "effort.hpp"
#include "running.hpp"

using namespace whichwire::test;

namespace {

/// The sample's vans over and over, without the one that is broken.
std::string vans(std::size_t times) {
  std::istringstream lines(read_text(WHICHWIRE_SOURCE_DIR "/samples/fleet/vans.ndjson"));
  std::string once, all;
  for (std::string line; std::getline(lines, line);)
    if (nlohmann::json::accept(line) && line.find("yess") == std::string::npos) once += line + "\n";
  for (std::size_t i = 0; i < times; ++i) all += once;
  return all;
}

struct LongRun {
  explicit LongRun(std::size_t times) {
    write_text(scans, vans(times));
    std::filesystem::remove(rows);
  }

  std::string scans = scratch() + "/vans.ndjson", rows = scratch() + "/rows.ndjson";
  std::string filter = "whichwire fleet topologies '" + scans + "' --as ndjson";
  std::string keeping = filter + " --rows '" + rows + "' --resume";
};

bool whole_rows(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    if (!nlohmann::json::accept(line)) return false;
  return text.empty() || text.back() == '\n';
}

}  // namespace

TEST_CASE("where a file may not grow, at any of its bytes, the run ends with whole rows, and goes on once it may") {
  const LongRun run_of(1);
  write_text(run_of.scans, vans(1).substr(0, vans(1).find("\n{\"format\"", 3000) + 1));  // few, since each run is anew
  const std::string all = run(run_of.filter).out;
  REQUIRE(whole_rows(all));
  for (std::size_t bytes = 0; bytes < all.size(); bytes += all.size() / (share_of(20) + 2) + 1) {
    CAPTURE(bytes);
    std::filesystem::remove(run_of.rows);
    const Run full = run("trap '' XFSZ; { prlimit --fsize=" + std::to_string(bytes) + " " + run_of.keeping +
                         "; echo $?; } 2>&1 | cat");
    CHECK(full.out ==
          "whichwire: " + run_of.rows + ": cannot be written: File too large; with more room, --resume goes on\n3\n");
    const std::string kept = read_text(run_of.rows);
    CHECK(whole_rows(kept));
    CHECK(all.starts_with(kept));
    CHECK(run(run_of.keeping).status == 0);
    CHECK(read_text(run_of.rows) == all);
  }
}

/// Sends the signal once the rows have that many bytes, so that a slow machine is stopped at the same places.
Run stopped_at(const LongRun& run_of, const std::string& signal, std::size_t bytes) {
  const std::string process = scratch() + "/process";
  std::filesystem::remove(process);
  const std::string alive = "kill -0 $(cat '" + process + "') 2>/dev/null";
  const std::string size = "$(stat -c %s '" + run_of.rows + "' 2>/dev/null || echo 0)";
  return run("{ while [ ! -s '" + process + "' ] || { " + alive + " && [ " + size + " -lt " + std::to_string(bytes) +
             " ]; }; do sleep 0.002; done; kill -" + signal + " $(cat '" + process +
             "') 2>/dev/null; } & sh -c 'echo $$ >\"" + process + "\"; exec \"$@\"' sh " + run_of.keeping + "; wait");
}

TEST_CASE("stopped, ended and killed at random moments, a long run comes to the rows of one that was let alone") {
  const LongRun run_of(200);
  const std::string all = run(run_of.filter).out;
  REQUIRE(whole_rows(all));
  std::mt19937 random(20260304);
  std::size_t in_between = 0, before = 0;
  // A run may end before the signal comes; some must not.
  for (std::size_t round = 0; round < share_of(25) + 3 || (in_between < 3 && round < 200); ++round) {
    const std::vector<std::string> signals = {"INT", "TERM", "KILL"};
    stopped_at(run_of, signals[round % 3], std::uniform_int_distribution<std::size_t>(before, all.size() - 1)(random));
    std::string kept = read_text(run_of.rows);
    if (round % 3 == 2) kept.erase(kept.rfind('\n') + 1);  // killed, it may have been within a row
    CHECK(whole_rows(kept));
    REQUIRE(all.starts_with(kept));
    in_between += !kept.empty() && kept.size() < all.size() ? 1 : 0;
    if (kept.size() == all.size()) std::filesystem::remove(run_of.rows);
    before = kept.size() % all.size();
  }
  CHECK(in_between >= 3);
  CHECK(run(run_of.keeping).status == 0);
  CHECK(read_text(run_of.rows) == all);
}

// The first byte shows that the run has begun; nobody reads on, so it waits for its reader when the signals come.
Run signalled(const std::string& filter, const std::string& signals) {
  const std::string pipe = scratch() + "/pipe";
  std::filesystem::remove(pipe);
  return run("mkfifo '" + pipe + "'; " + filter + " >'" + pipe + "' & { dd bs=1 count=1 status=none; sleep 0.2; " +
             signals + "; sleep 0.2; cat; } <'" + pipe + "'; wait $!; echo $? >&2");
}

TEST_CASE("a reader that is slow gets whole rows when the run is asked to stop, once or twice in a moment") {
  const LongRun run_of(200);
  for (const std::string signals : {"kill -TERM $!", "kill -TERM $!; sleep 0.1; kill -TERM $!"}) {
    CAPTURE(signals);
    const Run slow = signalled(run_of.filter, signals);
    CHECK(slow.err.ends_with("\n143\n"));
    CHECK(slow.err.starts_with("whichwire: stopped after "));
    CHECK(slow.out.size() > 60'000);  // what a pipe holds
    CHECK(whole_rows(slow.out));
  }
}

TEST_CASE("asked to stop again after a second, a run that still waits for its reader ends at once") {
  const LongRun run_of(200);
  const Run slow = signalled(run_of.filter, "kill -TERM $!; sleep 1.2; kill -TERM $!");
  CHECK(slow.err.ends_with("143\n"));
  CHECK(slow.err.find("stopped after") == std::string::npos);
  CHECK(!slow.out.empty());
}

TEST_CASE("rows that cannot be read are refused with their name and the reason") {
  const LongRun run_of(1);
  const Run broken = run(run_of.filter + " --resume --rows /proc/self/mem");
  CHECK(broken.status == 2);
  CHECK(broken.err == "whichwire: /proc/self/mem: cannot be read: Input/output error\n");
}
