// What the vehicle said: which modules answered, which codes they store, which functions work.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/code.hpp>
#include <whichwire/mistake.hpp>
#include <whichwire/network.hpp>

namespace whichwire {

enum class Answer : std::uint8_t { yes, no, refused, not_fitted, not_reachable, not_polled };

/// One code or sentence that a module stores.
struct CodeSeen {
  std::string written;       ///< as in the scan; `U0100-87`, a maker's own code, or empty for a sentence
  std::optional<Code> code;  ///< nullopt: a maker's own code in no standard form, or a sentence
  CodeState state = CodeState::unknown;
  std::optional<std::uint8_t> status;  ///< raw ISO 14229-1 byte
  std::string text;                    ///< the words beside it
  std::string misses;                  ///< module id or role that a sentence says is missed; else empty
  std::optional<double> volts;         ///< supply in the snapshot
  friend bool operator==(const CodeSeen&, const CodeSeen&) = default;
};

struct ModuleSeen {
  std::string module;  ///< as written; resolved to an id where the network knows it
  Answer answer = Answer::not_polled;
  std::vector<CodeSeen> codes;
  friend bool operator==(const ModuleSeen&, const ModuleSeen&) = default;
};

struct FunctionSeen {
  std::string function;
  bool works = true;
  friend bool operator==(const FunctionSeen&, const FunctionSeen&) = default;
};

struct Scan {
  std::string name;  ///< of the file, for messages
  std::string unit, taken;
  Vehicle vehicle;        ///< what is stated of it; tells which network is its
  std::string complaint;  ///< what somebody complained of; empty: a scan without a cause
  KeyState key = KeyState::run;
  bool key_stated = false;
  std::optional<double> battery_volts;
  bool tool_has_own_battery = false;  ///< the tester works without the connector's supply
  std::vector<ModuleSeen> modules;
  std::vector<FunctionSeen> functions;
  friend bool operator==(const Scan&, const Scan&) = default;
};

/// Why a line of pasted text wants a second look though something was understood of it.
enum class LineDoubt : std::uint8_t {
  none,
  named_in_part,  ///< a module is named by a part of its name, which fits no other
  not_taken,      ///< it may be of several modules or of none that is known, so something it says is not in the scan
};

/// What became of one line of pasted text.
struct LineRead {
  std::size_t line = 0;    ///< from 1
  std::string text;        ///< printable
  std::string understood;  ///< in words; empty: not placed
  LineDoubt doubt = LineDoubt::none;
};

struct ScanResult {
  std::optional<Scan> scan;
  std::vector<Mistake> mistakes;
  std::vector<LineRead> lines;  ///< of pasted text only
};

/// Reads `whichwire.scan.v1`. Names are resolved against `network` (id, name, role, alias) where it is not null.
ScanResult read_scan(std::string_view text, const std::string& name, const Network* network);

/// Reads a pasted all-module summary of any layout.
ScanResult read_pasted_scan(std::string_view text, const std::string& name, const Network& network);

/// JSON when the text begins with `{` (after white space and comments), else pasted text.
ScanResult read_any_scan(std::string_view text, const std::string& name, const Network& network);

/// A scan as `whichwire.scan.v1`, two-space indent, ended by a line feed.
std::string json_of(const Scan&);

std::string_view word_for(Answer);

}  // namespace whichwire
