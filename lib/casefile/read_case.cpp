// Reads `whichwire.case.v1`, line by line: each line's shape, then what only the meaning shows (a reading that is none,
// an undo of what cannot be undone). A beginning of a JSON object is never one itself, so a last line without its line
// feed is either whole, and counts, or was cut off while it was written, and is passed over.
// Tested in tests/casefile/read_case.cpp, tests/casefile/schema and tests/fuzz.
#include <algorithm>
#include <whichwire/casefile.hpp>

#include "casefile/entry_shape.hpp"
#include "casefile/replay.hpp"
#include "network/draft.hpp"
#include "network/network_shape.hpp"
#include "network/read_file.hpp"
#include "network/tree.hpp"
#include "scan/scan_shape.hpp"

namespace whichwire {

namespace {

using json::Value;

constexpr std::size_t most_mistakes = 200;
constexpr std::size_t most_entries = 20'000;
constexpr std::size_t most_bytes = std::size_t{64} << 20U;

constexpr std::string_view blanks = " \t\r";

bool blank(std::string_view line) { return line.find_first_not_of(blanks) == std::string_view::npos; }

/// Whether a line without a line feed was cut off while it was written.
bool cut_off(std::string_view line) {
  json::Complaints unsaid;
  return !json::parse(line, 0, unsaid).has_value();
}

KeyState key_in(const Value& tree) {
  for (const KeyState key : {KeyState::off, KeyState::accessory, KeyState::run}) {
    if (word_for(key) == json::text_in(tree, "key")) return key;
  }
  return KeyState::start;
}

Intake intake_of(const Value& tree) {
  Intake intake;
  intake.complaint = json::text_in(tree, "complaint");
  intake.since = json::text_in(tree, "since");
  intake.conditions = json::text_in(tree, "conditions");
  intake.earlier_repairs = json::texts_in(tree, "earlier_repairs");
  intake.works = json::texts_in(tree, "works");
  intake.works_not = json::texts_in(tree, "works_not");
  intake.added_devices = json::texts_in(tree, "added_devices");
  intake.battery_volts = json::number_in(tree, "battery_volts");
  return intake;
}

class LineReader {
 public:
  explicit LineReader(const std::string& name) { job_.name = name; }

  /// One line; false when nothing behind it is worth a look.
  bool read(std::string_view line) {
    ++line_;
    if (blank(line)) return true;
    json::Complaints complaints;
    json::Complaints inside;
    std::optional<CaseEntry> entry;
    const std::optional<Value> tree = json::parse(line, 0, complaints);
    if (tree && check_entry_shape(*tree, complaints, inside)) entry = entry_of(*tree, complaints, inside);
    const bool sound = complaints.empty() && inside.empty();
    if (sound && entry) take(std::move(*entry), tree->spot, json::find(*tree, "of"), complaints);
    keep(line, complaints, "");
    keep(line, inside, job_.entries.empty() ? "network" : "scan");
    return !job_.entries.empty() && mistakes_.size() < most_mistakes;
  }

  CaseResult finish(std::size_t complete, std::size_t cut_off_bytes) {
    CaseResult result;
    if (job_.entries.empty() && mistakes_.empty()) {
      const std::string why = cut_off_bytes > 0
                                  ? "the first entry was cut off while it was written; this is no case yet"
                                  : "the file holds no entry; a case begins with its start";
      mistakes_.push_back({job_.name, 0, 0, {}, why, {}, 0});
    }
    job_.complete_bytes = complete;
    job_.cut_off_bytes = cut_off_bytes;
    result.mistakes = std::move(mistakes_);
    if (result.mistakes.empty()) result.job = std::move(job_);
    return result;
  }

 private:
  std::optional<CaseEntry> entry_of(const Value& tree, json::Complaints& complaints, json::Complaints& inside) {
    CaseEntry entry;
    entry.at = json::text_in(tree, "at");
    const std::string& word = json::text_in(tree, "entry");
    if (word == "start") {
      entry.contents = start_of(tree, inside);
    } else if (word == "scan") {
      entry.contents = scanned(tree, inside);
    } else if (word == "reading") {
      entry.contents = reading_of(tree, complaints);
    } else if (const auto kind = work_of(word)) {
      entry.contents = CaseWork{*kind, json::text_in(tree, "what"), json::text_in(tree, "note")};
    } else if (word == "note") {
      entry.contents =
          CaseNote{json::text_in(tree, "text"), json::truth_in(tree, "fault"), json::texts_in(tree, "rules_out")};
    } else if (word == "undo") {
      entry.contents = CaseUndo{static_cast<std::size_t>(json::whole_in(tree, "of").value_or(0))};
    } else {
      entry.contents = CaseClose{json::text_in(tree, "note")};
    }
    return entry;
  }

  static CaseStart start_of(const Value& tree, json::Complaints& inside) {
    CaseStart start;
    start.unit = json::text_in(tree, "unit");
    start.network_name = json::text_in(tree, "network_name");
    if (const Value* const intake = json::find(tree, "intake")) start.intake = intake_of(*intake);
    const Value* const network = json::find(tree, "network");
    if (network == nullptr || !network->is(Value::Kind::object)) return start;
    auto built = network_of(*network, start.network_name, inside);
    if (built) start.network = std::move(*built);
    return start;
  }

  CaseScan scanned(const Value& tree, json::Complaints& inside) const {
    const Value* const scan = json::find(tree, "scan");
    if (scan == nullptr || !scan->is(Value::Kind::object)) return {};
    const Network* const network = job_.entries.empty() ? nullptr : &job_.start().network;
    return {scan_of(*scan, json::text_in(tree, "name"), network, inside)};
  }

  static CaseReading reading_of(const Value& tree, json::Complaints& complaints) {
    CaseReading reading;
    reading.place = json::text_in(tree, "place");
    reading.check = json::text_in(tree, "check");
    reading.mode = json::text_in(tree, "mode");
    reading.reading = json::text_in(tree, "reading");
    reading.outcome = json::text_in(tree, "outcome");
    if (json::find(tree, "key") != nullptr) reading.key = key_in(tree);
    if (json::find(tree, "battery") != nullptr)
      reading.battery_connected = json::text_in(tree, "battery") == "connected";
    if (json::find(tree, "bus") != nullptr) reading.awake = json::text_in(tree, "bus") == "awake";
    reading.rules_out = json::texts_in(tree, "rules_out");
    reading.note = json::text_in(tree, "note");
    const Value* const outcome = json::find(tree, "outcome");
    if (outcome != nullptr && reading.check.empty())
      complaints.add(outcome->spot, "outcome", "an outcome is one of a check: the key `check` must say of which");
    const Value* const typed = json::find(tree, "reading");
    if (outcome == nullptr && typed != nullptr && typed->is(Value::Kind::text)) {
      const ReadingResult result = read_reading(typed->text);
      if (!result.reading) complaints.add(typed->spot, "reading", result.error);
    }
    return reading;
  }

  void take(CaseEntry entry, json::Spot spot, const Value* of, json::Complaints& complaints) {
    const bool starts = std::holds_alternative<CaseStart>(entry.contents);
    if (starts != job_.entries.empty()) {
      complaints.add(spot, "",
                     starts ? "a case starts once; this is a second start"
                            : "a case begins with its start, not with `" + std::string(word_for(entry.contents)) + "`");
      return;
    }
    if (job_.entries.size() == most_entries)
      return complaints.add(spot, "", "a case has at most " + std::to_string(most_entries) + " entries");
    const std::string why = why_it_cannot_stand(job_, entry.contents);
    if (!why.empty()) return complaints.add(of != nullptr ? of->spot : spot, of != nullptr ? "of" : "", why);
    add_entry(job_, std::move(entry));
  }

  /// A line is a text of its own here; in the file it stands further down.
  void keep(std::string_view line, const json::Complaints& complaints, const std::string& within) {
    if (complaints.empty()) return;
    const std::string of_one_line = " (the first is in line 1)";
    for (Mistake& mistake : complaints.mistakes({{job_.name, line}})) {
      if (mistake.line > 0) mistake.line = line_;
      if (!within.empty()) mistake.path = within + (mistake.path.empty() ? "" : "." + mistake.path);
      if (mistake.message.ends_with(of_one_line))
        mistake.message.replace(mistake.message.size() - of_one_line.size(), of_one_line.size(), "");
      mistakes_.push_back(std::move(mistake));
    }
  }

  Case job_;
  std::size_t line_ = 0;
  std::vector<Mistake> mistakes_;
};

}  // namespace

CaseResult read_case(std::string_view text, const std::string& name) {
  LineReader lines(name);
  if (text.size() > most_bytes) return {{}, {{name, 0, 0, {}, "a case is at most 64 MiB large", {}, 0}}};
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = text.find('\n', at);
    const std::string_view line = text.substr(at, end == std::string_view::npos ? end : end - at);
    if (end == std::string_view::npos && !blank(line) && cut_off(line)) return lines.finish(at, text.size() - at);
    if (!lines.read(line)) break;
    at = end == std::string_view::npos ? text.size() : end + 1;
  }
  return lines.finish(text.size(), 0);
}

CaseResult load_case(const std::string& path) {
  const FileText file = read_file(path, most_bytes);
  if (file.text) return read_case(*file.text, path);
  return {{}, {{path, 0, 0, {}, file.error, {}, 0}}};
}

}  // namespace whichwire
