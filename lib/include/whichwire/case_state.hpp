// What a case knows: its scan ranked, every reading that counts weighed, what is likely now, what comes next.
#pragma once

#include <optional>
#include <string>
#include <vector>
#include <whichwire/casefile.hpp>
#include <whichwire/planner.hpp>

namespace whichwire {

/// A reading of the case and what became of it.
struct CaseAnswer {
  std::size_t entry = 0;
  std::string check;       ///< id of the check that it answers; empty: none
  bool put_aside = false;  ///< the check could not be done
  Weighed weighed;
};

/// One scan with the readings that were taken about the same state of the vehicle: since the repair before it, up to
/// the next.
struct CaseReasoning {
  std::size_t entry = 0;  ///< of the scan
  Ranking ranking;        ///< by the scan alone
  Verdict verdict;
  std::vector<CaseAnswer> answers;  ///< in the order of the entries
  Assessment assessment;            ///< the ranking with the readings
};

/// Whether the scan of this entry (from 1) is not the first one since the last repair.
bool scanned_again(const Case&, std::size_t scan_entry);

/// nullopt where the entry is no scan.
std::optional<CaseReasoning> reasoning_of(const Case& job, std::size_t scan, const Rates& rates = default_rates());

enum class CaseStage : std::uint8_t {
  scan_first,  ///< there is no scan
  measuring,   ///< `reasoning` says what comes next
  scan_again,  ///< something was repaired and not scanned since
  whole,       ///< the scan after the repair shows no fault of the network
  closed,
};

struct CaseState {
  CaseStage stage = CaseStage::scan_first;
  std::optional<CaseReasoning> reasoning;  ///< of the last scan, rather one that was taken with nothing off
  std::vector<OffNow> put_back;            ///< off now, and in the way of the next check
  std::vector<std::string> take_off;       ///< to be unplugged for the next check, and not off yet
};

CaseState state_of(const Case& job, const Rates& rates = default_rates());

/// The outcome of the check that the words mean: its letter in the order of `expect`, `b`, its name or label, or the
/// beginning of one; nullopt: none, or more than one.
std::optional<std::size_t> outcome_meant(const Check& check, std::string_view words);

}  // namespace whichwire
