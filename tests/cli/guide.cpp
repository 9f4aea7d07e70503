// The guide as a technician meets it: with a script on standard input, and at a terminal of 80 by 24 by key strokes.
#include <doctest/doctest.h>

#include <chrono>
#include <regex>
#include <thread>

#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string golden_folder = WHICHWIRE_SOURCE_DIR "/tests/cli/golden/";

/// A folder with a case on the invented compact car, and the scans that fuse F3 open and nothing at all give.
std::string folder(const std::string& name) {
  const std::string path = scratch() + "/" + name;
  const std::string car = "topologies/compact-car.json";
  const Run made = run("mkdir -p " + path + " && whichwire case start " + path + "/job.jsonl " + car +
                       " --unit T-14 --complaint 'does not crank' --at 2026-03-02T09:00:00Z" +
                       " && whichwire predict " + car + " --fault 'open F3' --scan-out " + path + "/scan.json" +
                       " && whichwire predict " + car + " --scan-out " + path + "/after.json");
  REQUIRE(made.status == 0);
  return path;
}

Run guided(const std::string& path, const std::string& script) {
  return run("cd " + path + " && whichwire case guide job.jsonl", script);
}

/// With every time of the day that it was run replaced by one.
std::string at_one_time(const std::string& page) {
  static const std::regex time("20\\d\\d-\\d\\d-\\d\\d \\d\\d:\\d\\d UTC");
  return std::regex_replace(page, time, "2026-03-02 09:00 UTC");
}

bool has_tmux() { return run("command -v tmux").status == 0; }

/// A terminal of 80 by 24.
class Terminal {
 public:
  explicit Terminal(const std::string& command) {
    run(tmux_ + "new-session -d -x 80 -y 24 'PS1= exec sh'");
    keys("clear; " + command);
  }
  ~Terminal() { run(tmux_ + "kill-server"); }
  Terminal(const Terminal&) = delete;
  Terminal& operator=(const Terminal&) = delete;

  void keys(const std::string& text) { run(tmux_ + "send-keys -l '" + text + "' && " + tmux_ + "send-keys Enter"); }

  /// The screen, once its last line is a prompt and what was awaited stands on it.
  std::string screen(const std::string& awaited) {
    std::string page;
    for (int i = 0; i < 300; ++i) {
      page = run(tmux_ + "capture-pane -p").out;
      const std::size_t last = page.find_last_not_of('\n');
      const bool asks = last != std::string::npos && page[last] == '>';
      if (page.find(awaited) != std::string::npos && asks) break;
      std::this_thread::sleep_for(std::chrono::milliseconds(100));
    }
    return page;
  }

 private:
  const std::string tmux_ = "tmux -S " + scratch() + "/tmux -f /dev/null ";
};

}  // namespace

TEST_CASE("a script walks through a whole job: scan, readings, a slip, terms, back, repair, proof, close") {
  const std::string path = folder("whole");
  const Run guide = guided(path,
                           "scan.json\n"
                           "?\n"
                           "purple\n"
                           "a\n"
                           "back\n"
                           "one contact dead\n"
                           "note had a new battery\n"
                           "skip\n"
                           "\n"
                           "0.0 V\n"
                           "\n"
                           "new fuse 15 A\n"
                           "after.json\n"
                           "perhaps\n"
                           "yes\n");
  CHECK(guide.status == 0);
  CHECK(guide.err == "");
  const std::string said = at_one_time(guide.out);
  CHECK(said == golden(golden_folder + "guide-script.txt", said));
  const Run status = run("cd " + path + " && whichwire case status job.jsonl --json");
  CHECK(status.out.find("\"closed\": true") != std::string::npos);
  CHECK(guided(path, "").out.find("The case is closed.") != std::string::npos);
}

TEST_CASE("the guide is left at any question and goes on from there") {
  const std::string path = folder("left");
  const std::string first = guided(path, "").out;
  CHECK(first.find("Left. `whichwire case guide job.jsonl` goes on from here.") != std::string::npos);
  guided(path, "scan.json\nquit\n");
  const std::string again = guided(path, "why\nmap\n? fuse\nskip\nquit\n").out;
  CHECK(again.find("Look at fuse F3") != std::string::npos);
  CHECK(again.find("Likely now") != std::string::npos);
  CHECK(again.find("ECM (silent)") != std::string::npos);
  CHECK(again.find("fuse: Look at it, and measure both its contacts") != std::string::npos);
  CHECK(again.find("F3: could not be done. It says: nothing, and it is not asked again.") != std::string::npos);
  CHECK(again.rfind("Look at fuse F3") < again.find("could not be done"));
}

TEST_CASE("a scan may be pasted, up to a line that is only a full stop, and its mistakes are said") {
  const std::string path = folder("paste");
  const Run guide =
      guided(path, "{\"format\": \"whichwire.scan.v1\"\n.\nECM no reply\nTCM ok U0100-87 current\nABS ok\n.\nquit\n");
  CHECK(guide.status == 0);
  CHECK(guide.err.find("pasted:") == 0);
  CHECK(guide.out.find("At: ") != std::string::npos);
}

TEST_CASE("a guide of a case that is not there says so") {
  const Run guide = run("whichwire case guide nowhere.jsonl");
  CHECK(guide.status == 2);
  CHECK(guide.err == "whichwire: nowhere.jsonl: no such file\n");
}

TEST_CASE("at a terminal of 80 by 24 the guide's screens are those that were looked at") {
  if (!has_tmux()) {
    MESSAGE("tmux is not there: the guide's screens are not judged (.ci/setup test brings it)");
    return;
  }
  Terminal terminal("cd " + folder("screens") + "; " WHICHWIRE_BINARY " case guide job.jsonl");
  const auto same = [&](const std::string& awaited, const std::string& name) {
    CAPTURE(name);
    const std::string page = terminal.screen(awaited);
    CHECK(page == golden(golden_folder + name, page));
  };
  same("end it with a line", "guide-screen-scan.txt");
  terminal.keys("scan.json");
  same("both contacts dead", "guide-screen-check.txt");
  terminal.keys("?");
  same("You may also type", "guide-screen-terms.txt");
  terminal.keys("b");
  same("Much hangs on this answer", "guide-screen-once-more.txt");
  terminal.keys("skip");
  same("Key off, then unplug ECM", "guide-screen-unplug.txt");
  terminal.keys("quit");
}
