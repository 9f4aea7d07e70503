// The words of a verdict: how sure, where the fault is, and what that may be. Tests: tests/checks/verdict.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/findings.hpp>

namespace whichwire {

/// A class as a headline names it.
struct Named {
  VerdictClass verdict_class;
  std::vector<std::string> parts;
  bool silent = false;   ///< the scan found the first part silent
  std::string only_bus;  ///< of a gateway: all is about its own wires or port on this bus; empty: not so
};

/// One class, or two that share the probability. That a ranking is not settled is said first.
std::string headline_of(const Network& network, const Ranking& ranking, const std::vector<Named>& said,
                        double probability);

}  // namespace whichwire
