// Memory that runs out at an allocation drawn at random: the library lets std::bad_alloc through and nothing else, is
// none the worse for it, and a case keeps what was acknowledged. JSON that is written is left out of the first: the
// JSON library allocates where it takes a tree down, and ends the process where it cannot (the program says so in a
// handler of its own; program.cpp tests it).
#include <sys/wait.h>
#include <unistd.h>

#include <exception>
#include <new>
#include <random>
#include <whichwire/check.hpp>
#include <whichwire/render.hpp>

#include "casefile/jobs.hpp"
#include "effort.hpp"
#include "hardening/memory.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

/// Counts the allocations of `work`, then does it again and again with one of them failing, or all from one on. Each
/// time it must end by std::bad_alloc, or give the same as ever.
template <class Work>
void starve(std::size_t rounds, const Work& work) {
  const auto usual = work();  // also makes what is made once
  fail_allocation(0);
  work();
  const std::size_t all = allocations();
  REQUIRE(all > 0);
  std::mt19937 random(20260302);
  std::uniform_int_distribution<std::size_t> drawn(1, all);
  std::size_t refused = 0;
  for (std::size_t round = 0; round < rounds; ++round) {
    const std::size_t number = drawn(random);
    CAPTURE(number);
    bool same = true;
    fail_allocation(number, round % 2 == 1);
    try {
      const auto result = work();
      fail_allocation(0);
      same = result == usual;
    } catch (const std::bad_alloc&) {
      fail_allocation(0);
      ++refused;
    }
    CHECK(same);
  }
  CHECK(refused > rounds / 2);
  const bool as_ever = work() == usual;
  CHECK(as_ever);
}

const std::string network_path = WHICHWIRE_SOURCE_DIR "/topologies/template-gateway.json";
const std::string pasted =
    "Battery 12.4 V\nABS ... no response\nBody ok U0121-87 active\nECM ok U0121-87\nall others answer\n";

}  // namespace

TEST_CASE("reading networks, scans, cases and rates survives memory that runs out") {
  const std::string network = text_at(network_path);
  const Network known = *read_network(network, "n.json").network;
  const Job job;
  const std::string job_text = text_at(job.path());
  const std::size_t rounds = share_of(200) + 10;
  starve(rounds, [&] { return read_network(network, "n.json").network->modules.size(); });
  starve(rounds, [&] { return *read_pasted_scan(pasted, "scan", known).scan; });
  const std::string scan = json_of(*read_pasted_scan(pasted, "scan", known).scan);
  starve(rounds, [&] { return *read_scan(scan, "scan", &known).scan; });
  starve(rounds, [&] { return read_case(job_text, "job.jsonl").job->entries.size(); });
  starve(rounds, [&] { return read_rates("what,odds,source\ndead,0.5,mine\n", "r.csv").rates.rows.size(); });
  starve(rounds, [&] { return read_network("{ \"modules\": [1, 2", "n.json").mistakes.size(); });
}

TEST_CASE("locate, its checks and its pages survive memory that runs out") {
  const Network network = *load_network(WHICHWIRE_SOURCE_DIR "/topologies/template-one-bus.json").network;
  const ScanResult read = read_pasted_scan("ECM silent\nTCM ok U0100-87 active\nABS ok\n", "scan", network);
  starve(share_of(40) + 6, [&] {
    const Effects effects(network);
    const std::vector<Fault> faults = faults_of(network);
    const Ranking ranking = locate(effects, faults, *read.scan);
    const Verdict verdict = verdict_of(network, ranking);
    const CheckPlan plan = plan_checks(effects, faults, ranking, *read.scan);
    const Findings findings{network, *read.scan, read.lines, ranking, verdict, plan};
    return text_of(findings);
  });
}

TEST_CASE("a case keeps every acknowledged entry, and nothing else, when memory runs out while it is written") {
  const Job job;
  constexpr const char* at = "2026-03-02T10:00:00Z";
  const CaseNote wrote{"measured twice", false, {}};
  fail_allocation(0);
  REQUIRE(append_to_case(job.path(), wrote, at).entry == 2);
  const std::size_t all = allocations();
  std::mt19937 random(20260303);
  std::uniform_int_distribution<std::size_t> drawn(1, all + all / 4);  // behind the last: nothing fails
  std::size_t acknowledged = 0, stopped = 0;
  for (std::size_t round = 0; round < share_of(100) + 10; ++round) {
    const std::size_t before = job.read().entries.size();
    const std::size_t number = drawn(random);
    CAPTURE(number);
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      std::set_terminate([] { _exit(9); });
      fail_allocation(number, round % 2 == 1);
      try {
        _exit(append_to_case(job.path(), wrote, at).entry == 0 ? 1 : 0);
      } catch (const std::bad_alloc&) {
        _exit(2);
      }
    }
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    REQUIRE(WIFEXITED(status));
    const bool told = WEXITSTATUS(status) == 0;
    (told ? acknowledged : stopped) += 1;
    const Case read = job.read();
    CHECK(read.cut_off_bytes == 0);
    CHECK(read.entries.size() <= before + 1);  // written whole, but no memory was left to say so
    if (told) CHECK(read.entries.size() == before + 1);
  }
  CHECK(acknowledged > 0);
  CHECK(stopped > 0);
}
