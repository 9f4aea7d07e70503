// Whatever is accepted can be written and read again, and says the same; the ledger and the comparison take any case.
#include <whichwire/casefile.hpp>

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace whichwire;
  const CaseResult result = read_case(fuzz::text_of_bytes(data, size), "fuzz.jsonl");
  fuzz::insist_on(result.job.has_value(), result.mistakes);
  if (!result.job) return 0;
  const Case& job = *result.job;
  fuzz::insist(job.complete_bytes + job.cut_off_bytes == size);
  fuzz::insist(!job.entries.empty() && job.entries.size() == job.undone.size());
  for (const OffNow& one : ledger_of(job)) fuzz::insist(one.entry > 0 && one.entry <= job.entries.size());
  compare_scans(job);
  faults_noted(job);
  // The start is kept as it stands: its network is not written from the model.
  const std::string_view text = fuzz::text_of_bytes(data, size);
  std::string written(text.substr(0, text.find('\n', text.find('{'))));
  for (std::size_t i = 1; i < job.entries.size(); ++i) written += "\n" + json_of(job.entries[i]);
  const CaseResult again = read_case(written, "again.jsonl");
  fuzz::insist(again.job.has_value());
  fuzz::insist(again.job->entries.size() == job.entries.size());
  for (std::size_t i = 1; i < job.entries.size(); ++i)
    fuzz::insist(json_of(again.job->entries[i]) == json_of(job.entries[i]));
  return 0;
}
