// Many units at once: each scan against the network of its vehicle, a row a unit; then what recurs across units of one
// build. Scans alike but for unit, time and tenths of a volt are read and searched once.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/fault.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/network.hpp>

namespace whichwire {

/// How it is known which network is a unit's.
enum class MatchedBy : std::uint8_t {
  given,           ///< the user said so
  only_one,        ///< there is no other
  vehicle,         ///< by what the scan says of its vehicle
  fit,             ///< it accounts for the scan best, and no other nearly as well
  fit_of_several,  ///< it accounts for the scan best, but not by much
};

/// A set of faults that may be there.
struct Suspected {
  double probability = 0;
  std::vector<std::string> faults;  ///< in the words of the command line
  friend bool operator==(const Suspected&, const Suspected&) = default;
};

/// What there is to do first.
struct FirstCheck {
  std::string id, measure;  ///< as in a check; empty: nothing
  double minutes = 0;
  std::vector<std::string> cautions;
  friend bool operator==(const FirstCheck&, const FirstCheck&) = default;
};

/// All that a scan says of its unit, but which unit it is: scans alike share it. Probabilities have six digits, so that
/// a row that was written and read is the same.
struct UnitFinding {
  std::string error;  ///< why there is nothing else: the scan, or its network, is not known
  std::string network;
  MatchedBy matched = MatchedBy::only_one;
  Verdict verdict;
  double fault = 0;                 ///< probability that the network has any fault
  std::vector<std::string> silent;  ///< modules that should answer and do not
  FirstCheck check;
  std::vector<std::string> doubts;
  double outside = 0;                ///< bound of everything that was not listed: the search has a bound of its work
  std::vector<Suspected> suspected;  ///< likeliest first; none where a fault is unlikely
  bool narrowed = false;             ///< by what other units of its build have
};

struct FleetRow {
  std::string scan;  ///< its file; of many in one file `file:line`
  std::string unit;  ///< as the scan says; may be empty
  std::shared_ptr<const UnitFinding> finding;
};

/// How surely something is wrong, times how much of the vehicle it takes with it: units with more come first.
double urgency_of(const UnitFinding&);

struct FleetOptions {
  Rates rates = default_rates();
  std::string network;   ///< name of the network that all scans belong to; empty: each scan's own
  bool remember = true;  ///< findings of scans alike; the rows are the same without
};

/// Networks made ready; any number of threads may ask.
class Fleet {
 public:
  explicit Fleet(std::vector<Network> networks, const FleetOptions& options = {});
  ~Fleet();
  Fleet(Fleet&&) noexcept;
  Fleet& operator=(Fleet&&) noexcept;

  /// The row of one scan, JSON or pasted text; of a row that was written before, that row. What is wrong with the text
  /// is the row's error.
  FleetRow row_of(std::string_view text, const std::string& name) const;

  struct State;
  const State& state() const { return *state_; }

 private:
  std::unique_ptr<State> state_;
};

/// The name by which rows call a network: that of its file, without folder and ending.
std::string build_name_of(const Network&);

/// A part, or parts that break the same modules off, found in more units of a build than chance makes.
struct Recurring {
  std::string network;
  std::vector<std::string> parts;  ///< one; or those of the class that were suspected, likeliest first
  double units = 0;                ///< expected number of units that have it
  double of_faulty = 0;            ///< expected number of faults in all units of the build
  double by_rates = 0;             ///< in how many it would be, if parts failed in the proportions of the rates
  double by_chance = 0;            ///< at most so likely without a cause, in any of all parts looked at
  std::vector<std::string> where;  ///< the units, most surely first
};

struct BuildCount {
  std::string network;
  std::size_t scans = 0, units = 0, with_fault = 0;
};

struct FleetReport {
  std::vector<FleetRow> rows;  ///< most urgent first, those with an error last
  std::vector<BuildCount> builds;
  std::vector<Recurring> recurring;  ///< least likely by chance first
  std::size_t looked_at = 0;         ///< parts and classes
  bool independent = false;          ///< no unit's row was narrowed by others
  bool stopped = false;              ///< before the end of the scans
};

/// Sorts the rows, finds what recurs, and narrows each row by the other units of its build unless `independent`.
FleetReport report_of(const Fleet&, std::vector<FleetRow> rows, bool independent);

constexpr std::string_view fleet_row_format = "whichwire.fleet-row.v1";
std::string_view word_for(MatchedBy);

}  // namespace whichwire
