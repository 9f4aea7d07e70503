// What the entries of a case come to: which count, what is off, what may follow. Tested in tests/casefile/ledger.cpp.
#pragma once

#include <whichwire/casefile.hpp>

namespace whichwire {

/// Why an entry of a file cannot be right whoever wrote it: an undo of nothing, an entry behind the close, a close
/// while something is off. Empty: it can.
std::string why_it_cannot_stand(const Case&, const CaseContents&);

/// Why the entry must not be added now; beyond the above also what is off and what is not. Empty: it may.
std::string why_not_now(const Case&, const CaseContents&);

/// Adds the entry; an undo takes its entry back.
void add_entry(Case&, CaseEntry);

/// The work of entry `i`, where it counts and is work; else null.
const CaseWork* work_at(const Case&, std::size_t i);

}  // namespace whichwire
