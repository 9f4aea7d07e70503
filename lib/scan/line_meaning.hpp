// What one line of pasted text reports: who answers how, which codes are stored where, and what else it tells.
// Tested in tests/scan/pasted_scan.cpp and by every layout of tests/scan/layouts.
#pragma once

#include <whichwire/scan.hpp>

#include "scan/line_parts.hpp"

namespace whichwire {

/// Of whom a line speaks.
struct Who {
  enum class Kind : std::uint8_t {
    speaking,  ///< nobody is named: whoever was spoken of before
    module,
    ambiguous,  ///< one of `may`
    stranger,   ///< a name that the network does not have
  };
  Kind kind = Kind::speaking;
  std::size_t module = nowhere;
  std::vector<std::size_t> may;
  std::string name;      ///< as written
  bool by_role = false;  ///< a module called by what it does or by a part of its name, not by its own name
  bool in_part = false;  ///< by a part of its name
};

struct Report {
  Who who;
  std::optional<Answer> answer;
  bool answer_said = false;  ///< by words, not only by there being codes
  std::vector<CodeSeen> codes;
};

struct LineMeaning {
  std::vector<Report> reports;         ///< in the order of the line
  std::optional<Answer> answer;        ///< said of nobody in particular
  bool answer_firm = false;            ///< by more than an `ok`
  bool answer_by_codes = false;        ///< by a number of codes, or by there being none
  std::optional<CodeState> state;      ///< likewise
  std::optional<std::uint8_t> status;  ///< of the code before, in an earlier line
  std::optional<double> volts;         ///< likewise
  std::vector<std::size_t> missed;     ///< modules in sentences of nobody in this line; `nowhere`: heard, not missed
  CodeState missed_state = CodeState::unknown;
  std::optional<double> battery;
  std::optional<KeyState> key;
  bool own_battery = false;
  std::string unit, taken;
  std::vector<FunctionSeen> functions;
  std::optional<bool> functions_work;  ///< said of no function in particular: a heading
  struct Many {
    Answer answer = Answer::yes;
    std::size_t bus = nowhere;  ///< of one bus, or of all
  };
  std::optional<Many> many;   ///< `all others answer`
  std::size_t bus = nowhere;  ///< named as a heading
  bool page = false, stamp = false, heading = false;
  bool title = false;       ///< mostly words of headings
  bool codes_lead = false;  ///< they stand before their modules
  bool telling = false;     ///< something of the above
  std::string leftover;     ///< words that were not read
  bool lost_name = false;   ///< among them what stands in the place of a name
  std::string_view head;    ///< words of nothing known, parted from a code behind them
  std::string_view words;   ///< the line from its first word to its last
};

/// `functions_work`: what a heading above says of functions that stand there with no more than their name.
LineMeaning meaning_of_line(const TextLine& line, const Parts& parts, const Network& network,
                            std::optional<bool> functions_work = {});

}  // namespace whichwire
