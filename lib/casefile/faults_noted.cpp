// Faults that were there before anything was touched, apart from those found after.
// Tested in tests/casefile/faults_noted.cpp.
#include <whichwire/casefile.hpp>

#include "casefile/replay.hpp"

namespace whichwire {

FaultsNoted faults_noted(const Case& job) {
  FaultsNoted noted;
  for (const std::string& fault : job.start().intake.works_not)
    noted.before.push_back({job.entries.front().at, fault + " does not work"});
  bool working = false;
  for (std::size_t i = 0; i < job.entries.size(); ++i) {
    if (job.undone[i]) continue;
    const CaseContents& contents = job.entries[i].contents;
    working |= work_at(job, i) != nullptr || std::holds_alternative<CaseReading>(contents);
    const auto* const note = std::get_if<CaseNote>(&contents);
    if (note == nullptr || !note->fault) continue;
    (working ? noted.after : noted.before).push_back({job.entries[i].at, note->text});
  }
  return noted;
}

}  // namespace whichwire
