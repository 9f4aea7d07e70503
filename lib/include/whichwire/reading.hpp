// What a person read off a meter or saw, in the form a person types it; and how likely it is under a prediction.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/electrical.hpp>

namespace whichwire {

struct Reading {
  enum class Kind : std::uint8_t {
    number,  ///< without a unit: the check that it answers says which
    ohms,    ///< infinite: OL
    volts,
    drop,      ///< volts lost between two places
    volts_ac,  ///< ripple
    amps,
    lamp,
    light,   ///< at the plug of an optical ring
    seen,    ///< what a look found
    wiggle,  ///< whether it changed while somebody moved the wire
  };
  enum class Lamp : std::uint8_t { dark, dim, bright };
  enum class Seen : std::uint8_t {
    nothing,
    corrosion,
    water,
    bent_pin,
    loose_pin,
    pushed_back,
    chafed,
    broken,
    burnt,
    loose
  };

  Kind kind = Kind::number;
  double value = 0;  ///< in ohms, volts or amperes
  Lamp lamp = Lamp::dark;
  Seen seen = Seen::nothing;
  bool yes = false;  ///< light: there is some; wiggle: it changed
  std::string text;  ///< as typed, control characters made harmless
};

struct ReadingResult {
  std::optional<Reading> reading;
  std::string error;  ///< what is wrong, and forms that would be right
};

/// Reads `59.8`, `59,8 ohm`, `1.2 k`, `4k7`, `OL`, `12.3 V`, `2450 mV`, `0.31 V drop`, `lamp dim`, `seen corrosion`,
/// `nothing seen`, `wiggle changed it`, `no light` … Decimal point or comma; capital letters do not matter.
ReadingResult read_reading(std::string_view text);

/// The reading in plain words and units, as `59.8 ohm`, `OL`, `lamp dim`.
std::string text_of(const Reading& reading);

/// How a reading speaks for a prediction.
struct Support {
  double likelihood =
      0;               ///< density, or probability of a word; only its ratio between predictions of one reading counts
  double fitting = 0;  ///< share of it that is the prediction's own, not a slip of the probe: near 0 is doubtful
};

/// Likelihood of an ohms, volts, drop or amps reading where the prediction lies within these limits.
/// A `number` takes the kind given.
Support support_of(const Reading& reading, const Interval& predicted, Reading::Kind kind);

/// Likelihood of how bright a lamp is with these predicted volts across it.
Support lamp_support(Reading::Lamp lamp, const Interval& volts);

}  // namespace whichwire
