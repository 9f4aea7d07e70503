// The whole of `locate`: a scan, JSON or pasted text, of a small network, or of the network that stands before it and a
// line `---`. Whatever comes out are probabilities whose sum with the certified remainder is one, the pages can be
// printed, and the same input gives the same bytes.
#include <whichwire/check.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/render.hpp>

#include "whole_network.hpp"

namespace {

using namespace whichwire;

constexpr double slack = 1e-6;
constexpr std::size_t most_modules = 4, most_segments = 8, most_supplies = 4;  // so that an input takes no second

bool small(const Network& network) {
  std::size_t segments = 0;
  for (const Bus& bus : network.buses) segments += bus.segments.size();
  return network.modules.size() <= most_modules && segments <= most_segments && network.feeds.size() <= most_supplies &&
         network.grounds.size() <= most_supplies;
}

void insist_on_chance(const Chance& chance) {
  fuzz::insist(chance.low >= 0 && chance.low <= chance.high + slack && chance.high <= 1 + slack);
}

void insist_on_ranking(const Ranking& ranking) {
  fuzz::insist(ranking.outside >= 0 && ranking.outside <= 1);
  double listed = 0;
  for (const Explanation& one : ranking.explanations) {
    insist_on_chance(one.probability);
    listed += one.probability.low;
    for (const auto* indices : {&one.explains, &one.contradicts, &one.leaves})
      for (const std::size_t i : *indices) fuzz::insist(i < ranking.evidence.size());
  }
  fuzz::insist(listed <= 1 + slack && listed + ranking.outside >= 1 - slack);
  for (std::size_t i = 1; i < ranking.explanations.size(); ++i)
    fuzz::insist(ranking.explanations[i - 1].probability.low >= ranking.explanations[i].probability.low);
  for (const Marginal& one : ranking.marginals) insist_on_chance(one.probability);
  for (const std::string& doubt : ranking.doubts) fuzz::insist_printable(doubt);
}

/// The page and the JSON of the findings.
std::string pages_of(const Network& network, const ScanResult& read) {
  const Effects effects(network);
  const std::vector<Fault> faults = faults_of(network);
  const Ranking ranking = locate(effects, faults, *read.scan);
  insist_on_ranking(ranking);
  const Verdict verdict = verdict_of(network, ranking);
  fuzz::insist(verdict.probability >= 0 && verdict.probability <= 1 + slack);
  const CheckPlan plan = plan_checks(effects, faults, ranking, *read.scan);
  for (const Check& check : plan.checks) fuzz::insist(check.minutes >= 0 && check.gain_bits >= -slack);
  const Findings findings{network, *read.scan, read.lines, ranking, verdict, plan};
  const std::string page = text_of(findings);
  fuzz::insist_printable(page);
  return page + json_of(findings);
}

const Network& usual() {
  static const Network network = fuzz::loaded(WHICHWIRE_SMALL_NETWORK);
  return network;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::TwoTexts texts = fuzz::two_texts(fuzz::text_of_bytes(data, size));
  NetworkResult own;
  if (!texts.first.empty()) own = read_network(texts.first, "fuzz.json");
  if (!texts.first.empty() && (!own.network || !small(*own.network))) return 0;
  const Network& network = own.network ? *own.network : usual();
  const ScanResult read = read_any_scan(texts.second, "scan", network);
  if (!read.scan) return 0;
  const std::string pages = pages_of(network, read);
  fuzz::insist(pages == pages_of(network, read));
  return 0;
}
