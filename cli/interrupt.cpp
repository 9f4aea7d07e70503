// Tests: tests/cli/fleet.cpp, tests/hardening/fleet.cpp.
#include "interrupt.hpp"

#include <atomic>
#include <chrono>
#include <csignal>

namespace whichwire::cli {
namespace {

using Clock = std::chrono::steady_clock;

// What sends a signal to a program and to its group, as timeout(1) does, sends it twice for one wish.
constexpr std::chrono::seconds one_wish{1};

std::atomic<int> stopped_by = 0;
std::atomic<Clock::rep> stopped_at = 0;
static_assert(decltype(stopped_by)::is_always_lock_free && decltype(stopped_at)::is_always_lock_free,
              "a signal handler may not wait");

extern "C" void note_stop(int signal) {
  const Clock::duration now = Clock::now().time_since_epoch();
  if (stopped_by == 0) {
    stopped_at = now.count();
    stopped_by = signal;
  } else if (now - Clock::duration(stopped_at) >= one_wish) {
    std::signal(signal, SIG_DFL);
    std::raise(signal);
  }
}

}  // namespace

void stop_when_asked() {
  struct sigaction action {};
  action.sa_handler = note_stop;
  action.sa_flags = 0;  // no SA_RESTART: a read that waits ends
  for (const int signal : {SIGINT, SIGTERM}) sigaction(signal, &action, nullptr);
}

bool stop_wanted() { return stopped_by != 0; }

int status_of_stop() { return 128 + stopped_by; }

}  // namespace whichwire::cli
