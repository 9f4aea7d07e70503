// Work on all cores whose results are taken in the order of what was given, with no more of either in memory than a
// few for each core. Tests: tests/fleet/in_order.cpp.
#pragma once

#include <algorithm>
#include <deque>
#include <future>
#include <optional>
#include <thread>

namespace whichwire {

/// Calls `next` on this thread until it gives nullopt, `work` on each piece on some other, and `take` on this one again
/// with each result in order, until it returns false. What any of them throws comes out here, after all have ended.
/// `threads`: 0 for as many as there are cores.
template <class Next, class Work, class Take>
void in_order(std::size_t threads, Next next, Work work, Take take) {
  using Piece = typename decltype(next())::value_type;
  using Result = decltype(work(std::declval<Piece>()));
  if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
  std::deque<std::future<Result>> going;
  bool wanted = true;
  const auto take_first = [&] {
    wanted = take(going.front().get());
    going.pop_front();
  };
  while (wanted) {  // NOLINT(bugprone-infinite-loop): take_first changes it
    std::optional<Piece> piece = next();
    if (!piece) break;
    // A thread a piece: pieces take milliseconds at least, and a thread is made in some ten microseconds.
    going.push_back(std::async(std::launch::async, work, std::move(*piece)));
    if (going.size() > threads) take_first();
  }
  while (wanted && !going.empty()) take_first();
}

}  // namespace whichwire
