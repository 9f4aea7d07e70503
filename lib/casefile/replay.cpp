#include "casefile/replay.hpp"

#include <algorithm>

#include "network/complaints.hpp"

namespace whichwire {

namespace {

/// What takes the place out of the ledger again, as unplug for replug.
std::optional<WorkKind> undone_by(WorkKind kind) {
  switch (kind) {
    case WorkKind::replug:
      return WorkKind::unplug;
    case WorkKind::fuse_in:
      return WorkKind::fuse_out;
    case WorkKind::jumper_off:
      return WorkKind::jumper;
    default:
      return {};
  }
}

bool takes_off(WorkKind kind) {
  return kind == WorkKind::unplug || kind == WorkKind::fuse_out || kind == WorkKind::jumper;
}

std::string_view state_word(WorkKind kind) {
  if (kind == WorkKind::fuse_out) return "out";
  return kind == WorkKind::jumper ? "bridged" : "unplugged";
}

std::vector<OffNow>::iterator found_in(std::vector<OffNow>& off, WorkKind kind, const std::string& what) {
  return std::ranges::find_if(off, [&](const OffNow& one) { return one.kind == kind && one.what == what; });
}

/// The ledger after the first `entries`, entry `without` left out; `mismatch` becomes the number of the first entry
/// that puts back what is not off, or takes off what is.
std::vector<OffNow> replayed(const Case& job, std::size_t entries, std::size_t without, std::size_t& mismatch) {
  std::vector<OffNow> off;
  mismatch = 0;
  for (std::size_t i = 0; i < std::min(entries, job.entries.size()); ++i) {
    const CaseWork* const work = work_at(job, i);
    if (work == nullptr || i + 1 == without) continue;
    const std::optional<WorkKind> back = undone_by(work->kind);
    const auto found = found_in(off, back.value_or(work->kind), work->what);
    const bool there = found != off.end();
    if (mismatch == 0 && ((back && !there) || (takes_off(work->kind) && there))) mismatch = i + 1;
    if (back && there) off.erase(found);
    if (takes_off(work->kind) && !there) off.push_back({work->kind, work->what, job.entries[i].at, i + 1});
  }
  return off;
}

std::string listed(const std::vector<OffNow>& off, WorkKind kind) {
  std::string text;
  for (const OffNow& one : off) {
    if (one.kind == kind) text += (text.empty() ? "" : ", ") + one.what;
  }
  return text;
}

std::string why_not_work(const Case& job, const CaseWork& work) {
  std::vector<OffNow> off = ledger_of(job);
  const std::optional<WorkKind> back = undone_by(work.kind);
  const WorkKind kind = back.value_or(work.kind);
  const bool there = found_in(off, kind, work.what) != off.end();
  const std::string state(state_word(kind));
  if (back && !there) {
    const std::string others = listed(off, kind);
    return json::in_quotes(work.what) + " is not " + state + "; " +
           (others.empty() ? "nothing is" : state + " now: " + others);
  }
  if (takes_off(work.kind) && there) return json::in_quotes(work.what) + " is " + state + " already";
  return "";
}

std::string why_not_undo(const Case& job, std::size_t entry) {
  const CaseWork* const work = work_at(job, entry - 1);
  if (work == nullptr) return "";
  std::size_t before = 0;
  std::size_t mismatch = 0;
  replayed(job, nowhere, 0, before);
  replayed(job, nowhere, entry, mismatch);
  if (mismatch == 0 || mismatch == before) return "";
  return "entry " + std::to_string(mismatch) + " (" + std::string(word_for(job.entries[mismatch - 1].contents)) +
         ") builds on it; undo that one first";
}

std::string why_not_close(const Case& job) {
  const std::vector<OffNow> off = ledger_of(job);
  if (off.empty()) return "";
  std::string text = "not everything is back in place: ";
  for (const OffNow& one : off) {
    text += (&one == &off.front() ? "" : "; ") + one.what + " is " + std::string(state_word(one.kind)) + " since " +
            time_phrase(one.at) + " (entry " + std::to_string(one.entry) + ")";
  }
  return text;
}

}  // namespace

const CaseWork* work_at(const Case& job, std::size_t i) {
  return job.undone[i] ? nullptr : std::get_if<CaseWork>(&job.entries[i].contents);
}

std::string why_it_cannot_stand(const Case& job, const CaseContents& contents) {
  const auto* const undo = std::get_if<CaseUndo>(&contents);
  if (undo == nullptr && job.closed_by != 0) return "the case is closed; `undo` opens it again";
  if (std::holds_alternative<CaseClose>(contents)) return why_not_close(job);
  if (undo == nullptr) return "";
  const std::string entry = "entry " + std::to_string(undo->entry);
  if (undo->entry == 0 || undo->entry > job.entries.size())
    return "there is no " + entry + "; the last is entry " + std::to_string(job.entries.size());
  const CaseContents& meant = job.entries[undo->entry - 1].contents;
  if (std::holds_alternative<CaseStart>(meant)) return "the start cannot be undone; begin a new case";
  if (std::holds_alternative<CaseUndo>(meant)) return entry + " is an undo itself; enter again what it took back";
  if (job.undone[undo->entry - 1]) return entry + " is undone already";
  if (job.closed_by != 0 && !std::holds_alternative<CaseClose>(meant))
    return "the case is closed; undo the close first, which opens it again";
  return "";
}

std::string why_not_now(const Case& job, const CaseContents& contents) {
  if (std::holds_alternative<CaseStart>(contents)) return "the case has its start already";
  std::string why = why_it_cannot_stand(job, contents);
  if (!why.empty()) return why;
  if (const auto* const work = std::get_if<CaseWork>(&contents)) return why_not_work(job, *work);
  if (const auto* const undo = std::get_if<CaseUndo>(&contents)) return why_not_undo(job, undo->entry);
  return "";
}

void add_entry(Case& job, CaseEntry entry) {
  if (const auto* const undo = std::get_if<CaseUndo>(&entry.contents)) {
    job.undone[undo->entry - 1] = true;
    if (job.closed_by == undo->entry) job.closed_by = 0;
  }
  if (std::holds_alternative<CaseClose>(entry.contents)) job.closed_by = job.entries.size() + 1;
  job.entries.push_back(std::move(entry));
  job.undone.push_back(false);
}

std::vector<OffNow> ledger_of(const Case& job, std::size_t entries) {
  std::size_t mismatch = 0;
  return replayed(job, entries, 0, mismatch);
}

std::size_t last_to_undo(const Case& job) {
  for (std::size_t i = job.entries.size(); i > 1; --i) {
    if (!job.undone[i - 1] && !std::holds_alternative<CaseUndo>(job.entries[i - 1].contents)) return i;
  }
  return 0;
}

}  // namespace whichwire
