// Tests: tests/cli/files.cpp.
#include "terminal.hpp"

#include <spdlog/logger.h>
#include <spdlog/sinks/stdout_sinks.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <memory>

#include "exit_status.hpp"

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

}  // namespace

Look look_of_output() {
  Look look;
  if (isatty(STDOUT_FILENO) == 0) return look;
  const char* no_colour = std::getenv("NO_COLOR");
  look.colour = no_colour == nullptr || *no_colour == '\0';
  look.width = width_of_output();
  return look;
}

bool input_is_terminal() { return isatty(STDIN_FILENO) != 0; }

int write_out(const std::string& text) {
  if (std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0) return done;
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
