// `case next` as a technician uses it: from a scan over readings to a proof, and what else it may say.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "cli/judged.hpp"
#include "effort.hpp"
#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string golden_folder = WHICHWIRE_SOURCE_DIR "/tests/cli/golden/";

/// A job on the invented compact car with the scan that these faults give.
class Job {
 public:
  Job(const std::string& name, const std::string& fault) : name_(name + ".jsonl") {
    done("start topologies/compact-car.json --unit T-14 --complaint 'does not crank'");
    const Run scan = run("whichwire predict topologies/compact-car.json --scan-out - --fault '" + fault + "'");
    REQUIRE(scan.status == 0);
    done("scan - --key run", scan.out);
  }
  std::string done(const std::string& words, const std::string& input = "") {
    CAPTURE(words);
    const Run made = command(words, input);
    CHECK(made.status == 0);
    CHECK(made.err == "");
    return made.out;
  }
  Run command(const std::string& words, const std::string& input = "") const {
    const std::size_t blank = std::min(words.find(' '), words.size());
    return run("cd " + scratch() + " && ln -sfn '" WHICHWIRE_SOURCE_DIR "/topologies' topologies && whichwire case " +
                   words.substr(0, blank) + " " + name_ + words.substr(blank),
               input);
  }
  std::string next() { return done("next"); }
  nlohmann::json json() { return nlohmann::json::parse(done("next --json")); }

 private:
  std::string name_;
};

void same_as_golden(const std::string& page, const std::string& name) {
  CAPTURE(name);
  CHECK(page == golden(golden_folder + name, page));
}

}  // namespace

TEST_CASE("where old codes leave too much to weigh they are cleared first, and only what returns is taken" *
          doctest::skip(only_few())) {
  const std::string truck = "ln -sfn '" WHICHWIRE_SOURCE_DIR "/topologies' '" WHICHWIRE_SOURCE_DIR "/samples' . && ";
  const std::string in = "cd " + scratch() + " && ";
  REQUIRE(run(in + truck + "whichwire case start old.jsonl topologies/tractor.json").status == 0);
  // The modules that are missed come and go, or were missed once.
  const std::string old = "sed 's/ active: SPN 20/ previously active: SPN 20/' samples/25-resistor-plug-wet/scan.txt";
  REQUIRE(run(in + old + " | whichwire case scan old.jsonl -").status == 0);
  same_as_golden(run(in + "whichwire case next old.jsonl").out, "case-next-scan-again.txt");
  same_as_golden(run(in + "whichwire case guide old.jsonl", "quit\n").out, "guide-scan-again.txt");
  // Whose codes came back is asked for that scan, and not told to clear them once more.
  REQUIRE(run(in + "whichwire case reading old.jsonl 'scan tool' 'codes return' --check rescan").status == 0);
  same_as_golden(run(in + "whichwire case next old.jsonl").out, "case-next-hand-in.txt");
  const Run back = run(in + "whichwire predict topologies/tractor.json --fault 'open J1-4 low' --scan-out -");
  REQUIRE(run(in + "whichwire case scan old.jsonl - --key run", back.out).status == 0);
  const auto now = nlohmann::json::parse(run(in + "whichwire case next old.jsonl --json").out);
  CHECK(now["scan"] == 4);
  CHECK(now["next"]["why"] != "too much to weigh");
  CHECK(now["repairs"][0]["repair"] == "J1-4");
  CHECK(now["outside"] < 0.01);
}

TEST_CASE("from the scan to a proven fuse: each page says what was meant, what is likely and what is next") {
  Job job("next", "open F3");
  same_as_golden(job.next(), "case-next-first.txt");
  job.done("reading F4 '12.5 V' --mode volts-loaded --key run");
  same_as_golden(job.next(), "case-next-second.txt");
  job.done("reading F3 'one contact dead' --check feed:F3");
  same_as_golden(job.next(), "case-next-third.txt");
  CHECK(job.json()["result"]["standing"] == "probable");
  CHECK(job.json()["next"]["why"] == "once more");
  job.done("unplug ECM");
  job.done("reading ECM/A-1 '0.0 V' --mode volts-loaded --key run");
  job.done("replug ECM");
  CHECK(job.json()["result"]["missing"] == nlohmann::json::array({"a second reading at F3"}));
  job.done("reading F3 'one contact dead' --check feed:F3");
  same_as_golden(job.next(), "case-next-proven.txt");
  const auto json = job.json();
  CHECK(json["format"] == "whichwire.case-next.v1");
  CHECK(json["stage"] == "measuring");
  CHECK(json["readings"].size() == 4);
  CHECK(json["readings"][0]["moved"]["repair"] == "F4");
  CHECK(json["readings"][1]["check"] == "feed:F3");
  CHECK(json["readings"][1]["moved"]["repair"] == "F3");
  CHECK(json["repairs"][0]["repair"] == "F3");
  CHECK(json["result"]["standing"] == "proven");
  job.done("replaced 'fuse F3'");
  CHECK(job.next().find("then scan again: `case scan`.") != std::string::npos);
  job.done("scan - --key run", run("whichwire predict topologies/compact-car.json --scan-out -").out);
  CHECK(job.next().find("shows no fault of the network") != std::string::npos);
  job.done("close");
  CHECK(job.next().find("Nothing: the case is closed.") != std::string::npos);
}

TEST_CASE("a module is not condemned while something is missing, and each thing is named with its minutes") {
  Job job("condemn", "dead ECM");
  for (const std::string fuse : {"F3", "F4", "F10"}) job.done("reading " + fuse + " '12.5 V' --mode volts-loaded");
  job.done("reading R-MAIN '12.4 V' --mode volts-loaded --key run");
  for (const std::string feed : {"ECM/A-1", "ECM/A-2", "ECM/A-29"})
    job.done("reading " + feed + " 'lamp bright' --mode volts-loaded --key run");
  for (const std::string ground : {"ECM/A-3", "ECM/A-4", "ECM/B-1"})
    job.done("reading " + ground + " '0.02 V drop' --mode volts-drop --key off");
  for (const std::string reference : {"ECM/5V-1", "ECM/5V-2"})
    job.done("reading " + reference + " '0.02 V' --mode volts --key run");
  job.done("reading 'CAN at ECM' '120' --mode ohms --battery disconnected");
  same_as_golden(job.next(), "case-next-condemn.txt");
  CHECK(job.json()["result"]["standing"] == "cannot condemn yet");
}

TEST_CASE("what `case next` prints as JSON is valid by its schema at every stage") {
  Job job("judged", "open F3");
  CHECK(judged(job.done("next --json"), "case-next") == "");
  job.done("reading ECM/A-1 'lamp dark' --mode volts-loaded --key run");
  job.done("reading F3 'one contact dead' --check feed:F3");
  CHECK(judged(job.done("next --json"), "case-next") == "");
  job.done("replaced F3");
  CHECK(judged(job.done("next --json"), "case-next") == "");
  const std::string empty = scratch() + "/empty.jsonl";
  CHECK(run("whichwire case start " + empty + " topologies/compact-car.json").status == 0);
  CHECK(judged(run("whichwire case next --json " + empty).out, "case-next") == "");
  CHECK(judged(R"({"format": "whichwire.case-next.v1"})", "case-next") != "");
}

TEST_CASE("what is off is put back first, and a doubtful reading is taken again") {
  Job job("doubt", "open F3");
  job.done("unplug ABS");
  CHECK(job.next().find("! First put back ABS: unplugged since") != std::string::npos);
  job.done("replug ABS");
  job.done("reading 'CAN at ECM' '3.3 kohm' --mode ohms --battery disconnected");
  const std::string page = job.next();
  CHECK(page.find("! doubtful: nothing that is held possible makes it") != std::string::npos);
  CHECK(job.json()["next"]["why"] == "again");
  CHECK(job.json()["next"]["check"]["id"] == "ohms:CAN@ECM");
}

TEST_CASE("words that are no outcome of the check are refused as a reading is, and nothing is written") {
  Job job("words", "open F3");
  const Run refused = job.command("reading ECM 'purple' --check poll:ECM");
  CHECK(refused.status == 2);
  CHECK(refused.out == "");
  CHECK(refused.err.find("'purple' is not understood") != std::string::npos);
  CHECK(job.json()["readings"].empty());
  job.done("reading ECM 'still' --check poll:ECM");
  CHECK(job.json()["readings"][0]["understood"] == true);
}

TEST_CASE("a check that cannot be done is said to be so once, and another is asked") {
  Job job("skipped", "open F3");
  const std::string first = job.json()["next"]["check"]["id"];
  job.done("reading anywhere skip --check " + first);
  const std::string page = job.next();
  CHECK(job.json()["next"]["check"]["id"] != first);
  const std::size_t said = page.find("could not be done");
  REQUIRE(said != std::string::npos);
  CHECK(page.find("could not be done", said + 1) == std::string::npos);
  CHECK(page.find("nothing, and it is not asked again", said) != std::string::npos);
  CHECK(job.done("report --markdown").find("It says: nothing, and it is not asked again") != std::string::npos);
  CHECK(job.command("reading anywhere skip").status == 2);
}

TEST_CASE("rates of one's own decide which checks a reading can answer in words") {
  const std::string rates = scratch() + "/feeds-never-fail.csv";
  write_text(rates, "what,odds,source\nopen.feed.fuse,1e-12,mine\n");
  Job job("rates", "open F3");
  const std::string words = "reading F3 'one contact dead' --check feed:F3";
  CHECK(job.command(words + " --rates nowhere.csv").err.find("nowhere.csv: no such file") != std::string::npos);
  CHECK(job.command(words + " --rates " + rates).err.find("'one' is not understood") != std::string::npos);
  CHECK(job.json()["readings"].empty());
  job.done(words);
  CHECK(job.json()["readings"].size() == 1);
}
