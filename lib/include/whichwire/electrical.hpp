// What a meter would read: ohms, volts and lamps at any place of the wiring, with the limits that tolerances leave.
// Every number behind it is a row of the table of values with its source; the network's own lengths, gauges and
// terminators are taken where it states them.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/fault.hpp>
#include <whichwire/mistake.hpp>
#include <whichwire/network.hpp>

namespace whichwire {

/// A value and the limits it lies within. Ohms of an open circuit are infinite.
struct Interval {
  double low = 0, nominal = 0, high = 0;
  friend bool operator==(const Interval&, const Interval&) = default;
};

/// A value known exactly.
constexpr Interval exactly(double value) { return {value, value, value}; }

/// One number of the data file, overridable.
struct ElectricalValue {
  std::string what;  ///< key, as `can-hs.rest.ohms`
  Interval value;
  std::string unit, source;  ///< or `common practice, no source`
};

struct ElectricalValues {
  std::vector<ElectricalValue> rows;
};

/// The compiled-in values.
const ElectricalValues& default_electrical_values();

struct ElectricalValuesResult {
  ElectricalValues values;
  std::vector<Mistake> mistakes;
};

/// Reads an overriding table (columns `what,low,nominal,high,unit,source`; `open` is an infinite value); rows that are
/// not in it keep their default.
ElectricalValuesResult read_electrical_values(std::string_view csv, const std::string& name);

/// A fault as it is now. One that comes and goes is taken to be gone while the meter is on.
struct PresentFault {
  Fault fault;
  /// Of a short, a corroded joint or an added part; of an `open` what is left of the connection, as in a feed or ground
  /// with a bad contact. nullopt: the default of its kind.
  std::optional<Interval> ohms = {};
  std::size_t load = nowhere;  ///< reference shorted: inside this load; nowhere: in the wire
};

/// A place where a probe can be put.
struct Terminal {
  enum class Kind : std::uint8_t {
    battery_positive,
    battery_negative,
    body,       ///< bare metal of the body
    bus_line,   ///< `bus`, `line`, `at`
    feed_in,    ///< `owner`: feed
    feed_out,   ///< `owner`: feed
    power_pin,  ///< in the plug; `owner`: module, nowhere for the diagnostic connector; `item`: pin
    ground_pin,
    ground_point,  ///< `owner`: ground
    reference,     ///< wire of a sensor supply; `owner`: module, `item`: reference
  };
  Kind kind = Kind::battery_negative;
  std::size_t owner = nowhere, item = nowhere;
  std::size_t bus = nowhere;
  Line line = Line::high;
  End at = {};
  std::size_t segment =
      nowhere;           ///< at an end that is unplugged or parted: the segment looked into; nowhere: the first
  bool in_part = false;  ///< the pins of the unplugged module itself, not its plug
};

Terminal battery_positive();
Terminal battery_negative();
Terminal line_at(std::size_t bus, Line line, End at, std::size_t segment = nowhere);
/// The pin of the module itself, as to measure its terminator when it is unplugged.
Terminal own_line(std::size_t bus, Line line, std::size_t module);
Terminal power_pin_of(std::size_t module, std::size_t item);
Terminal ground_pin_of(std::size_t module, std::size_t item);
Terminal reference_of(std::size_t module, std::size_t item);

/// A test lamp, or any known load, between two places.
struct TestLoad {
  Terminal from, to;
  double watts = 5;            ///< of a lamp, at its rated volts
  std::optional<double> ohms;  ///< a resistor of this value instead of the lamp
};

/// A load of a reference that is unplugged.
struct LoadOff {
  std::size_t module = nowhere, reference = nowhere, load = nowhere;
  friend bool operator==(const LoadOff&, const LoadOff&) = default;
};

/// The ground of a module does not lie at that of the body.
struct LiftedGround {
  std::size_t module = nowhere;
  Interval volts;
};

/// How the vehicle stands while the meter is on it.
struct Situation {
  KeyState key = KeyState::off;
  bool battery_connected = true;
  bool asleep = true;                          ///< the buses
  bool tester = false;                         ///< a scan tool is plugged in
  std::optional<Interval> battery_volts = {};  ///< nullopt: a rested battery by the table of values
  std::optional<Interval> bus_load = {};       ///< share of the time that frames are sent; nullopt: by the table
  std::vector<std::size_t> unplugged;          ///< modules
  std::vector<std::size_t> parted;             ///< points: an in-line connector apart, a comb out, a splice cut
  std::vector<std::size_t> fuses_out;          ///< feeds
  std::vector<LoadOff> loads_off;
  std::vector<LiftedGround> lifted;
  std::optional<TestLoad> load = {};
};

/// A reading as predicted: ohms (infinite: the meter shows OL), volts from red to black, or volts across the lamp.
struct Predicted {
  std::optional<Interval> value;
  std::string why;  ///< nothing sensible is shown: why
};

/// A network made ready for readings. Immutable after construction; keeps a reference to the network.
class Electrical {
 public:
  explicit Electrical(const Network& network, const ElectricalValues& values = default_electrical_values());
  ~Electrical();
  Electrical(Electrical&&) noexcept;
  Electrical& operator=(Electrical&&) noexcept;

  /// Ohms between two places. The limits are exact: ohms between two places never fall when any resistance rises
  /// (Rayleigh's law), so that all parts at one limit give that limit of the reading.
  Predicted ohms(const std::vector<PresentFault>& faults, const Situation& situation, const Terminal& red,
                 const Terminal& black) const;

  /// Volts between two places, as a meter averages them.
  Predicted volts(const std::vector<PresentFault>& faults, const Situation& situation, const Terminal& red,
                  const Terminal& black) const;

  /// Volts across the test lamp or load of the situation.
  Predicted lamp(const std::vector<PresentFault>& faults, const Situation& situation) const;

 private:
  struct Ready;
  std::unique_ptr<const Ready> ready_;
};

/// Readings are predicted for faults alone as well.
std::vector<PresentFault> present(const std::vector<Fault>& faults);

}  // namespace whichwire
