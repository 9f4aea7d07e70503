// What can break in a network: one part in one broken state, and how often.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/mistake.hpp>
#include <whichwire/network.hpp>

namespace whichwire {

enum class FaultKind : std::uint8_t {
  dead,            ///< module
  holds,           ///< module loads one bus, powered or not
  babbles,         ///< module floods one bus while it is powered
  unconfigured,    ///< module fitted but not programmed: silent
  not_forwarding,  ///< gateway answers itself and forwards nothing
  port_dead,       ///< module or gateway: its port on one bus
  back_feeds,      ///< module lost a feed or ground and pushes current into one bus
  not_fitted,      ///< benign: an optional module that this vehicle does not have
  open,            ///< segment, pin wire, feed, ground point, connector pin
  short_circuit,   ///< segment or reference
  resistive,       ///< segment: corroded
  missing,         ///< terminator
  extra,           ///< an added terminator on a bus
  added_device,    ///< an unlisted device that disturbs a bus
};

enum class PartKind : std::uint8_t {
  module,
  segment,
  power_pin,
  ground_pin,
  reference,
  feed,
  ground,
  terminator,
  bus,
  connector_bus_pin,
  connector_power_pin,
  connector_ground_pin,
};

/// To what a line is shorted.
enum class ShortTo : std::uint8_t { ground, supply, other_line };

/// Which lines of a segment; a bus with a single line has `both`.
enum class Lines : std::uint8_t { both, high, low };

struct Fault {
  FaultKind kind = FaultKind::dead;
  PartKind part = PartKind::module;
  std::size_t owner = nowhere;  ///< module, feed, ground; the module of a pin; for parts of a bus the bus
  std::size_t item = nowhere;   ///< segment or terminator of the bus, pin or reference of the module or connector
  std::size_t bus = nowhere;    ///< bus that it disturbs or belongs to, where there is one
  Lines lines = Lines::both;
  std::optional<ShortTo> to = {};
  bool comes_and_goes = false;
  double odds = 0;  ///< prior p/(1-p)
  friend bool operator==(const Fault&, const Fault&) = default;
};

/// One rate of the data file, overridable.
struct Rate {
  std::string what;  ///< key, as `open.segment.high`
  double odds = 0;
  std::string source;  ///< or `common practice, no source`
};

struct Rates {
  std::vector<Rate> rows;
};

/// The compiled-in rates.
const Rates& default_rates();

struct RatesResult {
  Rates rates;
  std::vector<Mistake> mistakes;
};

/// Reads an overriding table (columns `what,odds,source`); rows not in it keep their default.
RatesResult read_rates(std::string_view csv, const std::string& name);

/// How much less a vehicle without any fault comes to be scanned than one that has some (row `no-fault`).
double factor_of_no_fault(const Rates& rates = default_rates());

/// Every fault that the network can have, present now and coming and going, with its odds.
std::vector<Fault> faults_of(const Network&, const Rates& rates = default_rates());

/// The id of the part as in `findings.v1`: `ECM`, `DRV-2`, `ECM/A-27`, `ECM/5V-1`, `F4`, `DLC/6`.
std::string part_of(const Network&, const Fault&);

/// What has to be done about a fault, as a key: equal keys are one job.
std::string repair_of(const Network&, const Fault&);

/// The words of the command line: `open DRV-2 high`, `short DRV-2 high ground`, `holds ABS DRV`.
std::string text_of(const Network&, const Fault&);

struct FaultResult {
  std::optional<Fault> fault;
  std::string error;  ///< with a suggestion
};

/// Reads the words of the command line.
FaultResult parse_fault(const Network&, std::string_view words, const Rates& rates = default_rates());

std::string_view word_for(FaultKind);
std::string_view word_for(ShortTo);
std::string_view word_for(Lines);

}  // namespace whichwire
