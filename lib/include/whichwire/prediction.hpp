// What a set of faults does: supply, islands, routes, and so what answers, who hears whom, what works.
// The rules are those of "From an explanation to predictions" in DEVELOPERS.md.
#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <vector>
#include <whichwire/fault.hpp>
#include <whichwire/network.hpp>

namespace whichwire {

/// How well something works under a set of faults. Ordered: a further cause never makes it better,
/// but for a break that cuts a disturbance off. The two `was_` levels stand for what faults that come
/// and go left behind, while everything works now.
enum class Level : std::uint8_t { up, was_unsure, was_down, unsure, down };
constexpr std::size_t level_count = 5;

/// A question that a scan can answer about the network.
struct Question {
  enum class About : std::uint8_t {
    answers,   ///< module `a` answers the tester
    hears,     ///< module `a` hears module `b`
    bus,       ///< bus `b` works where module `a` is on it
    function,  ///< function `a` works
    fitted,    ///< the vehicle has module `a`
  };
  About about = About::answers;
  std::size_t a = nowhere, b = nowhere;
  friend bool operator==(const Question&, const Question&) = default;
};

/// Circumstances of a scan that predictions depend on.
struct Circumstances {
  KeyState key = KeyState::run;
  bool tool_has_own_battery = false;
};

/// A network made ready for predictions: built once, used for any number of scans and threads.
class Effects {
 public:
  /// `network` must outlive this.
  explicit Effects(const Network& network);
  ~Effects();
  Effects(Effects&&) noexcept;
  Effects& operator=(Effects&&) noexcept;

  const Network& network() const;

  /// Levels of `questions`, all of them answerable, when exactly `faults` are present; one entry a question.
  std::vector<Level> predict(std::span<const Fault> faults, std::span<const Question> questions,
                             const Circumstances& circumstances) const;

  /// Whether the module has a live pin in this key state and so is expected to answer.
  bool awake(std::size_t module, KeyState key) const;

  /// Whether the network lets the question be asked: there is a route, the module is on the bus.
  bool answerable(const Question& question) const;

  struct Compiled;
  const Compiled& compiled() const { return *compiled_; }

 private:
  std::unique_ptr<Compiled> compiled_;
};

}  // namespace whichwire
