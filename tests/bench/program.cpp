// The whole program on one scan of a generated vehicle of 60 modules on 8 buses, against its own start: time, memory,
// instructions.
#include <cstdlib>
#include <whichwire/expected_scan.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/scan.hpp>

#include "parts.hpp"
#include "process.hpp"
#include "running.hpp"
#include "table.hpp"
#include "vehicle.hpp"

namespace whichwire::bench {

namespace {

const std::string program = WHICHWIRE_BINARY;

/// Millions of instructions of one run, or nothing where valgrind is not there.
void count_instructions(const std::string& name, const std::string& words) {
  const auto ran = test::run("valgrind --tool=callgrind --callgrind-out-file=/dev/null '" + program + "' " + words);
  const std::string mark = "Collected : ";
  const auto at = ran.err.find(mark);
  if (at == std::string::npos) {
    print("valgrind is not there: instructions not counted");
    return;
  }
  print({name, "M", std::strtod(ran.err.c_str() + at + mark.size(), nullptr) / 1e6, "", 0});
}

void measure_scan(const Effects& effects, const std::string& network, const std::string& words, double version_ms) {
  const auto fault = parse_fault(effects.network(), words).fault;
  if (!fault) {
    print(words + ": no such fault");
    return;
  }
  const std::string scan = test::scratch() + "/scan.json";
  test::write_text(scan, json_of(expected_scan(effects, {&*fault, 1}).scan));
  const auto ran = run_often({program, "locate", network, scan});
  if (ran.status != 0) print(words + ": the program ended with " + std::to_string(ran.status));
  const std::string name = "60 modules, " + words;
  print({name + ": process", "ms", ran.milliseconds, "3 x --version", 3 * version_ms});
  print({name + ": peak memory", "MiB", ran.peak_mebibytes, "limit", 64});
  count_instructions(name + ": instructions", "locate '" + network + "' '" + scan + "'");
}

}  // namespace

void measure_program() {
  const std::string text = vehicle_text(60, 8), network = test::scratch() + "/network.json";
  test::write_text(network, text);
  const auto read = read_network(text, "generated");
  if (!read.network) {
    print("the generated vehicle is refused");
    return;
  }
  const double version_ms = run_often({program, "--version"}).milliseconds;
  print({"--version: process", "ms", version_ms, "", 0});
  count_instructions("--version: instructions", "--version");
  const Effects effects(*read.network);
  for (const char* words : {"dead M12", "open CAN2-2", "open F6", "short CAN1-1 high ground"}) {
    measure_scan(effects, network, words, version_ms);
  }
}

}  // namespace whichwire::bench
