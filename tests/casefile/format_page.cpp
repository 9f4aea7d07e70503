// The example of topologies/CASE-FORMAT.md is read as it stands there.
#include "casefile/jobs.hpp"

using namespace whichwire;

TEST_CASE("the example of the case format's page is a case without mistakes, and holds what the page says") {
  const std::string page = test::text_at(WHICHWIRE_SOURCE_DIR "/topologies/CASE-FORMAT.md");
  const std::string open = "```jsonl\n";
  const std::size_t from = page.find(open) + open.size();
  const CaseResult result = read_case(page.substr(from, page.find("```", from) - from), "page");
  REQUIRE_MESSAGE(result.job, test::said(result.mistakes));
  CHECK(result.job->entries.size() == 10);
  CHECK(result.job->undone[6]);
  CHECK(result.job->closed_by == 10);
  CHECK(std::get<CaseReading>(result.job->entries[7].contents).outcome == "answers");
  CHECK(result.job->start().intake.added_devices == std::vector<std::string>{"tracker"});
  CHECK(ledger_of(*result.job).empty());
}
