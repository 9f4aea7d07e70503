// Tests: tests/cli/files.cpp, tests/cli/working.cpp.
#include "terminal.hpp"

#include <spdlog/logger.h>
#include <spdlog/sinks/stdout_sinks.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <mutex>
#include <thread>

#include "exit_status.hpp"
#include "write_all.hpp"

namespace whichwire::cli {

namespace {

constexpr std::size_t widest = 80;
constexpr std::size_t narrowest = 40;

/// Made at the first message, since most runs have none.
spdlog::logger& logger() {
  static const auto made = [] {
    auto log = std::make_unique<spdlog::logger>("whichwire", std::make_shared<spdlog::sinks::stderr_sink_st>());
    log->set_pattern("%n: %v");
    return log;
  }();
  return *made;
}

std::size_t width_of_output() {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return widest;
  return std::clamp<std::size_t>(size.ws_col, narrowest, widest);
}

bool plain_wanted() {
  const char* no_colour = std::getenv("NO_COLOR");
  return no_colour != nullptr && *no_colour != '\0';
}

}  // namespace

/// A thread of its own, since the library knows nothing of who waits for it.
struct Working::Line {
  explicit Line(const Words& words) : thread([this, words] { tick(words); }) {}
  ~Line() {
    {
      const std::lock_guard hold(mutex);
      over = true;
    }
    ended.notify_one();
    thread.join();
  }

  void tick(const Words& words) {
    std::unique_lock hold(mutex);
    int seconds = 0;
    while (!ended.wait_for(hold, std::chrono::seconds(1), [this] { return over; }))
      std::fprintf(stderr, "\r\x1b[K%s", words(++seconds).c_str());
    if (seconds > 0) std::fputs("\r\x1b[K", stderr);  // nothing is left of it
  }

  std::mutex mutex;
  std::condition_variable ended;
  bool over = false;
  std::thread thread;
};

Working::Working(const Words& words) {
  if (isatty(STDERR_FILENO) != 0 && !plain_wanted()) line_ = std::make_unique<Line>(words);
}
Working::Working(const std::string& what)
    : Working([what](int seconds) { return what + " … " + std::to_string(seconds) + " s"; }) {}
Working::~Working() = default;

Look look_of_output() {
  Look look;
  if (isatty(STDOUT_FILENO) == 0) return look;
  look.colour = !plain_wanted();
  look.width = width_of_output();
  return look;
}

bool input_is_terminal() { return isatty(STDIN_FILENO) != 0; }

int write_out(const std::string& text) {
  if (write_all(STDOUT_FILENO, text)) return done;
  message(std::string("cannot write the result: ") + std::strerror(errno));
  return failed;
}

void message(const std::string& text) { logger().error(printable(text)); }

void message(const std::vector<Mistake>& mistakes) {
  std::string all;
  for (const Mistake& mistake : mistakes) all += text_of(mistake);
  std::fwrite(all.data(), 1, all.size(), stderr);
}

}  // namespace whichwire::cli
