// The way from a scan to what is known: ranking, verdict, checks.
#pragma once

#include <whichwire/check.hpp>
#include <whichwire/findings.hpp>

namespace whichwire::cli {

struct Answered {
  Ranking ranking;
  Verdict verdict;
  CheckPlan plan;
};

Answered answer_for(const Network& network, const Scan& scan, const Rates& rates, LocateOptions search = {});

}  // namespace whichwire::cli
