// Reads a pasted all-module summary of any layout: line by line, keeping only what a person would keep in mind, that
// is, which module is being spoken of, under which heading the lines stand, and which code came last. Tested by every
// layout of tests/scan/layouts, tests/scan/pasted_scan.cpp and tests/fuzz.
#include <algorithm>
#include <whichwire/scan.hpp>

#include "scan/accused.hpp"
#include "scan/collected.hpp"
#include "scan/columns.hpp"
#include "scan/decode.hpp"
#include "scan/line_meaning.hpp"
#include "scan/pasted_words.hpp"

namespace whichwire {

namespace {

constexpr std::size_t most_bytes = std::size_t{1} << 20U;
constexpr std::size_t most_line_bytes = 2000;

struct SourceLine {
  TextLine text;
  std::vector<Element> elements;
  bool too_long = false;
};

std::vector<SourceLine> lines_of(std::string_view text, const Lexicon& lexicon) {
  std::vector<SourceLine> lines;
  while (!text.empty()) {
    const std::size_t end = text.find_first_of("\r\n");
    const std::string_view raw = text.substr(0, end);
    const bool pair = end != std::string_view::npos && text.substr(end, 2) == "\r\n";
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + (pair ? 2 : 1));
    SourceLine line;
    line.too_long = raw.size() > most_line_bytes;
    line.text = text_line(line.too_long ? std::string_view{} : raw);
    line.text.raw = raw;
    line.elements = elements_of(line.text, lexicon);
    lines.push_back(std::move(line));
  }
  return lines;
}

class Paste {
 public:
  Paste(const std::vector<SourceLine>& lines, const Network& network, bool codes_first)
      : lines_(lines), network_(network), collected_(network), codes_first_(codes_first) {}

  void read() {
    for (at_ = 0; at_ < lines_.size(); ++at_) {
      const SourceLine& line = lines_[at_];
      LineRead read{at_ + 1, printable(line.text.raw), {}};
      read.understood = line.too_long ? std::string() : understood(line);
      read_.push_back(std::move(read));
    }
    orphans_ += waiting_.size();
    for (const LineMeaning::Many& many : many_) collected_.rest(many.answer, many.bus);
  }

  Scan& scan() { return collected_.scan(); }
  std::vector<LineRead>& lines() { return read_; }
  bool found_nothing() { return scan().modules.empty() && scan().functions.empty(); }

  /// Codes that no module was found for.
  std::size_t orphans() const { return orphans_; }

 private:
  std::string understood(const SourceLine& line) {
    if (line.text.words.empty()) {
      if (!line.text.rule_like) return {};
      paragraph_begins_ = true;
      return line.text.blank() ? "blank" : "rule";
    }
    std::string words = understood_words(line);
    paragraph_begins_ = false;
    return words;
  }

  std::string understood_words(const SourceLine& line) {
    const std::vector<Column> heading = columns_of(line.text, line.elements);
    if (!heading.empty()) {
      columns_ = heading;
      return "heading";
    }
    std::vector<Element> elements = line.elements;
    apply_columns(line.text, columns_, network_, elements);
    const Parts parts = parts_of(line.text, std::move(elements), network_, speaking());
    const LineMeaning meaning = meaning_of_line(line.text, parts, network_);
    std::string words = meaning.telling ? told(line, meaning) : untold(meaning);
    if (!words.empty() && meaning.telling && !meaning.leftover.empty())
      words += "; not read: `" + kept(meaning.leftover, 80) + "`";
    return words;
  }

  bool speaking() const { return who_.kind != Who::Kind::speaking; }
  bool code_just_before() const { return last_code_.valid() && last_code_line_ + 1 == at_ && !paragraph_begins_; }

  /// A line that reports nothing: furniture of the page, the text of the code before, or not understood.
  std::string untold(const LineMeaning& meaning) {
    if (meaning.page) return "page number";
    if (meaning.stamp && meaning.leftover.empty()) return "time stamp";
    if (meaning.heading && meaning.leftover.empty()) {
      if (meaning.bus == nowhere) return "heading";
      who_ = {};
      return "heading: bus " + network_.buses[meaning.bus].id;
    }
    if (!code_just_before() || !collected_.at(last_code_).text.empty()) return {};
    CodeSeen& code = collected_.at(last_code_);
    code.text = kept(meaning.words, 300);
    return "text of " + (code.written.empty() ? std::string("the code before") : code.written);
  }

  std::string told(const SourceLine& line, const LineMeaning& meaning) {
    std::string words = words_for_facts(meaning, network_);
    append_words(words, take_facts(meaning));
    if (meaning.many) many_.push_back(*meaning.many);
    if (meaning.answer) append_words(words, lone_answer(line, meaning));
    if (meaning.state) append_words(words, lone_state(line, *meaning.state));
    append_words(words, of_last_code(meaning));
    append_words(words, missed_by_speaker(meaning));
    for (const Report& report : meaning.reports) append_words(words, take(report, meaning));
    settle_speaker(meaning);
    return words;
  }

  /// Facts of the whole scan. Returns what an earlier line said otherwise.
  std::string take_facts(const LineMeaning& meaning) {
    Scan& scan = collected_.scan();
    std::string otherwise;
    if (scan.unit.empty()) scan.unit = kept(meaning.unit, 100);
    if (scan.taken.empty()) scan.taken = kept(meaning.taken, 60);
    if (meaning.battery && !scan.battery_volts) scan.battery_volts = meaning.battery;
    if (meaning.battery && *scan.battery_volts != *meaning.battery)
      append_words(otherwise, "an earlier line's battery is kept");
    if (meaning.key && !scan.key_stated) {
      scan.key = *meaning.key;
      scan.key_stated = true;
    }
    if (meaning.key && scan.key != *meaning.key) append_words(otherwise, "an earlier line's key state is kept");
    scan.tool_has_own_battery = scan.tool_has_own_battery || meaning.own_battery;
    if (meaning.function) {
      const auto known = std::ranges::find(scan.functions, meaning.function->function, &FunctionSeen::function);
      if (known == scan.functions.end())
        scan.functions.push_back(*meaning.function);
      else if (known->works != meaning.function->works)
        append_words(otherwise, "an earlier line says otherwise and is kept");
    }
    return otherwise;
  }

  /// `No response:` above a list, or `no response` below a module.
  std::string lone_answer(const SourceLine& line, const LineMeaning& meaning) {
    const bool led = line.text.tail.find(':') != std::string::npos || line.text.tail.find('=') != std::string::npos;
    const bool open = speaking() && who_.kind != Who::Kind::ambiguous && !paragraph_begins_;
    const bool untold_yet = open && !collected_.answered(collected_.entry_of(who_));
    if (open && (meaning.answer_by_codes || (untold_yet && !led))) {
      if (!meaning.answer_firm && !meaning.leftover.empty()) return {};
      Report report{who_, meaning.answer, {}};
      return take(report, meaning);
    }
    if (!meaning.leftover.empty() || !meaning.answer_firm || meaning.answer_by_codes) return {};
    heading_answer_ = meaning.answer;
    who_ = {};
    return "heading: " + std::string(said_of(*meaning.answer));
  }

  bool next_names_a_module() const {
    for (std::size_t i = at_ + 1; i < lines_.size(); ++i) {
      if (lines_[i].text.words.empty()) continue;
      const Parts parts = parts_of(lines_[i].text, lines_[i].elements, network_, false);
      return std::ranges::find(parts.parts, Part::subject) != parts.parts.end();
    }
    return false;
  }

  /// `stored` below a code is that code's; else it is a heading for the codes that follow.
  std::string lone_state(const SourceLine& line, CodeState state) {
    const bool led = line.text.tail.find(':') != std::string::npos;
    if (code_just_before() && !led && collected_.at(last_code_).state == CodeState::unknown) {
      collected_.at(last_code_).state = state;
      last_code_line_ = at_;
      return collected_.at(last_code_).written + " " + std::string(word_for(state));
    }
    heading_state_ = state;
    state_of_one_module_ = speaking() && !next_names_a_module();
    return "heading: " + std::string(word_for(state));
  }

  /// A status byte or a voltage in a line of its own belongs to the code before.
  std::string of_last_code(const LineMeaning& meaning) {
    if (!meaning.status && !meaning.volts) return {};
    if (!last_code_.valid() || !speaking()) return {};
    CodeSeen& code = collected_.at(last_code_);
    std::string words = code.written.empty() ? std::string("the code before") : code.written;
    if (meaning.status) {
      code.status = meaning.status;
      if (code.state == CodeState::unknown) code.state = state_of_status(*meaning.status);
      words += " " + std::string(word_for(code.state));
    }
    if (meaning.volts) {
      code.volts = meaning.volts;
      words += " with its voltage";
    }
    last_code_line_ = at_;
    return words;
  }

  /// `no messages from the engine computer` below a module, or below a code as its text.
  std::string missed_by_speaker(const LineMeaning& meaning) {
    if (meaning.missed.empty() || !speaking() || who_.kind == Who::Kind::ambiguous) return {};
    if (code_just_before() && collected_.at(last_code_).text.empty()) {
      CodeSeen& code = collected_.at(last_code_);
      code.text = kept(meaning.words, 300);
      const std::size_t reporter = who_.kind == Who::Kind::module ? who_.module : nowhere;
      const bool told = accused_by(network_, reporter, code).kind != CodeKind::other;
      if (!told && meaning.missed[0] != nowhere) code.misses = network_.modules[meaning.missed[0]].id;
      return words_for(code, reporter, network_);
    }
    Report report{who_, {}, {}};
    for (const std::size_t module : meaning.missed) {
      CodeSeen sentence;
      if (module != nowhere) sentence.misses = network_.modules[module].id;
      sentence.text = kept(meaning.words, 300);
      report.codes.push_back(std::move(sentence));
    }
    return take(report, meaning);
  }

  /// Takes what a line reports of one module, and says so.
  std::string take(Report report, const LineMeaning& meaning) {
    const bool named = report.who.kind != Who::Kind::speaking;
    if (named && state_of_one_module_ && !same(report.who, who_)) heading_state_.reset();
    if (!named) report.who = who_;
    if (report.who.kind == Who::Kind::speaking) return wait(report);
    if (report.who.kind == Who::Kind::ambiguous) {
      who_ = report.who;
      last_code_ = {};
      return words_for(report, report.who, network_);
    }
    const std::size_t entry = collected_.entry_of(report.who);
    const bool implied = report.answer == Answer::yes && !report.codes.empty();
    if (named && !report.answer && report.codes.empty() && heading_answer_)
      report.answer = heading_answer_;
    else if (report.answer)
      heading_answer_.reset();
    if (named && codes_first_ && meaning.reports.size() == 1) take_waiting(report);
    std::string otherwise;
    if (report.answer && !(implied && !report.codes.empty())) otherwise = collected_.answer(entry, *report.answer);
    for (CodeSeen& code : report.codes) {
      if (code.state == CodeState::unknown && !code.status && heading_state_) code.state = *heading_state_;
      code.text = kept(code.text, 300);
      last_code_ = collected_.code(entry, code);
      last_code_line_ = at_;
    }
    if (!report.codes.empty() && collected_.scan().modules[entry].answer == Answer::no)
      append_words(otherwise, "an earlier line says: no answer");
    who_ = report.who;
    std::string words = words_for(report, report.who, network_);
    append_words(words, otherwise);
    return words;
  }

  static bool same(const Who& a, const Who& b) { return a.kind == b.kind && a.module == b.module && a.name == b.name; }

  /// Codes before any module: they belong to the next one where the text is so ordered, else to nobody.
  std::string wait(const Report& report) {
    if (!codes_first_) {
      orphans_ += report.codes.size();
      return {};
    }
    std::string words;
    for (CodeSeen code : report.codes) {
      if (code.state == CodeState::unknown && !code.status && heading_state_) code.state = *heading_state_;
      append_words(words, words_for(code, nowhere, network_));
      waiting_.push_back(std::move(code));
    }
    return words + ", of the module named next";
  }

  void take_waiting(Report& report) {
    report.codes.insert(report.codes.begin(), std::make_move_iterator(waiting_.begin()),
                        std::make_move_iterator(waiting_.end()));
    waiting_.clear();
  }

  /// After several modules in one line nobody in particular is being spoken of, unless the last one's codes run on.
  void settle_speaker(const LineMeaning& meaning) {
    const std::size_t named = static_cast<std::size_t>(std::ranges::count_if(
        meaning.reports, [](const Report& report) { return report.who.kind != Who::Kind::speaking; }));
    if (named == 0) return;
    if (codes_first_ || (named > 1 && meaning.reports.back().codes.empty())) {
      who_ = {};
      last_code_ = {};
    }
  }

  const std::vector<SourceLine>& lines_;
  const Network& network_;
  Collected collected_;
  bool codes_first_;
  std::vector<LineRead> read_;
  std::size_t at_ = 0;
  bool paragraph_begins_ = true;
  Who who_;  // being spoken of; Kind::speaking: nobody
  std::optional<Answer> heading_answer_;
  std::optional<CodeState> heading_state_;
  bool state_of_one_module_ = false;
  std::vector<Column> columns_;
  Collected::Place last_code_;
  std::size_t last_code_line_ = 0;
  std::vector<CodeSeen> waiting_;
  std::vector<LineMeaning::Many> many_;
  std::size_t orphans_ = 0;
};

Mistake whole(const std::string& name, std::string message) { return {name, 0, 0, {}, std::move(message), {}}; }

}  // namespace

ScanResult read_pasted_scan(std::string_view text, const std::string& name, const Network& network) {
  ScanResult result;
  if (text.size() > most_bytes) {
    result.mistakes.push_back(whole(name, "this text has " + std::to_string(text.size()) + " bytes; at most " +
                                              std::to_string(most_bytes) + " are read"));
    return result;
  }
  const std::string utf8_text = decoded(text);
  const Lexicon lexicon(network);
  const std::vector<SourceLine> lines = lines_of(utf8_text, lexicon);
  std::optional<Paste> paste(std::in_place, lines, network, false);
  paste->read();
  if (paste->orphans() > 0) {
    Paste other(lines, network, true);
    other.read();
    if (other.orphans() == 0) paste.emplace(std::move(other));
  }
  result.lines = std::move(paste->lines());
  if (paste->found_nothing()) {
    result.mistakes.push_back(whole(name, "no line of this text says anything about a module of the network"));
    return result;
  }
  result.scan = std::move(paste->scan());
  result.scan->name = name;
  return result;
}

}  // namespace whichwire
