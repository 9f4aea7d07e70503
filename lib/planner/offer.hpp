// The checks that are still to be had, with what each would show. Tests: tests/planner/trade_rules.cpp.
#pragma once

#include "planner/evidence.hpp"

namespace whichwire {

struct Offered {
  const Prospect* prospect = nullptr;
  bool once_more = false;  ///< it was answered, and taking it again tells a slip of the hand from what is there
};

struct Offer {
  std::vector<Offered> checks;
  TestProblem problem;
};

/// All that are not answered, or answered once by hand, and tell something; places that must not be measured are named
/// in `refused`.
Offer offer_of(const Bench& bench, const Weighing& weighing, const Situation& now, std::vector<Refused>& refused);

/// Bits about the repair of each test by itself.
std::vector<double> gains(const TestProblem& problem);

/// Keeps the tests that tell most a minute.
void keep_best(Offer& offer, std::vector<double>& bits, std::size_t most);

/// The last answer to a check that may be a slip of the hand; nullptr: it came out twice alike, or taking it again
/// tells nothing. Of two that differ a third decides.
const Answered* worth_once_more(const Weighing& weighing, const std::string& check);

/// Of a check that was answered. While the technician is still at that place: the work alone.
double minutes_once_more(const Bench& bench, const Weighing& weighing, const Prospect& prospect);

/// How often it was answered, be it that it could not be done.
std::ptrdiff_t times_answered(const Weighing& weighing, const std::string& check);

/// Whether the check has an answer that was understood, or cannot be done.
bool answered(const Weighing& weighing, const std::string& check);

/// Whether it was said that the check cannot be done.
bool put_aside(const Weighing& weighing, const std::string& check);

}  // namespace whichwire
