// The `case` commands as a technician types them: a whole job, and what is refused on the way.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "effort.hpp"
#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string golden_folder = WHICHWIRE_SOURCE_DIR "/tests/cli/golden/";
const std::string before =
    "key on, engine off, battery 12.5 V\nECM no reply\nTCM ok U0100-87 current\nABS ok U0100-87 current\nBCM ok B1342 "
    "history\nIPC ok U0100-87 current\nHVAC ok\nEPS ok\nSRS ok\n";
const std::string after =
    "key on, engine off, battery 12.6 V\nECM ok\nTCM ok U0121-87 current\nABS ok\nBCM ok B1342 history\nIPC ok "
    "U0100-87 "
    "history\nEPS ok\nSRS ok\n";

/// A case in the scratch folder; each entry a minute after the one before.
class Job {
 public:
  explicit Job(const std::string& name) : path_(scratch() + "/" + name + ".jsonl") {}

  Run command(const std::string& words, const std::string& input = "") {
    const std::size_t blank = std::min(words.find(' '), words.size());
    return run("whichwire case " + words.substr(0, blank) + " " + path_ + words.substr(blank) + at(), input);
  }
  /// Must be taken.
  std::string done(const std::string& words, const std::string& input = "") {
    CAPTURE(words);
    const Run taken = command(words, input);
    CHECK(taken.status == 0);
    CHECK(taken.err == "");
    return taken.out;
  }
  void refused(const std::string& words, const std::string& message, const std::string& input = "") {
    CAPTURE(words);
    const std::string text = read_text(path_);
    const Run run = command(words, input);
    CHECK(run.status == 2);
    CHECK(run.out == "");
    CHECK(run.err == "whichwire: " + message + "\n");
    CHECK(read_text(path_) == text);
  }
  std::string page(const std::string& words) const {
    const std::size_t blank = std::min(words.find(' '), words.size());
    return run("whichwire case " + words.substr(0, blank) + " " + path_ + words.substr(blank)).out;
  }
  std::string start() {
    return done(
        "start topologies/compact-car.json --unit T-14 --complaint 'does not crank' --since 'this morning' "
        "--conditions "
        "'after rain' --repaired 'battery, last week' --repaired starter --works lights --works-not 'rear wiper' "
        "--added "
        "tracker --battery 12.5");
  }
  const std::string& path() const { return path_; }

 private:
  std::string at() {
    const std::string minute = std::to_string(++minute_);
    return " --at 2026-03-02T09:" + std::string(2 - minute.size(), '0') + minute + ":00Z";
  }
  std::string path_;
  int minute_ = 0;
};

/// From call-out to handover; what the commands say.
std::string whole_job(Job& job) {
  std::string all = job.start();
  all += job.done("note 'left window slow' --fault");
  all += job.done("scan", before);
  all += job.done("unplug ecm --note 'key off'");
  all += job.done("reading ECM/A-1 '0.2 V' --mode volts-loaded --key run --battery connected --note 'lamp dark'");
  all += job.done("reading ECM/A-2 12.3 --mode volts --key run --rules-out 'open ECM/A-2'");
  all += job.done("reading ECM/A-2 '12.3 V' --mode volts-loaded --key run --rules-out 'open ECM/A-2'");
  all += job.done("undo 6");
  all += job.done("fuse-out F3");
  all += job.done("reading F3 'seen broken' --mode look");
  all += job.done("jumper 'F3 in to F3 out'");
  all += job.done("jumper 'F3 in to F3 out' --off");
  all += job.done("unplug abs");
  all += job.done("replug ABS");
  all += job.done("replaced 'fuse F3' --note 'had blown'");
  all += job.done("fuse-in F3");
  all += job.done("replug ECM");
  all += job.done("programmed ECM");
  all += job.done("note 'coolant hose chafes' --fault");
  all += job.done("note 'parked indoors over night'");
  all += job.done("scan", after + "xyzzy\n");
  return all;
}

std::size_t widest_in(const std::string& page) {
  std::size_t widest = 0;
  std::size_t width = 0;
  for (const char byte : page) {
    const bool begins_a_character = (static_cast<unsigned char>(byte) & 0xc0U) != 0x80U;
    width = byte == '\n' ? 0 : width + (begins_a_character ? 1 : 0);
    widest = std::max(widest, width);
  }
  return widest;
}

}  // namespace

TEST_CASE("a job from call-out to handover says and shows what the golden pages show" * doctest::skip(only_few())) {
  Job job("whole");
  const std::string said = whole_job(job);
  CHECK(said == golden(golden_folder + "case-said.txt", said));
  const std::vector<std::pair<std::string, std::string>> pages = {
      {"status", "case-status.txt"},
      {"report", "case-report.txt"},
      {"report --for customer", "case-report-customer.txt"},
      {"report --markdown", "case-report.md"},
      {"report --for customer --markdown", "case-report-customer.md"}};
  for (const auto& words_and_name : pages) {  // no structured binding: clang 14 captures none
    const std::string& name = words_and_name.second;
    CAPTURE(name);
    const std::string page = job.page(words_and_name.first);
    CHECK(page == golden(golden_folder + name, page));
    if (name.ends_with(".txt")) CHECK(widest_in(page) <= 80);
  }
  CHECK(widest_in(said) <= 80);
  CHECK(job.done("close --note 'handed over'") == "Entry 22: close: handed over\n");
  CHECK(job.page("report").find("The case was closed at 2026-03-02 09:22 UTC") != std::string::npos);
}

TEST_CASE("a close is refused while something is off, and names each place") {
  Job job("off");
  job.start();
  job.done("unplug ECM");
  job.done("fuse-out F3");
  job.done("jumper 'a to b'");
  job.refused("close",
              job.path() +
                  ": not everything is back in place: ECM is unplugged since 2026-03-02 09:02 UTC (entry 2); F3 "
                  "is out since 2026-03-02 09:03 UTC (entry 3); a to b is bridged since 2026-03-02 09:04 UTC "
                  "(entry 4)");
  CHECK(job.page("status").find("  ! F3: out since 2026-03-02 09:03 UTC (entry 3)\n") != std::string::npos);
}

TEST_CASE("what does not fit the case is refused with the reason, and nothing is written") {
  Job job("refused");
  job.start();
  const std::string file = job.path() + ": ";
  job.refused("start topologies/compact-car.json",
              file + "is there already; a case is started once, in a file of its own");
  job.refused("replug ECM", file + "`ECM` is not unplugged; nothing is");
  job.refused(
      "unplug 'camshaft sensr'",
      "the network has no `camshaft sensr`; did you mean `camshaft sensor`? --as-written takes it as it stands");
  job.refused("reading ECM/A-9 '12 V'",
              "the network has no `ECM/A-9`; did you mean `ECM/A-1`? --as-written takes it as it stands");
  job.refused("undo 9", file + "there is no entry 9; the last is entry 1");
  job.refused("undo", file + "there is nothing to take back; the start stays");
  job.refused("note \"$(printf 'a\\033b')\"", file + "text: the character `\\x1b` does not belong in a text");
  const Run reading = job.command("reading ECM/A-1 twelve");
  CHECK(reading.status == 2);
  CHECK(reading.err.starts_with("whichwire: " + file + "reading: 'twelve' is not understood"));
  const Run rules = job.command("reading ECM/A-1 '12 V' --rules-out 'opne F3'");
  CHECK(rules.status == 2);
  CHECK(rules.err.starts_with("whichwire: --rules-out: "));
  const Run at = run("whichwire case note " + job.path() + " x --at yesterday");
  CHECK(at.status == 2);
  CHECK(at.err == "whichwire: " + file + "yesterday is no time in UTC, as in 2026-03-02T09:14:00Z\n");
  CHECK(job.done("unplug 'camshaft sensr' --as-written").starts_with("Entry 2: unplug camshaft sensr\n"));
}

TEST_CASE("behind the close only undo is taken") {
  Job job("closed");
  job.start();
  CHECK(job.done("close").find("No scan was taken after a repair") != std::string::npos);
  job.refused("note more", job.path() + ": the case is closed; `undo` opens it again");
  CHECK(job.done("undo") == "Entry 3: undo of entry 2\n");
  job.done("note more");
}

TEST_CASE("a scan with mistakes adds nothing; its mistakes come with their places") {
  Job job("badscan");
  job.start();
  const std::string text = read_text(job.path());
  const Run refused = job.command("scan", "{\"format\": \"whichwire.scan.v1\",\n \"modulse\": []}");
  CHECK(refused.status == 2);
  CHECK(refused.err.find("standard input:2:2: modulse: ") != std::string::npos);
  CHECK(read_text(job.path()) == text);
}

TEST_CASE("a damaged case is refused by every command with file, line and column, and stays as it is") {
  Job job("damaged");
  job.start();
  job.done("note one");
  job.done("note two");
  std::string text = read_text(job.path());
  text.replace(text.find("\"entry\":\"note\""), 14, "\"entry\":\"nota\"");
  write_text(job.path(), text);
  const std::string place = job.path() + ":2:10: entry: `nota` is no kind of entry; did you mean `note`?\n";
  for (const std::string command : {"status", "report", "undo", "close", "note x", "unplug ECM", "scan"}) {
    CAPTURE(command);
    const std::size_t blank = std::min(command.find(' '), command.size());
    const Run run_of =
        run("whichwire case " + command.substr(0, blank) + " " + job.path() + command.substr(blank), before);
    CHECK(run_of.status == 2);
    CHECK(run_of.out == "");
    CHECK(run_of.err.starts_with(place));
  }
  CHECK(read_text(job.path()) == text);
  const Run checked = run("whichwire check " + job.path());
  CHECK(checked.status == 2);
  CHECK(checked.out.starts_with(place));
}

TEST_CASE("a case that is no case, or not there, is refused") {
  CHECK(run("whichwire case status nowhere.jsonl").err == "whichwire: nowhere.jsonl: no such file\n");
  CHECK(run("whichwire case status nowhere.jsonl").status == 2);
  CHECK(run("whichwire case note topologies/compact-car.json x").status == 2);
  CHECK(run("whichwire case start " + scratch() + "/no/such/folder/j topologies/compact-car.json").status == 2);
  CHECK(run("whichwire case start " + scratch() + "/j nowhere.json").err == "whichwire: nowhere.json: no such file\n");
}

TEST_CASE("a last entry that was cut off is said to be, and the case goes on") {
  Job job("cut");
  job.start();
  job.done("note one");
  std::string text = read_text(job.path());
  text.resize(text.size() - 5);
  write_text(job.path(), text);
  CHECK(job.page("status").find("! The writing of a last entry was cut off") != std::string::npos);
  const std::string checked = run("whichwire check - <" + job.path()).out;
  CHECK(checked == "standard input: fine, a case of 1 entry, and one whose writing was cut off\n");
  CHECK(job.done("note two") == "Entry 2: note: two\n");
  CHECK(job.page("status").find("cut off") == std::string::npos);
}

TEST_CASE("the status as JSON holds the ledger, the entries and the comparison" * doctest::skip(only_few())) {
  Job job("json");
  whole_job(job);
  job.done("unplug IPC");
  const auto json = nlohmann::json::parse(job.page("status --json"));
  CHECK(json["format"] == "whichwire.case-status.v1");
  CHECK(json["closed"] == false);
  CHECK(json["off"].size() == 1);
  CHECK(json["off"][0]["what"] == "IPC");
  CHECK(json["off"][0]["state"] == "unplugged");
  CHECK(json["entries"].size() == 22);
  CHECK(json["entries"][5]["undone"] == true);
  CHECK(json["comparison"]["new"][0]["what"] == "TCM stores U0121-87 (current)");
  CHECK(json["comparison"]["new"][0]["because"] ==
        "ABS was unplugged in testing at 2026-03-02 09:13 UTC, back at 2026-03-02 09:14 UTC: check that it sits");
  CHECK(json["faults_before_work"].size() == 2);
  CHECK(json["faults_after"].size() == 1);
}

TEST_CASE("what a user wrote is never markup and never a control character in a report") {
  Job job("markup");
  job.start();
  job.done("note '<script>*x*</script> # `y` [z](w) | _v_'");
  const std::string page = job.page("report --markdown");
  CHECK(page.find("\\<script\\>\\*x\\*\\</script\\> \\# \\`y\\` \\[z\\](w) \\| \\_v\\_") != std::string::npos);
  CHECK(page.find("<script>") == std::string::npos);
}
