#include "casefile/jobs.hpp"

using namespace whichwire;
using namespace whichwire::test;

TEST_CASE("faults noted before work are kept apart from faults found after") {
  Job job;  // its intake says that the rear wiper does not work
  CHECK(job.why(CaseNote{"left window slow", true, {}}) == "");
  CHECK(job.why(CaseNote{"parked in the yard", false, {}}) == "");
  CHECK(job.why(CaseScan{scan_of("ECM no reply\n")}) == "");
  CHECK(job.why(CaseNote{"horn dead", true, {}}) == "");
  CHECK(job.why(reading("F3", "12.3 V")) == "");
  CHECK(job.why(CaseNote{"cup holder broken", true, {}}) == "");
  const FaultsNoted noted = faults_noted(job.read());
  REQUIRE(noted.before.size() == 3);
  CHECK(noted.before[0].text == "rear wiper does not work");
  CHECK(noted.before[1].text == "left window slow");
  CHECK(noted.before[2].text == "horn dead");
  REQUIRE(noted.after.size() == 1);
  CHECK(noted.after[0].text == "cup holder broken");
}

TEST_CASE("work that was undone did not begin anything") {
  Job job;
  CHECK(job.why(work(WorkKind::unplug, "ECM")) == "");
  CHECK(job.why(CaseUndo{2}) == "");
  CHECK(job.why(CaseNote{"horn dead", true, {}}) == "");
  CHECK(faults_noted(job.read()).after.empty());
}
