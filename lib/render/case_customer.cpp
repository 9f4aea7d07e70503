// The page for the customer: plain words, no ids and codes where a name says it, nothing that was not done.
// Tests: tests/cli/case.cpp.
#include <algorithm>

#include "render/case_pages.hpp"
#include "render/case_words.hpp"
#include "render/page.hpp"

namespace whichwire::render {

namespace {

/// The name of a control unit, or its id where it has none.
std::string name_of(const Network& network, const std::string& id) {
  const std::size_t i = index_of(network.modules, id);
  return i == nowhere || network.modules[i].name.empty() ? id : network.modules[i].name;
}

std::vector<std::string> names_of(const Network& network, const std::vector<std::string>& ids) {
  std::vector<std::string> names;
  names.reserve(ids.size());
  for (const std::string& id : ids) names.push_back(name_of(network, id));
  return names;
}

std::string plain_verdict(VerdictClass verdict) {
  switch (verdict) {
    case VerdictClass::module:
      return "One control unit is cut off from the others: the unit itself, or its own wires, fuses and plug.";
    case VerdictClass::segment:
      return "A data wire between the control units is interrupted.";
    case VerdictClass::bus:
      return "One of the data lines that the control units share is disturbed.";
    case VerdictClass::gateway:
      return "The control unit that passes messages on between the others does not do its part.";
    case VerdictClass::supply:
      return "A fuse, wire or ground point that several control units share is interrupted.";
    case VerdictClass::connector:
      return "The diagnostic socket or its wires have a fault; the rest need not have one.";
    case VerdictClass::intermittent:
      return "The fault comes and goes; it was not there all the time while we looked.";
    case VerdictClass::several:
      return "There are probably two or more faults at once.";
    case VerdictClass::none:
      return "The communication between the control units is in order.";
    case VerdictClass::contradictory:
      return "What the vehicle reported contradicts itself.";
  }
  return "";
}

void say_told(Document& page, const Intake& intake) {
  page.heading("What you told us");
  page.paragraph(intake.complaint.empty() ? "No complaint was written down." : intake.complaint);
  page.labelled("Since", intake.since);
  page.labelled("When it happens", intake.conditions);
  page.labelled("Repaired before", intake.earlier_repairs);
  page.labelled("Fitted later", intake.added_devices);
}

/// What the measurements came to.
std::string measured_words(const CasePages& pages) {
  if (!pages.before_repair) return "";
  switch (pages.before_repair->assessment.decision.standing) {
    case Standing::proven:
      return " They prove the cause.";
    case Standing::probable:
      return " They make one cause probable.";
    case Standing::comes_and_goes:
      return " The fault did not show itself while we measured.";
    case Standing::refer:
      return " The cause lies in a system that only specially trained people may work on.";
    case Standing::not_communication:
      return " They show no fault of the communication.";
    case Standing::cannot_condemn:
      return " They narrow the cause down, but do not prove it.";
  }
  return "";
}

void say_found(Document& page, const CasePages& pages) {
  const Case& job = pages.job;
  const Network& network = job.start().network;
  const ScansOf scans = scans_of(job);
  page.heading("What we found");
  const Scan* const first = scan_of(job, scans.before_repair != 0 ? scans.before_repair : scans.first);
  if (first == nullptr) page.paragraph("The control units of the vehicle were not asked.");
  if (first != nullptr) {
    const std::vector<std::string> silent = silent_in(network, *first);
    page.paragraph("We asked the control units: " + std::to_string(answering_in(*first)) + " answered, " +
                   (silent.empty() ? "none was silent." : "these did not: " + joined(names_of(network, silent)) + "."));
  }
  if (pages.before_repair) {
    const Verdict& verdict = pages.before_repair->verdict;
    page.paragraph("What this points to, with a probability of " + percent(verdict.probability) + ": " +
                   plain_verdict(verdict.verdict_class));
  }
  std::size_t readings = 0;
  for (std::size_t i = 0; i < job.entries.size(); ++i)
    if (!job.undone[i] && std::holds_alternative<CaseReading>(job.entries[i].contents)) ++readings;
  if (readings == 0) return;
  page.paragraph("To find the place, we took " + counted(readings, "measurement") + "." + measured_words(pages));
}

void say_done(Document& page, const Case& job) {
  page.heading("What we did");
  bool any = false;
  for (std::size_t i = 0; i < job.entries.size(); ++i) {
    const auto* const work = job.undone[i] ? nullptr : std::get_if<CaseWork>(&job.entries[i].contents);
    if (work == nullptr || (work->kind != WorkKind::replaced && work->kind != WorkKind::programmed)) continue;
    any = true;
    const std::string what = name_of(job.start().network, work->what);
    std::string done = work->kind == WorkKind::replaced ? "Replaced: " : "Programmed: ";
    done += what;
    if (!work->note.empty()) done += " (" + work->note + ")";
    page.item(std::move(done));
  }
  if (!any) page.paragraph("Nothing has been repaired so far.");
}

std::string is_or_are(std::size_t count) { return count == 1 ? " is " : " are "; }

void say_now(Document& page, const CasePages& pages) {
  page.heading("How it is now");
  const Case& job = pages.job;
  const ScansOf scans = scans_of(job);
  if (!pages.comparison || scans.last <= scans.before_repair) {
    page.paragraph("The control units have not been asked again after the work.");
    return;
  }
  const Network& network = job.start().network;
  const std::vector<std::string> silent = silent_in(network, *scan_of(job, scans.last));
  page.paragraph(silent.empty() ? "Every control unit that we asked answers."
                                : "Still silent: " + joined(names_of(network, silent)) + ".");
  const ScanComparison& comparison = *pages.comparison;
  page.item("Gone: " + std::to_string(comparison.gone.size()) + " of the things that were found at first");
  if (!comparison.still.empty()) page.item("Still there: " + std::to_string(comparison.still.size()));
  if (!comparison.not_seen.empty()) page.item("Not looked at again: " + std::to_string(comparison.not_seen.size()));
  const auto own = std::ranges::count_if(comparison.fresh, [](const auto& one) { return !one.because.empty(); });
  if (!comparison.fresh.empty())
    page.item("New since then: " + std::to_string(comparison.fresh.size()) +
              (own > 0 ? "; " + std::to_string(own) + is_or_are(static_cast<std::size_t>(own)) +
                             "about a plug or fuse that we had off in testing, and will be checked"
                       : ""));
}

void say_faults(Document& page, const std::string& heading, const std::vector<FaultNoted>& faults) {
  if (faults.empty()) return;
  page.heading(heading);
  for (const FaultNoted& fault : faults) page.item(fault.text);
}

void say_open(Document& page, const CasePages& pages) {
  page.heading("What you should know");
  const ScansOf scans = scans_of(pages.job);
  const bool looked_after = scans.last > scans.before_repair;
  for (const OffNow& one : pages.off)
    page.caution(one.what + " is still " + off_word(one.kind) + ": the work is not finished.");
  if (!looked_after) page.item("That the fault is gone has not been shown yet.");
  if (pages.before_repair && pages.before_repair->verdict.verdict_class == VerdictClass::intermittent)
    page.item("A fault that comes and goes can come back; please tell us when and how it does.");
  if (pages.job.closed_by == 0) page.item("The work is not finished.");
  page.item(
      "If the trouble comes back, write down when, how warm it was and what you were doing, and bring this page.");
  page.item("If a brake, steering or restraint warning is lit, have it looked at before you drive on.");
}

}  // namespace

Document customer_report(const CasePages& pages) {
  Document page;
  if (pages.drawn != nullptr) page.picture(*pages.drawn);
  page.title("Your vehicle: " + vehicle_phrase(pages.job));
  page.paragraph("Begun on " + time_phrase(pages.job.entries.front().at) + ".");
  say_told(page, pages.job.start().intake);
  say_faults(page, "What was not in order before we began", pages.faults.before);
  say_found(page, pages);
  say_done(page, pages.job);
  say_now(page, pages);
  say_faults(page, "What else we noticed", pages.faults.after);
  say_open(page, pages);
  return page;
}

}  // namespace whichwire::render
