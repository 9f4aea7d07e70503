// Random plain problems whose logs are whole thousandths, so that solvers that count in integers get them exactly:
// candidates that raise observations to levels of any kind, and observations as scans give them, normal, abnormal or of
// the past. Many weights are equal, so ties are common.
#pragma once

#include "differential/random_network.hpp"
#include "locate/problem.hpp"

namespace whichwire::test {

search::Problem random_problem(Dice& dice);

}  // namespace whichwire::test
