// The answer: explanations ranked by probability, the verdict, why, and which wires to check first.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/fault.hpp>
#include <whichwire/prediction.hpp>
#include <whichwire/scan.hpp>

namespace whichwire {

enum class VerdictClass : std::uint8_t {
  module,
  segment,
  bus,
  gateway,
  supply,
  connector,
  intermittent,
  several,
  none,
  contradictory,
};

/// One piece of evidence, in the form that the search works on.
struct Observation {
  Question question;
  std::array<double, level_count> log_likelihood{};  ///< natural log of P(seen | level)
  std::string text;                                  ///< as `ECM does not answer`
  bool abnormal = false;                             ///< more likely under some fault than under none
};

/// What a scan says, and what makes it doubtful, in sentences.
struct Evidence {
  std::vector<Observation> observations;
  std::vector<std::string> doubts;
  bool other_trim = false;  ///< the network may be that of another trim
};

/// Probability that something is so, with the certified slack: the true value lies in [low, high].
struct Chance {
  double low = 0, high = 0;
};

/// Sets of faults that predict the same for all evidence, as one line.
struct Explanation {
  Chance probability;
  std::vector<Fault> faults;              ///< the likeliest of them; empty: no fault
  std::vector<std::vector<Fault>> alike;  ///< the others, likeliest first
  std::vector<std::size_t> explains;      ///< abnormal observations that it predicts
  std::vector<std::size_t> contradicts;   ///< observations that it makes unlikely
  std::vector<std::size_t> leaves;        ///< abnormal observations that it does not explain
  VerdictClass verdict_class = VerdictClass::none;
};

struct Marginal {
  Fault fault;
  Chance probability;
};

/// A repair by its key (`repair_of`), and how probable it is at the least that one of the faults that need it is there,
/// beside whatever else. What the search left out of sets that hold such a fault does not count against it.
struct Needed {
  std::string repair;
  double at_least = 0;
};

struct Verdict {
  VerdictClass verdict_class = VerdictClass::none;
  std::vector<std::string> parts;
  double probability = 0;
  std::string headline;             ///< names a second class where the two share the probability
  double headline_probability = 0;  ///< probability of what the headline says
};

/// An explanation stands for all sets of faults that hold its faults, or alike ones, and besides only such as improve
/// nothing on them: those are summed out, and so are faults that can account for nothing abnormal that was seen.
struct Ranking {
  std::vector<Observation> evidence;
  std::vector<Explanation> explanations;  ///< most probable first
  std::vector<Marginal> marginals;        ///< most probable first, those above 1e-4
  std::vector<Needed> needed;             ///< where the search was cut short: repairs that are not improbable
  double outside = 0;                     ///< proven upper bound on the mass of everything not listed
  std::vector<std::string> doubts;        ///< what makes the scan doubtful, in sentences
  bool other_trim = false;                ///< one of them: the network may be that of another trim
  bool unsettled = false;                 ///< the search stopped where it may have missed more than it had found
};

struct LocateOptions {
  double outside = 1e-4;                 ///< wanted bound
  std::size_t most_explanations = 1000;  ///< never list more
  /// Factor on the prior of no fault at all; 1 for a vehicle that nobody complained of.
  double no_fault = factor_of_no_fault();
  double effort = 1;  ///< factor, above 0, on the work after which the search gives up
};

/// The evidence of a scan, in the network's terms. Names that the network does not know are passed over here.
Evidence evidence_of(const Effects&, const Scan&);

/// The exact ranking of the faults of `faults` over a scan.
Ranking locate(const Effects&, const std::vector<Fault>& faults, const Scan&, const LocateOptions& = {});

std::string_view word_for(VerdictClass);

}  // namespace whichwire
