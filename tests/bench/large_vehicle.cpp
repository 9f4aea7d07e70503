// A generated vehicle of 150 modules on 20 buses: reading, compiling, and for scans of usual faults the search and all
// of locating.
#include <cstdio>
#include <whichwire/expected_scan.hpp>
#include <whichwire/findings.hpp>

#include "locate/network_problem.hpp"
#include "locate/search.hpp"
#include "parts.hpp"
#include "table.hpp"
#include "timing.hpp"
#include "vehicle.hpp"

namespace whichwire::bench {

namespace {

struct Usual {
  const char* name;
  std::vector<const char*> faults;
};

/// Faults by their words in the generated vehicle; the scan that they give, without noise.
const std::vector<Usual>& usual_faults() {
  static const std::vector<Usual> all = {
      {"all is well", {}},
      {"one module silent", {"dead M23"}},
      {"trunk open", {"open CAN2-4"}},
      {"bus shorted", {"short CAN1-1 high ground"}},
      {"one line open", {"open CAN3-4 high"}},
      {"shared fuse", {"open F6"}},
      {"shared ground", {"open G4"}},
      {"gateway not forwarding", {"not-forwarding CGW"}},
      {"two faults", {"open CAN2-4", "dead M30"}},
      {"comes and goes", {"open CAN6-1 comes-and-goes"}},
  };
  return all;
}

void measure_scan(const Effects& effects, const std::vector<Fault>& faults, const Usual& usual) {
  std::vector<Fault> present;
  for (const char* words : usual.faults) {
    const auto read = parse_fault(effects.network(), words);
    if (!read.fault) {
      print(std::string(words) + ": " + read.error);
      return;
    }
    present.push_back(*read.fault);
  }
  const Scan scan = expected_scan(effects, present).scan;
  const auto evidence = evidence_of(effects, scan).observations;
  const std::string name = std::string("150 modules, ") + usual.name;
  const auto made = problem_of(effects, faults, evidence, {});
  const auto found = search::search(made.problem, {1e-4});
  print({name + ": problem", "ms", median_ms([&] { problem_of(effects, faults, evidence, {}); }), "", 0});
  print({name + ": search", "ms", median_ms([&] { search::search(made.problem, {1e-4}); }), "limit", 20});
  print({name + ": certificate", "", found.root->slack(), "limit", 1e-4});
  print({name + ": locate", "ms", median_ms([&] { locate(effects, faults, scan); }), "", 0});
}

}  // namespace

void measure_large_vehicle() {
  const std::string text = vehicle_text(150, 20);
  const auto read = read_network(text, "generated");
  if (!read.network) {
    for (const auto& mistake : read.mistakes) print(mistake.message);
    print("the generated vehicle is refused");
    return;
  }
  print({"150 modules: read the network", "ms", median_ms([&] { read_network(text, "generated"); }), "", 0});
  print({"150 modules: compile it", "ms", median_ms([&] { Effects{*read.network}; }), "", 0});
  print({"150 modules: all faults", "ms", median_ms([&] { faults_of(*read.network); }), "", 0});
  const Effects effects(*read.network);
  const auto faults = faults_of(*read.network);
  print({"150 modules: faults", "", static_cast<double>(faults.size()), "", 0});
  for (const auto& usual : usual_faults()) measure_scan(effects, faults, usual);
}

}  // namespace whichwire::bench
