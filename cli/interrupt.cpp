// Tests: tests/cli/fleet.cpp.
#include "interrupt.hpp"

#include <atomic>
#include <csignal>

namespace whichwire::cli {
namespace {

std::atomic<int> stopped_by = 0;
static_assert(decltype(stopped_by)::is_always_lock_free, "a signal handler may not wait");

extern "C" void note_stop(int signal) { stopped_by = signal; }

}  // namespace

void stop_when_asked() {
  struct sigaction action {};
  action.sa_handler = note_stop;
  action.sa_flags = static_cast<int>(SA_RESETHAND);  // no SA_RESTART: a read that waits ends
  for (const int signal : {SIGINT, SIGTERM}) sigaction(signal, &action, nullptr);
}

bool stop_wanted() { return stopped_by != 0; }

int status_of_stop() { return 128 + stopped_by; }

}  // namespace whichwire::cli
