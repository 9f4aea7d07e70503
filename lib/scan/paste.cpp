#include "scan/paste.hpp"

#include <algorithm>
#include <array>

#include "scan/part_names.hpp"
#include "scan/pasted_words.hpp"

namespace whichwire {

void Paste::read() {
  for (at_ = 0; at_ < lines_.size(); ++at_) {
    const SourceLine& line = lines_[at_];
    LineRead read{at_ + 1, printable(line.text.raw), {}, {}};
    doubt_ = LineDoubt::none;
    read.understood = line.too_long ? std::string() : understood(line);
    read.doubt = doubt_;
    read_.push_back(std::move(read));
  }
  orphans_ += waiting_.size();
  for (const LineMeaning::Many& many : many_) collected_.rest(many.answer, many.bus);
}

std::string Paste::understood(const SourceLine& line) {
  if (line.text.words.empty()) {
    if (!line.text.rule_like) return {};
    paragraph_begins_ = true;
    return line.text.blank() ? "blank" : "rule";
  }
  std::string words = understood_words(line);
  paragraph_begins_ = false;
  return words;
}

std::string Paste::understood_words(const SourceLine& line) {
  const std::vector<Column> heading = columns_of(line.text, line.elements);
  if (!heading.empty()) {
    columns_ = heading;
    return "heading";
  }
  std::vector<LineElement> elements = line.elements;
  apply_columns(line.text, columns_, network_, elements);
  const Parts parts = parts_of(line.text, std::move(elements), network_, speaking());
  if (paragraph_begins_ && functions_listed_) heading_works_.reset();
  const LineMeaning meaning = meaning_of_line(line.text, parts, network_, heading_works_);
  std::string words = meaning.telling ? told(line, meaning) : untold(line, meaning);
  if (!words.empty() && meaning.telling && !meaning.leftover.empty())
    words += "; not read: `" + kept(meaning.leftover, 80) + "`";
  return words;
}

/// `Not working:` above a list of functions.
bool Paste::heads_functions(const SourceLine& line, const LineMeaning& meaning) {
  if (!meaning.functions_work) return false;
  bool list = line.text.tail.find(':') != std::string::npos;
  for (std::size_t i = at_ + 1; i < lines_.size() && !list; ++i) {
    if (lines_[i].text.words.empty()) continue;
    list = std::ranges::find(lines_[i].elements, LineElement::Kind::function, &LineElement::kind) !=
           lines_[i].elements.end();
    break;
  }
  if (!list) return false;
  heading_works_ = meaning.functions_work;
  functions_listed_ = false;
  return true;
}

namespace {

constexpr std::size_t longest_name = 5;  // words

/// `status: no answer`
bool key_and_value(const TextLine& line) {
  return std::any_of(line.words.begin() + 1, line.words.end(), [](const Word& word) { return word.after(':'); });
}

/// `--- Doors ---`
bool marked_as_heading(const TextLine& line) {
  const std::string& before = line.words.front().gap;
  return std::ranges::any_of(std::array{"--", "==", "**", "##", ">>", "__"},
                             [&](const char* mark) { return before.find(mark) != std::string::npos; });
}

}  // namespace

/// A line that reports nothing: furniture of the page, the text of the code before, or not understood.
std::string Paste::untold(const SourceLine& line, const LineMeaning& meaning) {
  if (meaning.page) return "page number";
  if (heads_functions(line, meaning))
    return *heading_works_ ? "heading: functions that work" : "heading: functions that fail";
  if (meaning.stamp && meaning.leftover.empty()) return "time stamp";
  if (meaning.title)
    return meaning.leftover.empty() ? "heading" : "heading; not read: `" + kept(meaning.leftover, 80) + "`";
  const bool led = line.text.tail.find(':') != std::string::npos;
  if (meaning.heading && (meaning.leftover.empty() || (led && meaning.bus != nowhere))) {
    if (meaning.bus == nowhere) return "heading";
    who_ = {};
    std::string words = "heading: bus " + network_.buses[meaning.bus].id;
    if (!meaning.leftover.empty()) words += "; not read: `" + kept(meaning.leftover, 80) + "`";
    return words;
  }
  const bool further_in = last_code_beside_name_ ? line.text.indented : line.text.indent >= last_code_indent_;
  const bool goes_on = code_just_before() && !marked_as_heading(line.text) && further_in;
  if (!goes_on || !last_code().text.empty()) return name_of_a_stranger(line, meaning);
  last_code().text = kept(meaning.words, 300);
  last_code_line_ = at_;
  return "text of " + name_of_last_code();
}

/// Behind a few words of something else that has lines further in below it, nobody is being spoken of.
void Paste::leave_speaker(const SourceLine& line) {
  const bool details_follow = at_ + 1 < lines_.size() && lines_[at_ + 1].text.indented;
  if (line.text.words.size() <= longest_name && !line.text.indented && details_follow) who_ = {};
}

/// A few words alone in a line, with something said below: a module that is not known. Whoever was spoken of before is
/// not any more, so that nothing is taken for theirs.
std::string Paste::name_of_a_stranger(const SourceLine& line, const LineMeaning& meaning) {
  const auto worded = [](const LineElement& e) { return is_unknown_word(e) || e.is(LineElement::Kind::function); };
  const auto of_name = [&](const LineElement& e) {
    return worded(e) || e.is(LineElement::Kind::unknown) || e.is(LineElement::Kind::number) || says_nothing(e);
  };
  const bool name = line.text.words.size() <= longest_name && std::ranges::all_of(line.elements, of_name) &&
                    std::ranges::any_of(line.elements, worded) && !key_and_value(line.text) && told_below(lines_, at_);
  if (!name) {
    if (paragraph_begins_ && !line.text.indented) who_ = {};
    leave_speaker(line);
    return {};
  }
  Report report;
  report.who.kind = Who::Kind::stranger;
  report.who.name = std::string(meaning.words);
  return take(std::move(report), meaning);
}

/// A module's name alone, further in than the code right above it.
bool Paste::is_text_of_code(const SourceLine& line, const LineMeaning& meaning) {
  const auto only_named = [](const Report& report) { return !report.answer && report.codes.empty(); };
  const bool nothing_else = !meaning.answer && !meaning.state && meaning.missed.empty() && !meaning.many;
  return code_just_before() && last_code().text.empty() && line.text.indent > last_code_indent_ &&
         !meaning.reports.empty() && std::ranges::all_of(meaning.reports, only_named) && nothing_else;
}

std::string Paste::told(const SourceLine& line, const LineMeaning& meaning) {
  if (is_text_of_code(line, meaning)) {
    last_code().text = kept(meaning.words, 300);
    last_code_line_ = at_;
    return "text of " + name_of_last_code();
  }
  const std::size_t orphans_before = orphans_;
  std::string words = words_for_facts(meaning, network_);
  append_words(words, take_facts(meaning));
  if (meaning.many) many_.push_back(*meaning.many);
  if (meaning.answer) append_words(words, lone_answer(line, meaning));
  if (meaning.state) append_words(words, lone_state(line, *meaning.state));
  append_words(words, of_last_code(line, meaning));
  append_words(words, missed_by_speaker(meaning));
  for (const Report& report : meaning.reports) append_words(words, take(report, meaning));
  settle_speaker(meaning);
  if (words.empty()) leave_speaker(line);
  if (!meaning.functions.empty() && meaning.reports.empty() && !line.text.indented) who_ = {};
  if (meaning.lost_name) doubt_ = LineDoubt::not_taken;
  if (orphans_ > orphans_before && !words.empty()) words += "; not taken: its codes, of no module in particular";
  return words;
}

/// Facts of the whole scan. Returns what an earlier line said otherwise.
std::string Paste::take_facts(const LineMeaning& meaning) {
  Scan& all = scan();
  std::string otherwise;
  if (all.unit.empty()) all.unit = kept(meaning.unit, 100);
  if (all.taken.empty()) all.taken = kept(meaning.taken, 60);
  if (meaning.battery && !all.battery_volts) all.battery_volts = meaning.battery;
  if (meaning.battery && *all.battery_volts != *meaning.battery)
    append_words(otherwise, "an earlier line's battery is kept");
  if (meaning.key && !all.key_stated) all.key = *meaning.key;
  if (meaning.key && all.key != *meaning.key) append_words(otherwise, "an earlier line's key state is kept");
  all.key_stated = all.key_stated || meaning.key;
  all.tool_has_own_battery = all.tool_has_own_battery || meaning.own_battery;
  if (!meaning.reports.empty() || meaning.answer || meaning.many) heading_works_.reset();
  functions_listed_ = functions_listed_ || !meaning.functions.empty();
  for (const FunctionSeen& one : meaning.functions) {
    const auto known = std::ranges::find(all.functions, one.function, &FunctionSeen::function);
    if (known == all.functions.end())
      all.functions.push_back(one);
    else if (known->works != one.works)
      append_words(otherwise, "an earlier line's statement is kept");
  }
  return otherwise;
}

/// `No response:` above a list, or `no response` below a module.
std::string Paste::lone_answer(const SourceLine& line, const LineMeaning& meaning) {
  const bool led = line.text.tail.find_first_of(":=") != std::string::npos;
  const bool open = speaking() && who_.kind != Who::Kind::ambiguous && !paragraph_begins_;
  const bool untold_yet = open && !collected_.answered(collected_.entry_of(who_));
  if (open && (meaning.answer_by_codes || (untold_yet && !led))) {
    if ((!meaning.answer_firm || meaning.answer_by_codes) && !meaning.leftover.empty()) return {};
    return take({who_, meaning.answer, true, {}}, meaning);
  }
  if (meaning.answer_by_codes && meaning.leftover.empty()) return "codes, of no module in particular";
  if (!meaning.leftover.empty() || !meaning.answer_firm || meaning.answer_by_codes) return {};
  const bool of_one = !led && key_and_value(line.text);
  const bool of_several = who_.kind == Who::Kind::ambiguous && !paragraph_begins_;
  if (of_one || of_several || !meaning.reports.empty()) return {};  // `status: no answer`, of nobody known for sure
  heading_answer_ = meaning.answer;
  who_ = {};
  return "heading: " + std::string(said_of(*meaning.answer));
}

bool Paste::next_names_a_module() const {
  for (std::size_t i = at_ + 1; i < lines_.size(); ++i) {
    if (lines_[i].text.words.empty()) continue;
    const Parts parts = parts_of(lines_[i].text, lines_[i].elements, network_, false);
    return std::ranges::find(parts.parts, LinePart::subject) != parts.parts.end();
  }
  return false;
}

/// `stored` below a code is that code's; else it is a heading for the codes that follow.
std::string Paste::lone_state(const SourceLine& line, CodeState state) {
  const bool led = line.text.tail.find(':') != std::string::npos;
  if (code_just_before() && !led && last_code().state == CodeState::unknown) {
    last_code().state = state;
    last_code_line_ = at_;
    return name_of_last_code() + " " + std::string(word_for(state));
  }
  heading_state_ = state;
  state_of_one_module_ = speaking() && !next_names_a_module();
  return "heading: " + std::string(word_for(state));
}

/// A voltage that no code stands before, that begins a paragraph, or that is told together with the key, is the
/// battery's.
std::string Paste::volts_of_battery(double volts) {
  LineMeaning battery;
  battery.battery = volts;
  std::string words = words_for_facts(battery, network_);
  append_words(words, take_facts(battery));
  return words;
}

/// A status byte or a voltage in a line of its own belongs to the code before.
std::string Paste::of_last_code(const SourceLine& line, const LineMeaning& meaning) {
  const bool open = last_code_.valid() && (speaking() || code_just_before());
  const bool apart = paragraph_begins_ && !line.text.indented;
  if (meaning.volts && (meaning.key || !open || apart)) return volts_of_battery(*meaning.volts);
  if ((!meaning.status && !meaning.volts) || !open) return {};
  std::string words = name_of_last_code();
  if (meaning.status) {
    last_code().status = meaning.status;
    if (last_code().state == CodeState::unknown) last_code().state = state_of_status(*meaning.status);
    words += " " + std::string(word_for(last_code().state));
  }
  if (meaning.volts) {
    last_code().volts = meaning.volts;
    words += " with its voltage";
  }
  last_code_line_ = at_;
  return words;
}

std::string Paste::name_of_last_code() {
  return last_code().written.empty() ? std::string("the code before") : last_code().written;
}

}  // namespace whichwire
