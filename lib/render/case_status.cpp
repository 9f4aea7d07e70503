// Where a case stands, as a page and as `whichwire.case-status.v1`. Tests: tests/cli/case.cpp.
#include "render/case_reasoning.hpp"
#include "render/json.hpp"
#include "render/page.hpp"

namespace whichwire {

namespace {

using namespace render;

void say_off(Page& page, const CasePages& pages) {
  page.heading("Off now");
  if (pages.off.empty()) page.text(2, "Nothing: everything is back in place.");
  for (const OffNow& one : pages.off) {
    page.text(2, "! ",
              one.what + ": " + off_word(one.kind) + " since " + time_phrase(one.at) + " (entry " +
                  std::to_string(one.entry) + ")");
  }
}

void say_entries(Page& page, const Case& job) {
  page.heading("Entries");
  const std::size_t digits = std::to_string(job.entries.size()).size();
  for (std::size_t i = 0; i < job.entries.size(); ++i) {
    std::string mark = std::to_string(i + 1);
    mark.insert(0, digits - mark.size(), ' ');
    page.text(2, mark + "  " + time_phrase(job.entries[i].at).substr(0, 16) + "  ",
              (job.undone[i] ? "(taken back) " : "") + phrase_of(job, i + 1));
  }
}

void say_differences(Page& page, const std::string& what, const std::vector<ScanDifference>& all) {
  if (all.empty()) return;
  page.text(2, what + ":");
  for (const ScanDifference& one : all) {
    if (!one.because.empty()) page.text(4, "! ", one.because);
    page.text(one.because.empty() ? 4 : 6, one.because.empty() ? "- " : "", one.what);
  }
}

void say_comparison(Page& page, const std::optional<ScanComparison>& comparison) {
  if (!comparison) return;
  page.heading("Last scan (entry " + std::to_string(comparison->last) + ") against the first (entry " +
               std::to_string(comparison->first) + ")");
  say_differences(page, "New", comparison->fresh);
  say_differences(page, "Still there", comparison->still);
  say_differences(page, "Gone", comparison->gone);
  say_differences(page, "Not looked at again", comparison->not_seen);
}

void say_state(Page& page, const CasePages& pages) {
  const CaseState& state = pages.state;
  if (state.stage != CaseStage::measuring) return;
  const Network& network = pages.job.start().network;
  const Assessment& assessment = state.reasoning->assessment;
  page.heading("Now");
  page.text(2, result_phrase(network, assessment) + ".");
  if (assessment.next.check) page.text(2, "Next: ", assessment.next.check->measure + ".");
  page.text(2, "`case next` says more.");
}

Json json_of_differences(const std::vector<ScanDifference>& all) {
  Json list = Json::array();
  for (const ScanDifference& one : all) {
    Json json = {{"what", one.what}};
    if (!one.because.empty()) json["because"] = one.because;
    list.push_back(std::move(json));
  }
  return list;
}

Json json_of_faults(const std::vector<FaultNoted>& all) {
  Json list = Json::array();
  for (const FaultNoted& one : all) list.push_back({{"at", one.at}, {"text", one.text}});
  return list;
}

Json json_of_off(const std::vector<OffNow>& all) {
  Json list = Json::array();
  for (const OffNow& one : all)
    list.push_back({{"what", one.what}, {"state", off_word(one.kind)}, {"since", one.at}, {"entry", one.entry}});
  return list;
}

}  // namespace

std::string status_of(const CasePages& pages, const Look& look) {
  const Case& job = pages.job;
  Page page(look);
  page.text(0, vehicle_phrase(job) + ": " + (job.closed_by == 0 ? "open" : "closed") + ", " +
                   counted(job.entries.size(), "entry"));
  if (!job.start().intake.complaint.empty()) page.text(0, "Complaint: ", job.start().intake.complaint);
  if (job.cut_off_bytes > 0) {
    page.text(0, "! ",
              "The writing of a last entry was cut off; it is passed over, and nothing that was acknowledged "
              "is lost.");
  }
  say_off(page, pages);
  say_entries(page, job);
  say_state(page, pages);
  say_comparison(page, pages.comparison);
  return page.take();
}

std::string entry_line(const Case& job, std::size_t entry, std::span<const std::string> cautions, const Look& look) {
  Page page(look);
  page.text(0, "Entry " + std::to_string(entry) + ": ", phrase_of(job, entry));
  for (const std::string& caution : cautions) page.text(2, "! ", caution);
  return page.take();
}

std::string comparison_of(const std::optional<ScanComparison>& comparison, const Look& look) {
  Page page(look);
  say_comparison(page, comparison);
  return page.take();
}

std::string lines_not_placed(std::span<const LineRead> lines, const Look& look) {
  Page page(look);
  for (const LineRead& line : lines) {
    const std::string number = "line " + std::to_string(line.line) + ": ";
    if (line.understood.empty()) page.quote(2, "not understood, " + number, line.text);
    if (line.understood.empty() || line.doubt == LineDoubt::none) continue;
    page.quote(2, "look again, " + number, line.text);
    page.text(4, "= ", line.understood);
  }
  return page.take();
}

std::string json_of(const CasePages& pages) {
  const Case& job = pages.job;
  Json entries = Json::array();
  for (std::size_t i = 0; i < job.entries.size(); ++i) {
    Json json = {{"number", i + 1},
                 {"at", job.entries[i].at},
                 {"entry", word_for(job.entries[i].contents)},
                 {"text", phrase_of(job, i + 1)}};
    if (job.undone[i]) json["undone"] = true;
    entries.push_back(std::move(json));
  }
  Json all = {{"format", "whichwire.case-status.v1"},
              {"case", job.name},
              {"closed", job.closed_by != 0},
              {"off", json_of_off(pages.off)},
              {"faults_before_work", json_of_faults(pages.faults.before)},
              {"faults_after", json_of_faults(pages.faults.after)},
              {"entries", std::move(entries)}};
  if (pages.comparison) {
    all["comparison"] = {{"first", pages.comparison->first},
                         {"last", pages.comparison->last},
                         {"new", json_of_differences(pages.comparison->fresh)},
                         {"still", json_of_differences(pages.comparison->still)},
                         {"gone", json_of_differences(pages.comparison->gone)},
                         {"not_looked_at", json_of_differences(pages.comparison->not_seen)}};
  }
  return dumped(all);
}

}  // namespace whichwire
