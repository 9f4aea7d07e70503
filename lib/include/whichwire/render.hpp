// Answers as a page for people and as JSON for programs. Nothing is computed here: what is true was decided before.
// All text that comes from a user's file passes through `printable`.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/case_guide.hpp>
#include <whichwire/case_state.hpp>
#include <whichwire/check.hpp>
#include <whichwire/code.hpp>
#include <whichwire/compare.hpp>
#include <whichwire/expected_scan.hpp>
#include <whichwire/fault.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/mistake.hpp>
#include <whichwire/network.hpp>
#include <whichwire/scan.hpp>
#include <whichwire/svg.hpp>

namespace whichwire {

/// How a page looks.
struct Look {
  std::size_t width = 80;       ///< columns; no line is longer, but for a single word that is
  bool colour = false;          ///< ANSI bold for headings, for a terminal
  bool every_line = false;      ///< show every line of pasted text and what was understood, not only those not placed
  std::size_t most_checks = 5;  ///< checks shown
  bool in_full = false;         ///< lists that are cut short otherwise, whole
};

/// What a page of findings is made from.
struct Findings {
  const Network& network;
  const Scan& scan;
  const std::vector<LineRead>& lines;  ///< of pasted text; else empty
  const Ranking& ranking;
  const Verdict& verdict;
  const CheckPlan& plan;
};

/// The page: what was read, what makes it doubtful, the verdict, why, the rivals, what to check first.
std::string text_of(const Findings& findings, const Look& look = {});

/// The same as one HTML file that asks for nothing else: with the picture, for screens of any size and for paper.
/// `drawn`: the network with the marks of these findings.
std::string html_of(const Findings& findings, const Drawn& drawn, const Look& look = {});

/// `whichwire.findings.v1`, two-space indent, ended by a line feed.
std::string json_of(const Findings& findings);

/// A fault as a person says it: `wire open at ECM pin A-27 (VT), from fuse F4`.
std::string phrase_of(const Network& network, const Fault& fault);

/// What a scan would show under a set of faults.
struct Forecast {
  const Network& network;
  std::span<const Fault> faults;
  const ExpectedScan& expected;
};

std::string text_of(const Forecast& forecast, const Look& look = {});

/// `whichwire.prediction.v1`: the faults, the level of every question, the scan itself.
std::string json_of(const Forecast& forecast);

/// One code of the command line; no `code` where the words are not one.
struct CodeAsked {
  std::string written;
  std::optional<Code> code;
};

std::string text_of(std::span<const CodeAsked> codes, const Look& look = {});

/// `whichwire.codes.v1`.
std::string json_of(std::span<const CodeAsked> codes);

/// One input that was checked.
struct FileChecked {
  std::string file;
  std::string contents;  ///< in words, as `network: 14 modules on 3 buses`; empty when refused
  std::vector<Mistake> mistakes;
};

std::string text_of(std::span<const FileChecked> files, const Look& look = {});

/// `whichwire.mistakes.v1`.
std::string json_of(std::span<const FileChecked> files);

/// What the pages of a case are made from.
struct CasePages {
  const Case& job;
  std::vector<OffNow> off;
  std::optional<ScanComparison> comparison;
  FaultsNoted faults;
  CaseState state = {};
  std::optional<CaseReasoning> before_repair = {};  ///< of the last scan before a repair
  std::optional<CaseReasoning> now = {};            ///< of the last scan, where that is a later one
  const Drawn* drawn = nullptr;                     ///< for a report as HTML; null: it has no picture
};

/// What the readings said, what is likely now and what comes next.
std::string next_of(const Case& job, const CaseState& state, const Look& look = {});

/// `whichwire.case-next.v1`.
std::string json_of(const Case& job, const CaseState& state);

/// The guide's screen: what the last reading meant, what is likely, and the one thing to do now.
std::string guide_of(const Case& job, const CaseState& state, const GuideQuestion& question, const Look& look = {});

/// The terms of that screen explained, or those that `about` names; and what may be typed.
std::string guide_help(const Case& job, const CaseState& state, const GuideQuestion& question, std::string_view about,
                       const Look& look = {});

/// The network in words: each bus with its modules, and what the scan says of each.
std::string network_in_words(const Case& job, const CaseState& state, const Look& look = {});

/// Where the case stands: what is off, the entries, what changed since the first scan.
std::string status_of(const CasePages& pages, const Look& look = {});

/// `whichwire.case-status.v1`.
std::string json_of(const CasePages& pages);

enum class ReportFor : std::uint8_t { colleague, customer };
enum class ReportAs : std::uint8_t { text, markdown, html };

/// The report: for a colleague with all evidence, for the customer one page in plain words.
std::string report_of(const CasePages& pages, ReportFor whom, ReportAs form, const Look& look = {});

/// An entry in words, as `unplug ECM`.
std::string phrase_of(const Case& job, std::size_t entry);

/// The acknowledgement of an entry: `Entry 5: unplug ECM`, with the cautions that belong to it.
std::string entry_line(const Case& job, std::size_t entry, std::span<const std::string> cautions,
                       const Look& look = {});

/// What a later scan shows against the first; an empty text with nothing to compare.
std::string comparison_of(const std::optional<ScanComparison>& comparison, const Look& look = {});

/// Lines of pasted text that were not understood; an empty text where all were.
std::string lines_not_placed(std::span<const LineRead> lines, const Look& look = {});

/// Two networks and what was found between them.
struct Compared {
  const Network& a;
  const Network& b;
  const Comparison& comparison;
};

/// Which of them fits the scan, what differs, what that changes in a scan.
std::string text_of(const Compared& compared, const Look& look = {});

/// `whichwire.comparison.v1`.
std::string json_of(const Compared& compared);

}  // namespace whichwire
