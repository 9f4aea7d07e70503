// Two networks of one build, compared by what parts are and do rather than by where they stand in a file: what differs,
// which faults a scan shows differently, which faults it tells apart in one and not in the other, and which of the two
// fits a scan.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>
#include <whichwire/check.hpp>
#include <whichwire/fault.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/network.hpp>
#include <whichwire/prediction.hpp>
#include <whichwire/scan.hpp>

namespace whichwire {

/// One thing in which two networks differ.
struct Difference {
  enum class Sort : std::uint8_t { only_in_a, only_in_b, renamed, changed };
  enum class Kind : std::uint8_t {
    vehicle,
    module,
    bus,
    segment,
    terminator,
    gateway,
    point,
    feed,
    ground,
    connector,
    function,
  };
  Sort sort = Sort::changed;
  Kind kind = Kind::module;
  std::string part;   ///< its id in A, in B where A lacks it; `ECM/A-27` and `ECM/5V-1` for pins and references
  std::string what;   ///< changed: the property; only in one: what the part is, in words
  std::string a, b;   ///< the values; of a list what only this network has; renamed: the ids
  bool list = false;  ///< the values are what only one of two lists has
  friend bool operator==(const Difference&, const Difference&) = default;
};

/// Something that a scan can show.
struct Shown {
  Question question;  ///< in the terms of the network that it was predicted for
  Level level = Level::up;
  friend bool operator==(const Shown&, const Shown&) = default;
};

/// Faults that the two networks share and that scans show differently, all in the same way.
struct LooksDifferent {
  struct Pair {
    Fault in_a, in_b;
  };
  std::vector<Pair> faults;
  KeyState key = KeyState::run;             ///< of the scan that the two lists are of
  std::vector<Shown> only_in_a, only_in_b;  ///< what one network shows and the other does not, or not to this level
  bool of_both = false;                     ///< some of that can be seen in both; else only by what one has besides
};

/// Faults that every scan shows alike in one network and that the other tells apart.
struct ToldApart {
  bool in_b = true;                        ///< told apart in B, alike in A; else the other way about
  std::vector<std::vector<Fault>> groups;  ///< in the terms of A; each alike in both networks
};

/// How well a network accounts for a scan.
struct Fit {
  Verdict verdict;
  double low = 0, high = 0;                ///< natural log of P(scan | network), certified: the true value lies between
  std::vector<std::string> strangers;      ///< modules that answer and that the network does not have
  std::vector<std::string> missing;        ///< modules that it must have and that do not answer
  std::vector<std::string> codes_unknown;  ///< codes that only the other network understands
};

struct Fits {
  Fit a, b;
  /// How strongly the scan speaks for one of the two, by the published steps of compare.csv.
  enum class Strength : std::uint8_t { none, positive, strong, very_strong, not_known };
  Strength strength = Strength::none;
  bool for_b = false;  ///< else for A
};

struct Comparison {
  std::vector<Difference> differences;
  std::size_t faults_shared = 0, faults_only_in_a = 0, faults_only_in_b = 0;
  std::vector<LooksDifferent> looks_different;  ///< by what both have first, then by answers, then the largest
  std::vector<ToldApart> told_apart;
  std::optional<Fits> fits;  ///< with a scan
};

/// Both scans are the same one, read against either network.
struct ScanOfBoth {
  Scan in_a, in_b;
};

struct ScanOfBothResult {
  std::optional<ScanOfBoth> scan;
  std::vector<Mistake> mistakes;
};

/// Reads a scan, JSON or pasted text, against either network. What only one of them knows is no mistake.
ScanOfBothResult read_scan_of_both(std::string_view text, const std::string& name, const Network& a, const Network& b);

/// Compares. Throws nothing; the networks need not outlive the result.
Comparison compare(const Effects& a, const Effects& b, const std::optional<ScanOfBoth>& scan = std::nullopt,
                   const Rates& rates = default_rates());

/// What differs, without any prediction.
std::vector<Difference> differences(const Network& a, const Network& b);

std::string_view word_for(Difference::Kind);
std::string_view word_for(Difference::Sort);

}  // namespace whichwire
