#include "process.hpp"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <fstream>
#include <thread>

namespace whichwire::bench {

namespace {

pid_t start(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  std::vector<std::string> copies = words;
  for (auto& word : copies) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  const pid_t child = vfork();
  if (child == 0) {
    const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
    dup2(nowhere, STDOUT_FILENO);
    dup2(nowhere, STDERR_FILENO);
    execvp(arguments.front(), arguments.data());
    _exit(127);
  }
  return child;
}

}  // namespace

Counted run_once(const std::vector<std::string>& words) {
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = start(words);
  int status = 0;
  rusage usage{};
  wait4(child, &status, 0, &usage);
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
  const auto ms = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) * 1e3 + static_cast<double>(time.tv_usec) * 1e-3;
  };
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128, took.count(), static_cast<double>(usage.ru_maxrss) / 1024,
          ms(usage.ru_utime) + ms(usage.ru_stime)};
}

std::vector<double> resident_while_running(const std::vector<std::string>& words) {
  const pid_t child = start(words);
  const double pages_a_mebibyte = 1048576.0 / static_cast<double>(sysconf(_SC_PAGESIZE));
  std::vector<double> sizes;
  for (int status = 0; waitpid(child, &status, WNOHANG) == 0;) {
    std::ifstream statm("/proc/" + std::to_string(child) + "/statm");
    double all = 0, resident = 0;
    if (statm >> all >> resident && resident > 0) sizes.push_back(resident / pages_a_mebibyte);
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
  return sizes;
}

Counted run_often(const std::vector<std::string>& words) {
  constexpr std::size_t least = 5, most = 31;
  constexpr double enough_ms = 1000;
  std::vector<double> times;
  Counted all;
  for (double spent = 0; times.size() < least || (spent < enough_ms && times.size() < most); spent += times.back()) {
    const auto once = run_once(words);
    times.push_back(once.milliseconds);
    all.peak_mebibytes = std::max(all.peak_mebibytes, once.peak_mebibytes);
    all.status = once.status;
  }
  std::nth_element(times.begin(), times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2), times.end());
  all.milliseconds = times[times.size() / 2];
  return all;
}

}  // namespace whichwire::bench
