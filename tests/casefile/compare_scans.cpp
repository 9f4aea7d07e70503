// The last scan against the first. Expected answers are worked out by hand from the lines of the scans.
#include <algorithm>

#include "casefile/jobs.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

using Texts = std::vector<std::string>;

Texts texts_of(const std::vector<ScanDifference>& all) {
  Texts texts;
  for (const ScanDifference& one : all) texts.push_back(one.what);
  return texts;
}

ScanComparison compared(const Job& job) {
  const auto comparison = compare_scans(job.read());
  REQUIRE(comparison);
  return *comparison;
}

}  // namespace

TEST_CASE("with fewer than two scans there is nothing to compare") {
  Job job;
  CHECK_FALSE(compare_scans(job.read()));
  CHECK(job.why(CaseScan{scan_of("ECM no reply\n")}) == "");
  CHECK_FALSE(compare_scans(job.read()));
  CHECK(job.why(CaseScan{scan_of("ECM ok\n")}) == "");
  CHECK(compare_scans(job.read()));
  CHECK(job.why(CaseUndo{3}) == "");
  CHECK_FALSE(compare_scans(job.read()));
}

TEST_CASE("what the last scan no longer shows is gone, what both show is still there, what only it shows is new") {
  Job job;
  CHECK(job.why(CaseScan{scan_of("ECM no reply\nTCM ok U0100-87 current\nABS ok U0100-87 current\nIPC ok B1001\n")}) ==
        "");
  CHECK(job.why(CaseScan{scan_of("ECM ok\nTCM ok\nABS ok U0100-87 history\nIPC ok B1001, B1002\n")}) == "");
  const ScanComparison comparison = compared(job);
  CHECK(comparison.first == 2);
  CHECK(comparison.last == 3);
  CHECK(texts_of(comparison.gone) == Texts{"TCM stores U0100-87 (current)", "ECM is silent"});
  CHECK(texts_of(comparison.still) == Texts{"ABS stores U0100-87 (history, was current)", "IPC stores B1001"});
  CHECK(texts_of(comparison.fresh) == Texts{"IPC stores B1002"});
  CHECK(comparison.fresh[0].because == "");
  CHECK(comparison.not_seen.empty());
}

TEST_CASE("what the last scan did not look at is neither gone nor there") {
  Job job;
  CHECK(job.why(CaseScan{scan_of("ECM no reply\nTCM ok U0100-87 current\nABS ok B1001\n")}) == "");
  CHECK(job.why(CaseScan{scan_of("TCM no reply\nHVAC ok\n")}) == "");
  const ScanComparison comparison = compared(job);
  CHECK(comparison.gone.empty());
  CHECK(texts_of(comparison.not_seen) == Texts{"ABS stores B1001", "TCM stores U0100-87 (current)", "ECM is silent"});
  CHECK(texts_of(comparison.fresh) == Texts{"TCM is silent"});
}

TEST_CASE("a new code about a plug that was unplugged in testing says so, and comes first") {
  Job job;
  CHECK(job.why(CaseScan{scan_of("ECM no reply\nTCM ok\nABS ok\nHVAC ok\nBCM ok\n")}) == "");
  CHECK(job.why(work(WorkKind::unplug, "ABS")) == "");
  CHECK(job.why(work(WorkKind::replug, "ABS")) == "");
  CHECK(job.why(CaseScan{scan_of("ECM ok\nTCM ok U0121-87 current\nABS ok\nHVAC ok\nBCM ok B1342\n")}) == "");
  const ScanComparison comparison = compared(job);
  CHECK(texts_of(comparison.fresh) == Texts{"TCM stores U0121-87 (current)", "BCM stores B1342"});
  CHECK(comparison.fresh[0].because ==
        "ABS was unplugged in testing at 2026-03-02 09:02 UTC, back at 2026-03-02 09:03 UTC: check that it sits");
  CHECK(comparison.fresh[1].because == "");
}

TEST_CASE("a sensor's plug and a pulled fuse count as well; what is off still is said to be") {
  Job job;
  CHECK(job.why(CaseScan{scan_of("ECM ok\nTCM ok\nABS ok\n")}) == "");
  CHECK(job.why(work(WorkKind::unplug, "camshaft sensor")) == "");
  CHECK(job.why(work(WorkKind::fuse_out, "F5")) == "");
  CHECK(job.why(CaseScan{scan_of("ECM ok P0340\nTCM ok\nABS no reply\n")}) == "");
  const ScanComparison comparison = compared(job);
  REQUIRE(comparison.fresh.size() == 2);
  for (const ScanDifference& one : comparison.fresh) {
    if (one.what == "ECM stores P0340") {
      CHECK(one.because == "camshaft sensor was unplugged in testing at 2026-03-02 09:02 UTC, and is off still");
    }
  }
}

TEST_CASE("a plug that was off only after the last scan explains nothing in it") {
  Job job;
  CHECK(job.why(CaseScan{scan_of("TCM ok\nABS ok\n")}) == "");
  CHECK(job.why(CaseScan{scan_of("TCM ok U0121-87\nABS ok\n")}) == "");
  CHECK(job.why(work(WorkKind::unplug, "ABS")) == "");
  CHECK(compared(job).fresh[0].because == "");
}

TEST_CASE("the scan before the repair is the last before a part or programming") {
  Job job;
  CHECK(job.why(CaseScan{scan_of("ECM no reply\n")}) == "");
  CHECK(job.why(CaseScan{scan_of("ECM no reply\nTCM ok\n")}) == "");
  CHECK(job.why(work(WorkKind::replaced, "fuse F3")) == "");
  CHECK(job.why(CaseScan{scan_of("ECM ok\n")}) == "");
  const ScansOf scans = scans_of(job.read());
  CHECK(scans.first == 2);
  CHECK(scans.before_repair == 3);
  CHECK(scans.last == 5);
}
