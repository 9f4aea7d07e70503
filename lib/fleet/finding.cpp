#include "fleet/finding.hpp"

#include <algorithm>
#include <cmath>
#include <whichwire/check.hpp>

#include "checks/hypotheses.hpp"
#include "checks/look_checks.hpp"
#include "fleet/numbers.hpp"
#include "locate/verdict_class.hpp"

namespace whichwire {
namespace {

template <class Value>
void append_bytes(std::string& key, const Value& value) {
  key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

std::vector<std::string> silent_in(const Network& network, const Ranking& ranking) {
  std::vector<std::string> ids;
  for (const Observation& seen : ranking.evidence) {
    const bool silent = seen.abnormal && seen.question.about == Question::About::answers;
    if (silent) ids.push_back(network.modules[seen.question.a].id);
  }
  return ids;
}

std::vector<std::string> words_of(const Network& network, const std::vector<Fault>& faults) {
  std::vector<std::string> words;
  words.reserve(faults.size());
  for (const Fault& fault : faults) words.push_back(text_of(network, fault));
  return words;
}

/// Every set of faults of the ranking with its own probability, and how likely any fault is.
void list_suspected(const Build& build, const Ranking& ranking, UnitFinding& finding) {
  Classes classes(build.network);
  double fault = 0;
  for (const Explanation& explanation : ranking.explanations) {
    const std::vector<double> shares = shares_of(explanation);
    for (std::size_t i = 0; i < shares.size(); ++i) {
      const std::vector<Fault>& faults = i == 0 ? explanation.faults : explanation.alike[i - 1];
      const double probability = explanation.probability.low * shares[i];
      if (classes.of(faults) == VerdictClass::none) continue;
      fault += probability;
      if (probability >= fleet_number("least-suspect"))
        finding.suspected.push_back({in_millionths(probability), words_of(build.network, faults)});
    }
  }
  finding.fault = in_millionths(std::min(1.0, fault));
  if (fault < fleet_number("least-fault")) finding.suspected.clear();
  std::ranges::stable_sort(finding.suspected, std::greater<>(), &Suspected::probability);
  const auto most = static_cast<std::size_t>(fleet_number("most-suspects"));
  if (finding.suspected.size() > most) finding.suspected.resize(most);
}

}  // namespace

double in_millionths(double probability) { return std::round(probability * 1e6) / 1e6; }

UnitFinding finding_of(const Build& build, const Scan& scan, const LocateOptions& options) {
  const Ranking ranking = locate(build.effects, build.faults, scan, options);
  UnitFinding finding;
  finding.verdict = verdict_of(build.network, ranking);
  finding.verdict.probability = in_millionths(finding.verdict.probability);
  finding.verdict.headline_probability = in_millionths(finding.verdict.headline_probability);
  finding.silent = silent_in(build.network, ranking);
  finding.doubts = ranking.doubts;
  finding.outside = std::min(1.0, std::ceil(ranking.outside * 1e6) / 1e6);
  list_suspected(build, ranking, finding);
  if (finding.suspected.empty()) return finding;  // nothing to be checked for
  const CheckPlan plan = plan_checks(build.effects, build.faults, ranking, scan);
  if (plan.checks.empty()) return finding;
  const Check& first = plan.checks.front();
  finding.check = {first.id, first.measure, in_millionths(first.minutes), first.cautions};
  return finding;
}

std::string evidence_key(const Build& build, const Scan& scan, const LocateOptions& options) {
  const Evidence evidence = evidence_of(build.effects, scan);
  std::string key = build.name;
  append_bytes(key, options.no_fault);
  append_bytes(key, scan.key);
  append_bytes(key, scan.tool_has_own_battery);
  append_bytes(key, battery_was_low(scan));  // then the battery is the first check
  for (const Observation& seen : evidence.observations) {
    append_bytes(key, seen.question.about);
    append_bytes(key, seen.question.a);
    append_bytes(key, seen.question.b);
    append_bytes(key, seen.log_likelihood);
  }
  for (const std::string& doubt : evidence.doubts) key.append(doubt).push_back('\n');
  return key;
}

}  // namespace whichwire
