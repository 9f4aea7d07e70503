// Nothing acknowledged is lost: writers that are killed, writers at once, writers with a full disk.
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <random>
#include <thread>

#include "casefile/jobs.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

constexpr const char* at = "2026-03-02T10:00:00Z";

/// A process that runs `work` and ends with its result.
template <class Work>
pid_t process(const Work& work) {
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) _exit(work());
  return child;
}

int ended(pid_t child) {
  int status = 0;
  REQUIRE(waitpid(child, &status, 0) == child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

}  // namespace

TEST_CASE("two processes that append at once lose nothing and mix nothing") {
  const Job job;
  constexpr int each = 60;
  const auto writer = [&](const std::string& who) {
    for (int i = 0; i < each; ++i) {
      if (append_to_case(job.path(), note(who + " " + std::to_string(i)), at).entry == 0) return 1;
    }
    return 0;
  };
  const pid_t one = process([&] { return writer("one"); });
  const pid_t two = process([&] { return writer("two"); });
  CHECK(ended(one) == 0);
  CHECK(ended(two) == 0);
  const Case read = job.read();
  CHECK(read.entries.size() == 1 + 2 * each);
  int next_of_one = 0;
  int next_of_two = 0;
  for (std::size_t i = 1; i < read.entries.size(); ++i) {
    const std::string& text = std::get<CaseNote>(read.entries[i].contents).text;
    int& next = text.starts_with("one") ? next_of_one : next_of_two;
    CHECK(text == (text.starts_with("one") ? "one " : "two ") + std::to_string(next++));
  }
  CHECK(next_of_one == each);
  CHECK(next_of_two == each);
}

TEST_CASE("a writer that is killed at 200 random moments loses nothing that it acknowledged") {
  const Job job;
  std::mt19937 random(20260302);
  std::uniform_int_distribution<int> microseconds(0, 12000);
  std::size_t acknowledged = 1;
  std::size_t found = 1;
  for (int round = 0; round < 200; ++round) {
    std::array<int, 2> pipe_ends{};
    REQUIRE(pipe2(pipe_ends.data(), O_CLOEXEC) == 0);
    const pid_t child = process([&] {
      while (true) {
        const Appended added = append_to_case(job.path(), note(std::string(300, 'x')), at);
        if (added.entry == 0) return 1;
        if (write(pipe_ends[1], &added.entry, sizeof added.entry) != sizeof added.entry) return 2;
      }
    });
    close(pipe_ends[1]);
    std::size_t last = 0;
    REQUIRE(read(pipe_ends[0], &last, sizeof last) == sizeof last);  // it is at work
    acknowledged = last;
    std::this_thread::sleep_for(std::chrono::microseconds(microseconds(random)));
    kill(child, SIGKILL);
    CHECK(ended(child) == -SIGKILL);
    while (read(pipe_ends[0], &last, sizeof last) == sizeof last) acknowledged = last;
    close(pipe_ends[0]);
    const CaseResult result = load_case(job.path());
    REQUIRE_MESSAGE(result.job, said(result.mistakes));
    REQUIRE(result.job->entries.size() >= acknowledged);
    REQUIRE(result.job->entries.size() >= found);
    found = result.job->entries.size();
  }
  CHECK(acknowledged > 200);
}

TEST_CASE("what a killed writer left half written is cut off by the next, whose entry stands whole") {
  Job job;
  const std::string before = text_at(job.path());
  for (const std::string half : {R"({"entry":"no)", R"({"entry":"note","at":"2026-03-02T10:00:00Z","text":"x")", "{"}) {
    write_at(job.path(), before + half);
    CHECK(job.read().cut_off_bytes == half.size());
    CHECK(job.why(note("after")) == "");
    const Case read = job.read();
    REQUIRE(read.entries.size() == 2);
    CHECK(read.cut_off_bytes == 0);
    CHECK(std::get<CaseNote>(read.entries[1].contents).text == "after");
  }
}

TEST_CASE("a whole last entry that only lacks its line feed counts, and the next begins a line of its own") {
  Job job;
  CHECK(job.why(note("first")) == "");
  std::string text = text_at(job.path());
  text.pop_back();
  write_at(job.path(), text);
  CHECK(job.why(note("second")) == "");
  CHECK(job.read().entries.size() == 3);
  CHECK(text_at(job.path()).starts_with(text + "\n{"));
}

TEST_CASE("a disk that is full leaves the case as it was and says so") {
  Job job;
  const std::string before = text_at(job.path());
  const pid_t child = process([&] {
    signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{before.size() + 40, before.size() + 40};
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0) return 9;
    const Appended added = append_to_case(job.path(), note(std::string(200, 'x')), at);
    return added.entry == 0 && added.failed && added.error == "cannot be written: File too large" ? 0 : 1;
  });
  CHECK(ended(child) == 0);
  CHECK(text_at(job.path()) == before);
  CHECK(job.why(note("later")) == "");
}

TEST_CASE("a case is started once; what a killed start left may be started again") {
  const Job job;
  const std::string whole = text_at(job.path());
  CHECK(start_case(job.path(), compact_start(), at).error ==
        "is there already; a case is started once, in a file of its own");
  CHECK(text_at(job.path()) == whole);
  write_at(job.path(), whole.substr(0, 400));
  CHECK(start_case(job.path(), compact_start(), "2026-03-02T09:00:00Z").entry == 1);
  CHECK(text_at(job.path()) == whole);
  write_at(job.path(), "my notes");
  CHECK(start_case(job.path(), compact_start(), at).entry == 0);
  CHECK(text_at(job.path()) == "my notes");
}

TEST_CASE("what the reader would refuse is not written") {
  Job job;
  const std::string before = text_at(job.path());
  CHECK(job.why(note("a\x1b[31mb")).starts_with("text: "));
  CHECK(job.why(note("")).starts_with("text: "));
  CHECK(job.why(reading("ECM/A-1", "twelve")).starts_with("reading: "));
  CHECK(append_to_case(job.path(), note("x"), "yesterday").error ==
        "yesterday is no time in UTC, as in 2026-03-02T09:14:00Z");
  CHECK(append_to_case(Job::fresh(), note("x"), at).error == "no such file; `start` makes one");
  CHECK(append_to_case("/dev/null", note("x"), at).error == "is no ordinary file");
  CHECK(text_at(job.path()) == before);
}
