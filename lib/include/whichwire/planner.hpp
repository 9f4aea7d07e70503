// From the first reading to a proven repair: what the readings so far mean, what to do next, and whether it is proven.
// Every number behind it is a row of the planner's table; the user can set each.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/check.hpp>
#include <whichwire/electrical.hpp>
#include <whichwire/reading.hpp>
#include <whichwire/test_choice.hpp>

namespace whichwire {

/// A number of the planner's table.
struct PlannerNumber {
  std::string what;
  double value = 0;
  std::string means, source;  ///< or `common practice, no source`
};

struct PlannerNumbers {
  std::vector<PlannerNumber> rows;
};

/// The compiled-in numbers. Rows are overridden by name: `set_number(numbers, "proven", 0.98)`.
const PlannerNumbers& default_planner_numbers();

/// Whether there is such a row.
bool set_number(PlannerNumbers& numbers, std::string_view what, double value);

/// Where the probes are and how the vehicle stands.
struct Measurement {
  Reading::Kind kind = Reading::Kind::volts;    ///< of an answer without a unit
  std::vector<std::array<Terminal, 2>> probes;  ///< red, black; several: the answer is the lowest reading
  Situation situation;
};

/// The outcome of a check that could not be done: it is not offered again.
constexpr std::string_view not_done = "not-done";

/// One answer to one check.
struct Taken {
  std::string id;                          ///< by which it is named when it ticks something: `R3`
  std::string check;                       ///< id of the check; may be empty where the measurement is given
  std::optional<Measurement> measurement;  ///< how it was in fact taken; nullopt: as the check says
  Reading reading;
  std::string outcome;  ///< where not empty, in place of the reading: name or label of an outcome of the check
};

/// Stands before the answers of a job that has a second scan already: it is not scanned again for the same reason.
inline Taken not_scanned_once_more() { return {"", "scan-again", {}, {}, std::string(not_done)}; }

/// A probability before and after an answer.
struct Shift {
  std::string repair;
  double before = 0, after = 0;
};

/// What became of an answer.
struct Weighed {
  bool understood = true;     ///< false: nothing predicts such an answer to such a check
  bool doubtful = false;      ///< nothing that is held possible predicts it: taken again before it counts
  bool contradicted = false;  ///< the same check was answered again, with another result
  bool counted = false;
  bool good = false;  ///< it is as it would be with everything whole
  double bits = 0;    ///< how much it told about the repair
  std::string means;  ///< in plain words, where the check says it
  Shift shift;        ///< the repair whose probability it moved most
};

/// A repair and how likely it is the one; `high`: all that is outside the list added.
struct Repair {
  std::string what;  ///< empty: nothing is to be repaired
  Chance probability;
  double at_first = 0;              ///< by the scan alone, at the least
  std::vector<std::string> faults;  ///< that need it, in the words of the command line, likeliest first
  bool passing = false;             ///< mostly by faults that come and go
  std::vector<Fault> likeliest;     ///< of these sets of faults
  std::string load;                 ///< of a reference that is pulled down: by this load
};

/// One thing that must be ruled out before a module is condemned.
struct RuleOut {
  std::string what;                 ///< in a sentence
  std::vector<std::string> checks;  ///< ids of the checks that would tick it
  std::string by;                   ///< id of the reading, `scan` or `network`; empty: still missing
  double minutes = 0;               ///< of the quickest of these checks
};

enum class Standing : std::uint8_t {
  proven,
  probable,
  cannot_condemn,     ///< yet; `missing` says why
  comes_and_goes,     ///< and is not reproduced
  not_communication,  ///< no fault of the network
  refer,              ///< part of a system that is only for trained people
};

struct Decision {
  Standing standing = Standing::cannot_condemn;
  std::string repair;
  Chance probability;
  std::vector<RuleOut> ruled_out;    ///< of each module to be condemned; empty where none is
  std::vector<std::string> missing;  ///< in sentences
  double loss_minutes = 0;           ///< expected of acting now: wrong part and come-back, by the table's numbers
  bool worth_measuring = true;       ///< the next check costs less than that
};

struct NextCheck {
  enum class Why : std::uint8_t {
    tells_most,   ///< bits about the repair a minute, or the best tree of tests
    again,        ///< the last answer was doubtful
    once_more,    ///< much hangs on an answer that a slip of the hand could give as well
    rules_out,    ///< something is missing before a module may be condemned
    confirms,     ///< all others are ruled out, but the part itself was never looked at
    scan_again,   ///< the scan leaves too much to weigh: another after clearing its codes, to be taken as the scan
    hand_in,      ///< likewise, and they were cleared already: the scan after that, to be taken as the scan
    none_needed,  ///< proven
    nothing_separates,  ///< `together` cannot be told apart by any check that is left
  };
  Why why = Why::nothing_separates;
  std::optional<Check> check;
  std::optional<Measurement> measurement;  ///< how to take it, where a meter or lamp is used
  std::optional<Interval> if_good;         ///< what the meter then shows with nothing wrong
  bool exact = false;                      ///< first of the best tree of tests; then `minutes` to its end
  double minutes = 0;
  std::vector<std::string> together;

  /// It is done by adding a scan to the job, not by a reading.
  bool by_scan() const { return why == Why::scan_again || why == Why::hand_in; }
};

struct Assessment {
  std::vector<Repair> repairs;    ///< likeliest first
  double outside = 0;             ///< bound of everything not listed, after the readings
  std::vector<Weighed> readings;  ///< one an answer
  NextCheck next;
  std::vector<Check> others;  ///< further checks that tell something, best first
  std::vector<Check> known;   ///< what can be answered: every check about what is suspected, and `next`
  std::vector<Refused> refused;
  Decision decision;
};

/// A job made ready: `effects` must outlive it.
class Planner {
 public:
  /// `options`: those of the ranking, which is drawn up anew with the answers in it where it left too much outside.
  Planner(const Effects& effects, const Ranking& ranking, const Scan& scan,
          const PlannerNumbers& numbers = default_planner_numbers(), const LocateOptions& options = {});
  ~Planner();
  Planner(Planner&&) noexcept;
  Planner& operator=(Planner&&) noexcept;

  /// How the check of this id is taken; nullopt where it is no matter of a meter. `now`: what is off already stays off.
  std::optional<Measurement> measurement_of(std::string_view check, const Situation& now = {}) const;

  /// What the answers, in the order in which they were given, make of the ranking. Of answers to one check the last
  /// counts; `now`: what is unplugged at the moment.
  Assessment assess(const std::vector<Taken>& taken, const Situation& now = {}) const;

 private:
  struct Ready;
  std::unique_ptr<Ready> ready_;  ///< remembers what it has computed: for one thread at a time
};

std::string_view word_for(Standing standing);

}  // namespace whichwire
