// The Brindle Fell, an invented vehicle for the patterns of the trade, and scans of it in short words.
//
//   DLC --DIAG-1-- GWM --DRV-1-- S1 --DRV-2-- C1 --DRV-3-- S2 --DRV-4-- ECM      (120 ohms in GWM and ECM)
//    |                           |                         |  \.
//   KL-1 (K-line)               ABS                       TCM  EPS               ABS --YAWBUS-- YAW (private pair)
//   IMM                                                                          BCM --LIN-- WIP, RLS
//   GWM --BDY-1-- S5 --BDY-4-- IPC (120 ohms in GWM and IPC), with BCM, HVC and SEA (optional) on S5
#pragma once

#include <string>
#include <vector>
#include <whichwire/check.hpp>

#include "building.hpp"

namespace fell {

using namespace whichwire;
using Ids = std::vector<std::string>;

Network network();

/// A ring of four: HEAD (with the only way to the tester), AMP, NAV, TEL.
Network ring();

/// A scan in short words; all modules of the network that no word is said about answer without codes.
class Says {
 public:
  explicit Says(const Network& network);

  Says& silent(const Ids& modules);
  Says& all_silent();
  Says& answer(const std::string& module, Answer answer);
  /// `reporter` stores that it misses each of `missed`.
  Says& misses(const std::string& reporter, const Ids& missed, CodeState state = CodeState::current,
               std::optional<double> volts = std::nullopt);
  Says& code(const std::string& reporter, const std::string& code, CodeState state = CodeState::current);
  Says& works(const std::string& function, bool works);
  Says& key(KeyState key);
  Says& battery(double volts);
  Says& own_battery();

  const Scan& scan() const { return scan_; }

 private:
  ModuleSeen& seen(const std::string& module);
  Scan scan_;
};

/// What the program says about a scan.
struct Answered {
  Ranking ranking;
  Verdict verdict;
  CheckPlan plan;
};

Answered locate_in(const Network& network, const Says& says);

/// Position of the first check whose id begins with one of `starts`; the number of checks if none does.
std::size_t first_of(const CheckPlan& plan, const Ids& starts);

/// All that is wrong with an expectation, for messages: the checks in order.
std::string listed(const Answered& answered);

}  // namespace fell
