// The search's view of a diagnosis: candidates with odds, observations with a likelihood for each level, and what
// raises which observation to which level. It knows nothing of vehicles: the hitting sets of the literature, noisy-or
// networks and vehicle networks are all problems (tests/reference/textbook_*.cpp). problem_of() in network_problem.hpp
// makes one of a network and a scan.
#pragma once

#include <array>
#include <functional>
#include <span>
#include <vector>

#include "effects/predictor.hpp"

namespace whichwire::search {

using Candidate = std::uint32_t;
using Likelihood = std::array<double, level_count>;  ///< natural log of P(seen | level)

/// A chosen candidate marked so acts only firmly: what later candidates could undo of it, a disturbance that a break
/// may cut off, is left out.
constexpr Candidate firmly = 0x80000000;
constexpr Candidate bare(Candidate candidate) { return candidate & ~firmly; }

/// Whether one candidate can undo something of what another, which disturbs, raises.
enum class Undo : std::uint8_t {
  never,
  alone,    ///< what it can undo shows when it is added alone
  jointly,  ///< perhaps only together with others
  wholly,   ///< everything, perhaps only together with others
};

/// A table of who may undo whom: a row for each candidate that can undo, a column for each that disturbs.
struct UndoTable {
  std::vector<std::uint32_t> row, column;  ///< by candidate: place in the table, or `not_in_it`
  std::vector<Undo> cells;
  std::uint32_t columns = 0;
  std::vector<std::vector<Candidate>> cuts;  ///< by column: those that may undo something of it, rising

  static constexpr std::uint32_t not_in_it = 0xffffffff;
  Undo of(Candidate cut, Candidate disturber) const {
    if (row.empty() || row[cut] == not_in_it || column[disturber] == not_in_it) return Undo::never;
    return cells[std::size_t{row[cut]} * columns + column[disturber]];
  }
  std::span<const Candidate> cuts_of(Candidate disturber) const {
    if (column.empty() || column[disturber] == not_in_it) return {};
    return cuts[column[disturber]];
  }
};

/// Membership in a group whose members may act together in a way that is not the worst of each alone.
/// Two members of one group meet unless both are on the same side; side 0 meets everybody.
struct Meeting {
  std::uint32_t group;
  std::uint32_t side = 0;
  bool through_others = false;  ///< here it does nothing but beside others that it meets in another of its groups
  friend bool operator==(const Meeting&, const Meeting&) = default;
};

/// On a side from this one on, members with one signature act alike on whomever they meet in the group.
constexpr std::uint32_t alike_from = 2;

/// Observations that a candidate can raise only together with others of its groups, by rising observation, and the
/// worst level that each can get so: `unsure` or `down`.
struct JointReach {
  std::vector<Raised> free;    ///< while none that it meets is chosen; of those that raise one so, two at least name it
  std::vector<Raised> beside;  ///< beside chosen ones
  friend auto operator<=>(const JointReach&, const JointReach&) = default;
};

constexpr std::uint32_t nothing_jointly = 0xffffffff;

struct Problem {
  std::vector<double> log_odds;                 ///< by candidate
  std::vector<std::uint32_t> signature;         ///< by candidate: index into `signatures`
  std::vector<std::vector<Raised>> signatures;  ///< what a candidate raises alone, by rising observation
  std::vector<Likelihood> likelihood;           ///< by observation

  // Only for problems whose candidates act together; all empty for a plain noisy-or.
  std::vector<std::vector<Meeting>> meetings;  ///< by candidate
  std::uint32_t sides = 1;                     ///< all sides are below
  std::vector<std::uint8_t> disturbs;          ///< by candidate: others that meet it can undo part of its effect
  std::vector<std::uint32_t> jointly;          ///< by candidate: index into `joint_reaches` or nothing_jointly
  std::vector<JointReach> joint_reaches;
  /// What a set raises whose members meet one another, directly or through members; some may be marked `firmly`.
  std::function<void(std::span<const Candidate>, std::vector<Raised>&)> together;
  /// Which candidates may undo something of which that disturb, with nothing else present. May err only away from
  /// `never`.
  UndoTable undo;
  /// By candidate: when chosen it may part others, so that one can no longer undo what the other does. What does so is
  /// told by the function that `parted_by` makes for the chosen ones; it may err to false.
  std::vector<std::uint8_t> parts;
  std::function<std::function<bool(Candidate, Candidate)>(std::span<const Candidate>)> parted_by;
  /// Whether a candidate can still raise anything jointly beside these, which are chosen and meet it. May err to true.
  std::function<bool(Candidate, std::span<const Candidate>)> still_jointly;

  /// Candidates that are listed in explanations. Those that are not (they can account for nothing abnormal) are summed
  /// out of every explanation. Empty: all are listed.
  std::vector<std::uint8_t> listed;

  std::size_t candidates() const { return log_odds.size(); }
  std::size_t observations() const { return likelihood.size(); }
  bool meets(Candidate a, Candidate b) const {
    return meets(a, b, [](const Meeting&, const Meeting&) { return true; });
  }
  /// The same by meetings of the two that count.
  template <class Counts>
  bool meets(Candidate a, Candidate b, Counts counts) const {
    if (meetings.empty()) return false;
    for (const Meeting& mine : meetings[a]) {
      for (const Meeting& other : meetings[b]) {
        if (mine.group != other.group || !counts(mine, other)) continue;
        if (mine.side == 0 || other.side == 0 || mine.side != other.side) return true;
      }
    }
    return false;
  }
  bool meets_any(Candidate candidate) const { return !meetings.empty() && !meetings[candidate].empty(); }
  bool disturbing(Candidate candidate) const { return !disturbs.empty() && disturbs[candidate] != 0; }
  bool listing(Candidate candidate) const { return listed.empty() || listed[candidate] != 0; }
};

/// A candidate that raises the given observations to `down`: the row of a noisy-or or of a conflict table.
Candidate add_candidate(Problem& problem, double log_odds, std::span<const std::uint32_t> observations);

}  // namespace whichwire::search
