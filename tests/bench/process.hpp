// One run of a program as the system counts it.
#pragma once

#include <string>
#include <vector>

namespace whichwire::bench {

struct Counted {
  int status = -1;
  double milliseconds = 0;    ///< from start to end
  double peak_mebibytes = 0;  ///< largest resident size
  double processor_ms = 0;    ///< of all its threads
};

/// Runs the program with its output thrown away.
Counted run_once(const std::vector<std::string>& words);

/// Runs the program with its output thrown away; its resident size in MiB every tenth of a second.
std::vector<double> resident_while_running(const std::vector<std::string>& words);

/// The median time of five to 31 runs and the largest peak; `status` of the last.
Counted run_often(const std::vector<std::string>& words);

}  // namespace whichwire::bench
