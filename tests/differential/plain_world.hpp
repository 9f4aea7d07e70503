// The network with some faults present: supply and life of its modules. Page: "Feeds", "Supply level", "Life".
#pragma once

#include <span>
#include <whichwire/prediction.hpp>

namespace whichwire::test {

struct PlainWorld {
  const Network& network;
  std::span<const Fault> faults;  ///< all present, none that comes and goes
  Circumstances circumstances;

  bool has(FaultKind kind, PartKind part, std::size_t owner, std::size_t item = nowhere) const;
  bool open(PartKind part, std::size_t owner, std::size_t item = nowhere) const {
    return has(FaultKind::open, part, owner, item);
  }
  bool port_dead(std::size_t module, std::size_t bus) const;
  bool live(std::size_t feed) const;

  Level supply_of(std::size_t module) const;
  Level supply_of_tester() const;
  Level life_of(std::size_t module) const;
  /// Its life, and that it is there at all.
  Level work_of(std::size_t module) const;

 private:
  Level supply(const std::vector<PowerPin>& power, const std::vector<GroundPin>& ground, PartKind power_part,
               PartKind ground_part, std::size_t owner) const;
};

/// A module with power pins of which none is live in this key state.
bool plain_asleep(const Network& network, std::size_t module, KeyState key);

}  // namespace whichwire::test
