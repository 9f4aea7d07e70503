// How long something takes: the median of repeated runs, which an occasional interruption does not move. Counted is
// processor time, as the solvers that we compare with count theirs, so that what else the machine does matters little.
#pragma once

#include <algorithm>
#include <ctime>
#include <vector>

namespace whichwire::bench {

inline double processor_ms() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

/// Median milliseconds of one call: at least three calls, and up to half a second of them.
template <class Work>
double median_ms(Work work) {
  constexpr std::size_t least = 3, most = 1000;
  constexpr double enough_ms = 500;
  std::vector<double> times;
  for (double spent = 0; times.size() < least || (spent < enough_ms && times.size() < most);) {
    const double begin = processor_ms();
    work();
    times.push_back(processor_ms() - begin);
    spent += times.back();
  }
  std::nth_element(times.begin(), times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2), times.end());
  return times[times.size() / 2];
}

}  // namespace whichwire::bench
