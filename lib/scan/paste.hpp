// A pasted text while it is read: what a person would keep in mind from line to line, that is, which module is being
// spoken of, under which heading the lines stand, and which code came last.
// Tested by every layout of tests/scan/layouts and in tests/scan/pasted_scan.cpp.
#pragma once

#include <whichwire/scan.hpp>

#include "scan/collected.hpp"
#include "scan/columns.hpp"
#include "scan/line_meaning.hpp"

namespace whichwire {

struct SourceLine {
  TextLine text;
  std::vector<LineElement> elements;
  bool too_long = false;
};

class Paste {
 public:
  /// `codes_first`: codes stand above the module that they belong to.
  Paste(const std::vector<SourceLine>& lines, const Network& network, bool codes_first)
      : lines_(lines), network_(network), collected_(network), codes_first_(codes_first) {}

  void read();

  Scan& scan() { return collected_.scan(); }
  std::vector<LineRead>& lines() { return read_; }
  bool found_nothing() { return scan().modules.empty() && scan().functions.empty(); }

  /// Codes that no module was found for.
  std::size_t orphans() const { return orphans_; }

  /// Whether some module stands in one line before a code of its own.
  bool names_lead() const { return names_lead_; }

 private:
  std::string understood(const SourceLine& line);
  std::string understood_words(const SourceLine& line);
  std::string untold(const SourceLine& line, const LineMeaning& meaning);
  bool heads_functions(const SourceLine& line, const LineMeaning& meaning);
  std::string told(const SourceLine& line, const LineMeaning& meaning);
  std::string take_facts(const LineMeaning& meaning);
  std::string lone_answer(const SourceLine& line, const LineMeaning& meaning);
  std::string lone_state(const SourceLine& line, CodeState state);
  std::string volts_of_battery(double volts);
  std::string of_last_code(const SourceLine& line, const LineMeaning& meaning);
  std::string missed_by_speaker(const LineMeaning& meaning);
  std::string take(Report report, const LineMeaning& meaning);
  std::string take_codes(std::size_t entry, Report& report);
  std::string name_of_a_stranger(const SourceLine& line, const LineMeaning& meaning);
  std::string wait(Report& report);
  void take_waiting(Report& report);
  bool is_text_of_code(const SourceLine& line, const LineMeaning& meaning);
  void leave_speaker(const SourceLine& line);
  void settle_speaker(const LineMeaning& meaning);
  bool next_names_a_module() const;

  bool speaking() const { return who_.kind != Who::Kind::speaking; }
  /// The code before stands in the line before, so that a word of its own line may go with it.
  bool code_just_before() const { return last_code_.valid() && last_code_line_ + 1 == at_ && !paragraph_begins_; }
  std::string name_of_last_code();
  CodeSeen& last_code() { return collected_.at(last_code_); }
  void state_of_heading(CodeSeen& code) const;

  const std::vector<SourceLine>& lines_;
  const Network& network_;
  Collected collected_;
  bool codes_first_;
  std::vector<LineRead> read_;
  std::size_t at_ = 0;
  LineDoubt doubt_ = LineDoubt::none;  ///< of this line
  bool paragraph_begins_ = true;
  Who who_;  ///< being spoken of; of kind `speaking`: nobody
  std::optional<Answer> heading_answer_;
  std::optional<CodeState> heading_state_;
  bool state_of_one_module_ = false;
  std::optional<bool> heading_works_;  ///< of functions
  bool functions_listed_ = false;      ///< below that heading
  std::vector<Column> columns_;
  Collected::Place last_code_;
  std::size_t last_code_line_ = 0;
  bool last_code_beside_name_ = false;
  std::size_t last_code_indent_ = 0;
  std::optional<bool> rows_;  ///< the last name stood in one line with what was said of it; whether that was indented
  std::vector<CodeSeen> waiting_;
  std::vector<LineMeaning::Many> many_;
  std::size_t orphans_ = 0;
  bool names_lead_ = false;
};

}  // namespace whichwire
