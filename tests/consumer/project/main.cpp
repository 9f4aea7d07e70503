// What a program of one's own needs: read a network and a scan, locate, look at the verdict and the first check.
#include <iostream>
#include <whichwire/check.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/render.hpp>

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  const whichwire::NetworkResult read = whichwire::load_network(argv[1]);
  for (const whichwire::Mistake& mistake : read.mistakes) std::cerr << text_of(mistake);
  if (!read.network) return 2;
  const whichwire::Network& network = *read.network;
  const whichwire::ScanResult scan = whichwire::read_any_scan(
      "ECM: no reply\nABS: ok, U0100-87 current\nBCM: ok, U0100 current\nIPC: ok\n", "inline", network);
  if (!scan.scan) return 2;
  const whichwire::Effects effects(network);
  const auto faults = whichwire::faults_of(network);
  const whichwire::Ranking ranking = whichwire::locate(effects, faults, *scan.scan);
  const whichwire::Verdict verdict = whichwire::verdict_of(network, ranking);
  const whichwire::CheckPlan plan = whichwire::plan_checks(effects, faults, ranking, *scan.scan);
  std::cout << verdict.headline << "\n";
  if (!plan.checks.empty()) std::cout << plan.checks.front().measure << "\n";
  return verdict.parts == std::vector<std::string>{"ECM"} ? 0 : 1;
}
