// Which modules have supply and are alive: feeds in their tree, pins, ground points, references.
// The rules are those of meanings.md, section 1.
#pragma once

#include <span>
#include <vector>
#include <whichwire/prediction.hpp>

namespace whichwire {

/// The pins of one consumer (a module or the diagnostic connector).
struct Pins {
  const std::vector<PowerPin>* power;
  const std::vector<GroundPin>* ground;
  std::size_t owner;  ///< module index; `nowhere` for the connector
};

/// The supply side of a network in one key state.
class Supply {
 public:
  Supply(const Network& network, KeyState key);

  /// Level of the supply of these pins when exactly `faults` are present.
  Level of(const Pins& pins, std::span<const Fault* const> faults) const;

  /// Level of the supply of a module.
  Level of(std::size_t module, std::span<const Fault* const> faults) const;

  /// Level of the tester's supply through the diagnostic connector.
  Level of_tester(std::span<const Fault* const> faults) const;

  /// Life of a module: its supply, and whether it is in order itself.
  Level life(std::size_t module, std::span<const Fault* const> faults) const;

  /// Whether any pin of the module is live in this key state.
  bool awake(std::size_t module) const;

  /// Modules whose supply hangs on a feed or on one below it; those with a pin on a ground point.
  const std::vector<std::size_t>& users_of_feed(std::size_t feed) const { return feed_users_[feed]; }
  const std::vector<std::size_t>& users_of_ground(std::size_t ground) const { return ground_users_[ground]; }
  bool tester_uses_feed(std::size_t feed) const;
  bool tester_uses_ground(std::size_t ground) const;

 private:
  bool expected(const PowerPin& pin) const;
  bool hangs_on(std::size_t feed, std::size_t above) const;
  bool pin_whole(const Pins& pins, const PowerPin& pin, std::size_t item, std::span<const Fault* const> faults) const;
  bool pin_whole(const Pins& pins, const GroundPin& pin, std::size_t item, std::span<const Fault* const> faults) const;
  Pins pins_of(std::size_t module) const;

  const Network& network_;
  KeyState key_;
  std::vector<std::vector<std::size_t>> feed_users_, ground_users_;
};

}  // namespace whichwire
