// What is off, what may follow, what an undo takes back.
#include "casefile/jobs.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

std::string off_in(const Job& job) {
  std::string text;
  for (const OffNow& one : ledger_of(job.read())) text += std::string(word_for(one.kind)) + " " + one.what + "; ";
  return text;
}

}  // namespace

TEST_CASE("the ledger holds what is unplugged, pulled and bridged until it is put back") {
  Job job;
  CHECK(off_in(job) == "");
  CHECK(job.why(work(WorkKind::unplug, "ECM")) == "");
  CHECK(job.why(work(WorkKind::fuse_out, "F3")) == "");
  CHECK(job.why(work(WorkKind::jumper, "F4 in to F4 out")) == "");
  CHECK(off_in(job) == "unplug ECM; fuse-out F3; jumper F4 in to F4 out; ");
  CHECK(job.why(work(WorkKind::fuse_in, "F3")) == "");
  CHECK(job.why(work(WorkKind::jumper_off, "F4 in to F4 out")) == "");
  CHECK(job.why(work(WorkKind::replug, "ECM")) == "");
  CHECK(off_in(job) == "");
}

TEST_CASE("a close is refused while something is off, and names each place") {
  Job job;
  CHECK(job.why(work(WorkKind::unplug, "ECM")) == "");
  CHECK(job.why(work(WorkKind::fuse_out, "F3")) == "");
  CHECK(job.why(CaseClose{}) ==
        "not everything is back in place: ECM is unplugged since 2026-03-02 09:01 UTC (entry 2); F3 is out since "
        "2026-03-02 09:02 UTC (entry 3)");
  CHECK(job.why(work(WorkKind::replug, "ECM")) == "");
  CHECK(job.why(CaseClose{}).starts_with("not everything is back in place: F3 is out"));
  CHECK(job.why(work(WorkKind::fuse_in, "F3")) == "");
  CHECK(job.why(CaseClose{}) == "");
}

TEST_CASE("what is not off cannot be put back, what is off cannot be taken off again") {
  Job job;
  CHECK(job.why(work(WorkKind::replug, "ECM")) == "`ECM` is not unplugged; nothing is");
  CHECK(job.why(work(WorkKind::unplug, "TCM")) == "");
  CHECK(job.why(work(WorkKind::replug, "ECM")) == "`ECM` is not unplugged; unplugged now: TCM");
  CHECK(job.why(work(WorkKind::fuse_in, "F3")) == "`F3` is not out; nothing is");
  CHECK(job.why(work(WorkKind::unplug, "TCM")) == "`TCM` is unplugged already");
  CHECK(job.read().entries.size() == 2);
}

TEST_CASE("an undo is an entry; what it takes back no longer counts but stays in the file") {
  Job job;
  CHECK(job.why(work(WorkKind::unplug, "ECM")) == "");
  CHECK(last_to_undo(job.read()) == 2);
  CHECK(job.why(CaseUndo{2}) == "");
  CHECK(off_in(job) == "");
  const Case read = job.read();
  CHECK(read.entries.size() == 3);
  CHECK(read.undone == std::vector<bool>{false, true, false});
  CHECK(last_to_undo(read) == 0);
}

TEST_CASE("an undo of what cannot be undone is refused with the reason") {
  Job job;
  CHECK(job.why(CaseUndo{1}) == "the start cannot be undone; begin a new case");
  CHECK(job.why(CaseUndo{7}) == "there is no entry 7; the last is entry 1");
  CHECK(job.why(work(WorkKind::unplug, "ECM")) == "");
  CHECK(job.why(work(WorkKind::replug, "ECM")) == "");
  CHECK(job.why(CaseUndo{2}) == "entry 3 (replug) builds on it; undo that one first");
  CHECK(job.why(CaseUndo{3}) == "");
  CHECK(job.why(CaseUndo{3}) == "entry 3 is undone already");
  CHECK(job.why(CaseUndo{4}) == "entry 4 is an undo itself; enter again what it took back");
  CHECK(job.why(CaseUndo{2}) == "");
}

TEST_CASE("behind the close only its undo is taken, which opens the case again") {
  Job job;
  CHECK(job.why(note("one")) == "");
  CHECK(job.why(CaseClose{}) == "");
  CHECK(job.read().closed_by == 3);
  CHECK(job.why(note("two")) == "the case is closed; `undo` opens it again");
  CHECK(job.why(CaseUndo{2}) == "the case is closed; undo the close first, which opens it again");
  CHECK(last_to_undo(job.read()) == 3);
  CHECK(job.why(CaseUndo{3}) == "");
  CHECK(job.read().closed_by == 0);
  CHECK(job.why(note("two")) == "");
}

TEST_CASE("a second start is refused") {
  Job job;
  CHECK(job.why(compact_start()) == "the case has its start already");
}
