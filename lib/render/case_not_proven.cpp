// What a case has not shown: said in the report, so that nobody takes a repair for proven that is not.
// Tests: tests/cli/case.cpp.
#include <algorithm>

#include "render/case_reasoning.hpp"
#include "render/page.hpp"

namespace whichwire::render {

namespace {

bool repaired(const Case& job) {
  for (std::size_t i = 0; i < job.entries.size(); ++i) {
    const auto* const work = job.undone[i] ? nullptr : std::get_if<CaseWork>(&job.entries[i].contents);
    if (work != nullptr && (work->kind == WorkKind::replaced || work->kind == WorkKind::programmed)) return true;
  }
  return false;
}

std::size_t readings_in(const Case& job) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < job.entries.size(); ++i)
    if (!job.undone[i] && std::holds_alternative<CaseReading>(job.entries[i].contents)) ++count;
  return count;
}

void say_of_reasoning(const CasePages& pages, std::vector<std::string>& all) {
  const auto& reasoning = pages.before_repair;
  if (!reasoning) {
    all.emplace_back("No scan from before the repair is in the case, so the cause was not reasoned from one.");
    return;
  }
  const bool weighed = std::ranges::any_of(reasoning->answers, [](const CaseAnswer& a) { return a.weighed.counted; });
  const double sure = weighed ? reasoning->assessment.decision.probability.low : reasoning->verdict.probability;
  all.push_back((weighed ? "Scan and readings before the repair leave " : "The scan before the repair leaves ") +
                percent(1 - sure) + " for other explanations.");
  for (const std::string& text : weighed ? missing_phrases(reasoning->assessment) : std::vector<std::string>{})
    all.push_back("Not done before the repair: " + text + ".");
  if (readings_in(pages.job) == 0) all.emplace_back("No reading was taken: the cause was not measured.");
  if (reasoning->verdict.verdict_class == VerdictClass::intermittent)
    all.emplace_back("The fault comes and goes; that it is absent after the repair does not prove that it is gone.");
  for (const std::string& doubt : reasoning->ranking.doubts)
    all.push_back("The scan before the repair is doubtful: " + doubt);
}

void say_of_comparison(const CasePages& pages, std::vector<std::string>& all) {
  if (!pages.comparison || scans_of(pages.job).last <= scans_of(pages.job).before_repair) {
    all.emplace_back("No scan was taken after the repair: that the fault is gone is not shown.");
    return;
  }
  const ScanComparison& comparison = *pages.comparison;
  if (!comparison.still.empty())
    all.push_back(counted(comparison.still.size(), "finding") + " of the first scan " +
                  (comparison.still.size() == 1 ? "is" : "are") + " still there.");
  if (!comparison.fresh.empty())
    all.push_back(counted(comparison.fresh.size(), "finding") + " of the last scan " +
                  (comparison.fresh.size() == 1 ? "is" : "are") + " new.");
  if (!comparison.not_seen.empty())
    all.push_back(counted(comparison.not_seen.size(), "finding") +
                  " of the first scan could not be seen in the last, which did not look there.");
}

}  // namespace

std::vector<std::string> not_proven(const CasePages& pages) {
  std::vector<std::string> all;
  if (!repaired(pages.job)) {
    all.emplace_back("No repair is in the case.");
  } else {
    say_of_comparison(pages, all);
  }
  say_of_reasoning(pages, all);
  for (const OffNow& one : pages.off) all.push_back(one.what + " is still " + off_word(one.kind) + ".");
  return all;
}

}  // namespace whichwire::render
