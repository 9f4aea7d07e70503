// What scans show of single faults: the questions that a scan answers, in every key state in which the network is fed
// differently, by a tool that lives on the vehicle's supply and by one that does not. A code is only read of a module
// that answers. Tests: tests/compare/blindspots.cpp against plain enumeration.
#pragma once

#include <functional>
#include <span>
#include <unordered_set>
#include <vector>
#include <whichwire/expected_scan.hpp>

#include "effects/predictor.hpp"

namespace whichwire {

/// What every scan shows of a fault, as a number: alike faults have the same one. Of 128 bits, so that two that are not
/// alike never meet in it in practice.
struct Print {
  std::uint64_t first = 0, second = 0;
  friend auto operator<=>(const Print&, const Print&) = default;
};

/// Key states in which the feeds of the networks are live in different ways, `run` first.
std::vector<KeyState> different_keys(std::span<const Network* const> networks);

class Outlook {
 public:
  /// Gives questions of this network the names under which they are compared.
  using Rename = std::function<Question(const Question&)>;

  Outlook(const Effects& effects, std::span<const KeyState> keys, const Rename& rename = {});

  std::size_t scans() const { return scans_.size(); }
  const Circumstances& circumstances(std::size_t scan) const { return scans_[scan].circumstances; }
  const std::vector<Question>& questions(std::size_t scan) const { return scans_[scan].questions; }
  /// A number for a question, the same in both networks.
  std::uint64_t number(std::size_t scan, std::uint32_t question) const { return scans_[scan].numbers[question]; }
  bool asks(std::size_t scan, std::uint64_t number) const { return scans_[scan].asked.count(number) != 0; }
  /// A number for a question and its level.
  std::uint64_t key(std::size_t scan, const Raised& raised) const;

  /// What the scan shows of the fault that is not `up`, rising by question.
  const std::vector<Raised>& shown(const Fault& fault, std::size_t scan);

  Print print(const Fault& fault);

 private:
  struct OneScan {
    Circumstances circumstances;
    std::vector<Question> questions;
    std::vector<std::uint64_t> numbers;       ///< by question
    std::unordered_set<std::uint64_t> asked;  ///< the same, to look up
    std::vector<std::uint8_t> never_answers;  ///< by module: no code of it is ever read
    Predictor predictor;
  };
  std::vector<OneScan> scans_;
  std::vector<Raised> shown_;
  std::vector<std::uint8_t> silent_;
};

}  // namespace whichwire
