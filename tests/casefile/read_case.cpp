// What is written is read again, and what is damaged is said with its place.
#include <algorithm>

#include "casefile/jobs.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

/// A file with one entry of each kind.
void fill(Job& job) {
  CHECK(job.why(CaseScan{scan_of("ECM no reply\nTCM ok U0100-87 current\n")}) == "");
  CaseReading measured = reading("ECM/A-1", "12.3 V");
  measured.check = "feed:ECM/A-1";
  measured.mode = "volts-loaded";
  measured.key = KeyState::start;
  measured.battery_connected = true;
  measured.awake = false;
  measured.rules_out = {"open F3"};
  measured.note = "lamp on";
  CHECK(job.why(measured) == "");
  CHECK(job.why(work(WorkKind::unplug, "ECM")) == "");
  CHECK(job.why(work(WorkKind::replug, "ECM")) == "");
  CHECK(job.why(work(WorkKind::fuse_out, "F3")) == "");
  CHECK(job.why(work(WorkKind::fuse_in, "F3")) == "");
  CHECK(job.why(work(WorkKind::jumper, "F3 in to F3 out")) == "");
  CHECK(job.why(work(WorkKind::jumper_off, "F3 in to F3 out")) == "");
  CHECK(job.why(work(WorkKind::replaced, "ECM")) == "");
  CHECK(job.why(work(WorkKind::programmed, "ECM")) == "");
  CHECK(job.why(CaseNote{"horn dead", true, {"dead BCM"}}) == "");
  CHECK(job.why(CaseUndo{11}) == "");
  CHECK(job.why(CaseClose{"handed over"}) == "");
}

std::string mistakes_of(const std::string& text) {
  const CaseResult result = read_case(text, "case.jsonl");
  CHECK_FALSE(result.job);
  return said(result.mistakes);
}

}  // namespace

TEST_CASE("a case with every kind of entry is read as it was written") {
  Job job;
  fill(job);
  const Case read = job.read();
  REQUIRE(read.entries.size() == 14);
  CHECK(read.start().unit == "T-14");
  CHECK(read.start().intake.complaint == "does not crank");
  CHECK(read.start().intake.battery_volts == 12.5);
  CHECK(read.start().network.modules.size() == compact_car().modules.size());
  CHECK(std::get<CaseScan>(read.entries[1].contents).scan.modules[1].codes[0].written == "U0100-87");
  const auto& measured = std::get<CaseReading>(read.entries[2].contents);
  CHECK(measured.place == "ECM/A-1");
  CHECK(measured.check == "feed:ECM/A-1");
  CHECK(measured.mode == "volts-loaded");
  CHECK(measured.key == KeyState::start);
  CHECK(measured.battery_connected == true);
  CHECK(measured.awake == false);
  CHECK(measured.rules_out == std::vector<std::string>{"open F3"});
  CHECK(std::get<CaseWork>(read.entries[7].contents).kind == WorkKind::jumper);
  CHECK(std::get<CaseNote>(read.entries[11].contents).fault);
  CHECK(std::get<CaseUndo>(read.entries[12].contents).entry == 11);
  CHECK(read.undone[10]);
  CHECK(read.closed_by == 14);
  CHECK(read.entries[13].at == "2026-03-02T09:13:00Z");
}

TEST_CASE("writing again what was read gives the same bytes") {
  Job job;
  fill(job);
  std::string again;
  Case read = job.read();
  std::get<CaseStart>(read.entries[0].contents).network_json = compact_start().network_json;
  for (const CaseEntry& entry : read.entries) again += json_of(entry);
  CHECK(again == text_at(job.path()));
}

TEST_CASE("cut off at every byte, a case opens at its last complete entry") {
  Job job;
  fill(job);
  const std::string whole = text_at(job.path());
  const std::size_t start_length = whole.find('\n');
  // The long network of the first line is walked through in steps; everything behind it byte by byte.
  for (std::size_t length = 0; length <= whole.size(); length += length + 200 < start_length ? 97 : 1) {
    const CaseResult result = read_case(std::string_view(whole).substr(0, length), "case");
    const auto line_feeds =
        static_cast<std::size_t>(std::count(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length), '\n'));
    const bool whole_line_without_its_end = length < whole.size() && length > 0 && whole[length] == '\n';
    const std::size_t complete = line_feeds + (whole_line_without_its_end ? 1 : 0);
    CAPTURE(length);
    REQUIRE(result.job.has_value() == (complete > 0));
    if (complete == 0) {
      REQUIRE(result.mistakes.size() == 1);
      continue;
    }
    REQUIRE(result.job->entries.size() == complete);
    REQUIRE(result.job->complete_bytes + result.job->cut_off_bytes == length);
  }
}

TEST_CASE("a file without an entry is said to be no case") {
  CHECK(mistakes_of("") == "case.jsonl: the file holds no entry; a case begins with its start\n");
  CHECK(mistakes_of("\n \n") == "case.jsonl: the file holds no entry; a case begins with its start\n");
  CHECK(mistakes_of("{\"format\":") ==
        "case.jsonl: the first entry was cut off while it was written; this is no case yet\n");
}

TEST_CASE("a damaged line in the middle is a mistake with its place, and the file stays as it is") {
  Job job;
  fill(job);
  std::string text = text_at(job.path());
  const std::size_t third = text.find('\n', text.find('\n') + 1) + 1;
  text[third + 1] = '#';
  write_at(job.path(), text);
  const CaseResult result = load_case(job.path());
  CHECK_FALSE(result.job);
  REQUIRE(!result.mistakes.empty());
  CHECK(result.mistakes[0].line == 3);
  CHECK(result.mistakes[0].column == 2);
  const Appended added = append_to_case(job.path(), note("more"), "2026-03-02T12:00:00Z");
  CHECK(added.entry == 0);
  CHECK_FALSE(added.failed);
  CHECK(added.error == "is damaged or no case; nothing was written");
  CHECK(said(added.mistakes) == said(result.mistakes));
  CHECK(text_at(job.path()) == text);
}

TEST_CASE("all mistakes of a case come at once, each with its line") {
  Job job;
  const std::string start = text_at(job.path());
  const std::string all =
      mistakes_of(start + R"({"entry":"nota","at":"2026-03-02T09:00:00Z","text":"x"})"
                          "\n"
                          R"({"entry":"note","at":"2026-03-02","text":"x"})"
                          "\n"
                          R"({"entry":"reading","at":"2026-03-02T09:00:00Z","place":"F3","reading":"twelve"})"
                          "\n"
                          R"({"entry":"undo","at":"2026-03-02T09:00:00Z","of":9})"
                          "\n"
                          R"({"entry":"note","at":"2026-03-02T09:00:00Z","text":"x","text":"y"})"
                          "\n");
  CHECK(all.find("case.jsonl:2:10: entry: `nota` is no kind of entry; did you mean `note`?") != std::string::npos);
  CHECK(all.find("case.jsonl:3:22: at: `2026-03-02` is no time in UTC, as in `2026-03-02T09:14:00Z`") !=
        std::string::npos);
  CHECK(all.find("case.jsonl:4:71: reading: ") != std::string::npos);
  CHECK(all.find("case.jsonl:5:50: of: there is no entry 9; the last is entry 1") != std::string::npos);
  CHECK(all.find("case.jsonl:6:56: text: ") != std::string::npos);
  CHECK(all.find("the key `text` stands twice in one object\n") != std::string::npos);
}

TEST_CASE("mistakes inside the network and the scan carry the whole path and the column of the line") {
  Job job;
  const std::string start = text_at(job.path());
  const std::string all = mistakes_of(
      start +
      R"({"entry":"scan","at":"2026-03-02T09:00:00Z","scan":{"format":"whichwire.scan.v1","modules":[{"module":"ECM","answer":"maybe"}]}})"
      "\n");
  CHECK(all.find("case.jsonl:2:118: scan.modules[0].answer: ") != std::string::npos);
  std::string bad = start;
  bad.replace(bad.find("\"fitted\""), 0, "");
  bad.replace(bad.find("\"feed\":\"F3\""), 11, "\"feed\":\"F99\"");
  CHECK(mistakes_of(bad).find(": network.modules.") != std::string::npos);
}

TEST_CASE("a network in a case extends no other: reading a case opens no further file") {
  const std::string text =
      R"({"format":"whichwire.case.v1","entry":"start","at":"2026-03-02T09:00:00Z","network_name":"n","network":)"
      R"({"format":"whichwire.network.v1","extends":"van-base.json"}})"
      "\n";
  CHECK(mistakes_of(text).find("network.extends: the network of a case stands alone; it extends no other") !=
        std::string::npos);
}

TEST_CASE("what is no case at all gets one mistake, not one a line") {
  const CaseResult result = read_case("ECM no reply\nTCM ok\nABS ok\n", "scan.txt");
  CHECK_FALSE(result.job);
  CHECK(result.mistakes.size() == 1);
}
