// Tests: tests/cli/locate.cpp, tests/cli/draw.cpp.
#include "answer.hpp"

namespace whichwire::cli {

Answered answer_for(const Network& network, const Scan& scan, const Rates& rates, LocateOptions search) {
  const Effects effects(network);
  const std::vector<Fault> faults = faults_of(network, rates);
  search.no_fault = factor_of_no_fault(rates);
  Answered answered{locate(effects, faults, scan, search), {}, {}};
  answered.verdict = verdict_of(network, answered.ranking);
  answered.plan = plan_checks(effects, faults, answered.ranking, scan);
  return answered;
}

}  // namespace whichwire::cli
