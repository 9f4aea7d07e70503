// The report for a colleague: everything that the case holds, in the order in which it is asked about.
// Tests: tests/cli/case.cpp.
#include <algorithm>

#include "render/case_pages.hpp"
#include "render/case_reasoning.hpp"
#include "render/page.hpp"
#include "render/steps.hpp"
#include "render/why.hpp"

namespace whichwire {

namespace render {

namespace {

template <class Contents, class Use>
void each(const Case& job, const Use& use) {
  for (std::size_t i = 0; i < job.entries.size(); ++i) {
    const auto* const contents = job.undone[i] ? nullptr : std::get_if<Contents>(&job.entries[i].contents);
    if (contents != nullptr) use(*contents, i + 1);
  }
}

std::string time_of(const Case& job, std::size_t entry) { return time_phrase(job.entries[entry - 1].at); }

/// Something that happened, as a row: `2026-03-02 09:01 UTC: unplug ECM`.
void say_happened(Document& page, const std::string& when, const std::string& what) {
  page.row({{"When", when}, {"What", what, ": "}});
}

void say_complaint(Document& page, const Case& job) {
  const Intake& intake = job.start().intake;
  page.heading("Complaint");
  if (intake.complaint.empty()) page.paragraph("No complaint was noted.");
  if (!intake.complaint.empty()) page.paragraph(intake.complaint);
  page.labelled("Since", intake.since);
  page.labelled("Conditions", intake.conditions);
  page.labelled("Earlier repairs", intake.earlier_repairs);
  page.labelled("Works", intake.works);
  page.labelled("Does not work", intake.works_not);
  page.labelled("Added devices", intake.added_devices);
  if (intake.battery_volts) page.labelled("Battery", number(*intake.battery_volts) + " V");
}

void say_faults(Document& page, const std::string& heading, const std::vector<FaultNoted>& faults) {
  if (faults.empty()) return;
  page.heading(heading);
  for (const FaultNoted& fault : faults) say_happened(page, time_phrase(fault.at), fault.text);
}

void say_scan(Document& page, const Case& job, std::size_t entry, bool with_codes) {
  const Scan& scan = *scan_of(job, entry);
  page.paragraph("Scan of " + time_of(job, entry) + " (" + scan_conditions(scan) +
                 "): " + std::to_string(answering_in(scan)) + " answer, " + counted(codes_in(scan), "code"));
  page.labelled("Silent", joined(silent_in(job.start().network, scan), ", "));
  for (const ModuleSeen& seen : scan.modules) {
    std::vector<std::string> codes;
    for (const CodeSeen& code : seen.codes) {
      const std::string words = code.written.empty() ? "\"" + code.text + "\"" : code.written;
      codes.push_back(code.state == CodeState::unknown ? words : words + " " + std::string(word_for(code.state)));
    }
    if (with_codes) page.labelled(seen.module + " stores", joined(codes, ", "));
  }
}

void say_evidence(Document& page, const Case& job) {
  page.heading("Evidence: scans");
  const ScansOf scans = scans_of(job);
  if (scans.first == 0) page.paragraph("No scan was taken.");
  const std::size_t shown = scans.before_repair != 0 ? scans.before_repair : scans.first;
  each<CaseScan>(job, [&](const CaseScan&, std::size_t entry) { say_scan(page, job, entry, entry == shown); });
}

bool counted_any(const CaseReasoning& reasoning) {
  return std::ranges::any_of(reasoning.answers, [](const CaseAnswer& answer) { return answer.weighed.counted; });
}

void say_reasoning(Document& page, const Case& job, const CaseReasoning& reasoning) {
  const Reasoned reasoned{job.start().network, *scan_of(job, reasoning.entry), reasoning.ranking, reasoning.verdict,
                          " alike"};
  page.heading("Reasoning from the scan of " + time_of(job, reasoning.entry), !counted_any(reasoning));
  for (const std::string& doubt : reasoning.ranking.doubts) page.caution(doubt);
  say_verdict(page, reasoned);
  say_why(page, reasoned);
  page.lead("Rivals:");
  say_rivals(page, reasoned);
}

/// What the readings make of it.
void say_result(Document& page, const Case& job, const CaseReasoning& reasoning) {
  const Assessment& assessment = reasoning.assessment;
  if (!counted_any(reasoning)) return;
  page.heading("Result with the readings", true);
  page.claim(result_phrase(job.start().network, assessment) + ".", assessment.decision.probability.low);
  page.labelled("Still missing", missing_phrases(assessment));
}

const CaseAnswer* answer_of(const std::optional<CaseReasoning>& reasoning, std::size_t entry) {
  if (!reasoning) return nullptr;
  const auto found = std::ranges::find(reasoning->answers, entry, &CaseAnswer::entry);
  return found == reasoning->answers.end() ? nullptr : &*found;
}

/// The reading, and what it came to by the scan of its time.
void say_reading(Document& page, const CasePages& pages, std::size_t entry) {
  std::vector<Cell> cells = reading_cells(pages.job, entry);
  cells.insert(cells.begin(), {"When", time_of(pages.job, entry)});
  cells[1].before = ": ";
  std::string says;
  for (const auto* const reasoning : {&pages.before_repair, &pages.now}) {
    const CaseAnswer* const answer = answer_of(*reasoning, entry);
    if (answer != nullptr) says = joined(meaning_of(pages.job.start().network, **reasoning, *answer), "; ");
  }
  cells.push_back({"It says", says, ". It says: "});
  page.row(std::move(cells));
}

void say_readings(Document& page, const CasePages& pages) {
  page.heading("Readings");
  bool any = false;
  each<CaseReading>(pages.job, [&](const CaseReading&, std::size_t entry) {
    any = true;
    say_reading(page, pages, entry);
  });
  if (!any) page.paragraph("No reading was taken.");
}

/// What the readings took away, and what they ticked on the list before a module is condemned.
void say_ruled_out_by_readings(Document& page, const Case& job, const CaseReasoning& reasoning) {
  constexpr double was_likely = 0.02, is_out = 0.01;
  const Assessment& assessment = reasoning.assessment;
  page.heading("Ruled out by the readings");
  bool any = false;
  const auto say = [&](const std::string& text) {
    any = true;
    page.item(text);
  };
  for (const Repair& repair : assessment.repairs) {
    // The loads of a reference are told one by one only where one of them is left.
    const bool out = repair.at_first >= was_likely && repair.probability.high < is_out && repair.load.empty();
    if (out)
      say(repair_phrase(job.start().network, repair) + ": from " + percent(repair.at_first) + " to " +
          percent(repair.probability.low));
  }
  for (const RuleOut& item : assessment.decision.ruled_out)
    if (!item.by.empty()) say(item.what + ": by " + ticked_by(job, item.by));
  if (!any) page.paragraph("Nothing so far.");
}

void say_ruled_out(Document& page, const Case& job) {
  page.heading("Ruled out, as the technician judged");
  bool any = false;
  const auto say = [&](const std::vector<std::string>& all, const std::string& by) {
    for (const std::string& words : all) {
      any = true;
      page.item(ruled_out_phrase(job.start().network, words) + ": " + by);
    }
  };
  each<CaseReading>(
      job, [&](const CaseReading& made, std::size_t) { say(made.rules_out, made.reading + " at " + made.place); });
  each<CaseNote>(job, [&](const CaseNote& note, std::size_t) { say(note.rules_out, note.text); });
  if (!any) page.paragraph("Nothing is noted as ruled out.");
}

void say_repair(Document& page, const Case& job) {
  page.heading("Repair");
  bool any = false;
  each<CaseWork>(job, [&](const CaseWork& work, std::size_t entry) {
    if (work.kind != WorkKind::replaced && work.kind != WorkKind::programmed) return;
    any = true;
    say_happened(page, time_of(job, entry), phrase_of(job, entry));
  });
  if (!any) page.paragraph("No repair is in the case.");
}

void say_taken_off(Document& page, const Case& job) {
  bool any = false;
  each<CaseWork>(job, [&](const CaseWork& work, std::size_t entry) {
    if (work.kind == WorkKind::replaced || work.kind == WorkKind::programmed) return;
    if (!any) page.heading("Taken off and put back in testing");
    any = true;
    say_happened(page, time_of(job, entry), phrase_of(job, entry));
  });
}

void say_differences(Document& page, const std::string& label, const std::vector<ScanDifference>& all) {
  for (const ScanDifference& one : all)
    page.labelled(label, one.because.empty() ? one.what : one.because + " (" + one.what + ")");
}

void say_before_after(Document& page, const CasePages& pages) {
  page.heading("Before and after");
  if (!pages.comparison) {
    page.paragraph("There is only one scan, or none: nothing can be compared.");
    return;
  }
  const ScanComparison& comparison = *pages.comparison;
  page.paragraph("Scan of " + time_of(pages.job, comparison.last) + " against that of " +
                 time_of(pages.job, comparison.first) + ".");
  say_differences(page, "New", comparison.fresh);
  say_differences(page, "Still there", comparison.still);
  say_differences(page, "Gone", comparison.gone);
  say_differences(page, "Not looked at again", comparison.not_seen);
  if (pages.now)
    page.paragraph("The last scan by itself: " + pages.now->verdict.headline + " (" +
                   percent(pages.now->verdict.headline_probability) + ").");
}

/// While the job is not done: the next check, as `case next` asks for it.
void say_next(Document& page, const CasePages& pages) {
  if (pages.state.stage != CaseStage::measuring || !pages.state.reasoning) return;
  const Assessment& assessment = pages.state.reasoning->assessment;
  if (!assessment.next.check) return;
  const Network& network = pages.job.start().network;
  page.heading("Next check", true);
  if (const std::string why = why_phrase(network, *pages.state.reasoning); !why.empty()) page.paragraph(why);
  for (const std::string& text : before_check_phrases(network, pages.state)) page.caution(text);
  say_step(page, network, *assessment.next.check, {}, if_good_phrase(assessment.next));
  say_refused(page, assessment.refused);
}

void say_notes(Document& page, const Case& job) {
  bool any = false;
  each<CaseNote>(job, [&](const CaseNote& note, std::size_t entry) {
    if (note.fault) return;
    if (!any) page.heading("Notes");
    any = true;
    say_happened(page, time_of(job, entry), note.text);
  });
}

void say_cautions(Document& page, const CasePages& pages) {
  page.heading("Cautions");
  std::vector<std::string> said;
  const auto say = [&](const std::string& caution) {
    if (std::ranges::find(said, caution) == said.end()) page.caution(caution);
    said.push_back(caution);
  };
  for (const OffNow& one : pages.off)
    say(one.what + " is still " + off_word(one.kind) + " since " + time_phrase(one.at) + ".");
  each<CaseWork>(pages.job, [&](const CaseWork& work, std::size_t) {
    if (work.kind == WorkKind::programmed || work.kind == WorkKind::replaced) return;
    for (const std::string& caution : cautions_at(pages.job.start().network, work.kind, work.what)) say(caution);
  });
  say("The maker's service information and local rules come first; where not trained or equipped, stop and refer.");
}

std::string open_or_closed(const Case& job) {
  const auto undone = std::ranges::count(job.undone, true);
  std::string text = job.closed_by == 0 ? "The case is open" : "The case was closed at " + time_of(job, job.closed_by);
  text += "; begun at " + time_of(job, 1) + ", " + counted(job.entries.size(), "entry");
  if (undone > 0) text += ", " + std::to_string(undone) + " of them taken back and not in this report";
  return text + ".";
}

}  // namespace

Document colleague_report(const CasePages& pages) {
  const Case& job = pages.job;
  Document page;
  if (pages.drawn != nullptr) page.picture(*pages.drawn);
  page.title("Report: " + vehicle_phrase(job));
  page.paragraph(open_or_closed(job));
  say_complaint(page, job);
  say_faults(page, "Faults noted before work began", pages.faults.before);
  say_evidence(page, job);
  if (pages.before_repair) say_reasoning(page, job, *pages.before_repair);
  say_readings(page, pages);
  if (pages.before_repair) say_result(page, job, *pages.before_repair);
  if (pages.before_repair && !pages.before_repair->answers.empty())
    say_ruled_out_by_readings(page, job, *pages.before_repair);
  say_ruled_out(page, job);
  say_next(page, pages);
  say_repair(page, job);
  say_taken_off(page, job);
  say_before_after(page, pages);
  say_faults(page, "Faults found after work began", pages.faults.after);
  say_notes(page, job);
  page.heading("Not proven");
  for (const std::string& text : not_proven(pages)) page.item(text);
  say_cautions(page, pages);
  return page;
}

}  // namespace render

std::string report_of(const CasePages& pages, ReportFor whom, ReportAs form, const Look& look) {
  return (whom == ReportFor::customer ? render::customer_report(pages) : render::colleague_report(pages))
      .as(form, look);
}

}  // namespace whichwire
