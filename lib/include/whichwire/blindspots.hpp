// What scans of a network cannot tell: faults that every scan shows alike, the cheapest checks that tell them apart,
// modules whose silence nobody would notice, and what would let scans tell more.
#pragma once

#include <vector>
#include <whichwire/check.hpp>
#include <whichwire/compare.hpp>

namespace whichwire {

/// The cheapest set of checks after which every pair of faults that needs different repairs, and that some check can
/// tell apart, is told apart. Minutes are added up as if each check were done by itself.
struct Separation {
  std::vector<Check> checks;
  double minutes = 0;
  double at_least = 0;  ///< proven: no set takes less; less than `minutes` only where the search was cut short
  /// Groups that need different repairs and that no sure check tells apart; a fault by itself is not told from none.
  std::vector<std::vector<Fault>> left;
};

/// Faults that no scan can tell apart, the likeliest first.
struct AlikeFaults {
  std::vector<Fault> faults;
  KeyState key = KeyState::run;  ///< of the scan of which `shown` speaks
  std::vector<Shown> shown;      ///< what it shows; empty: no scan shows anything
  std::size_t repairs = 1;       ///< how many different repairs they may need
  Separation separation;
};

struct Unnoticed {
  std::size_t module = nowhere;
  bool certain = true;  ///< false: of some module that could hear it, it is not known whom it listens to
};

/// One more code about `sender`, of any one of the listeners: each of them would tell as many pairs apart.
struct ExtraListening {
  std::vector<std::size_t> listeners;
  std::size_t sender = nowhere;
  std::size_t pairs = 0;  ///< alike faults that need different repairs and that it would tell apart
};

/// A second scan with the tool plugged in at this place of a bus.
struct AccessPoint {
  std::size_t bus = nowhere;
  End at;
  std::size_t pairs = 0;
};

struct Blindspots {
  std::size_t faults = 0;          ///< that the network can have
  std::size_t kinds_of_scan = 0;   ///< how many different things scans can show of single faults
  std::size_t pairs = 0;           ///< of alike faults that need different repairs
  std::vector<AlikeFaults> alike;  ///< at least two faults, or one that no scan shows; the likeliest first
  std::vector<Unnoticed> unnoticed;
  std::vector<ExtraListening> listening;  ///< the best, most pairs first
  std::vector<AccessPoint> access;        ///< the best, most pairs first
};

Blindspots blindspots(const Effects& effects, const Rates& rates = default_rates());

}  // namespace whichwire
