// A network made ready: the wiring of each bus and the supply in each key state. Immutable, shared by all scans.
#pragma once

#include <array>
#include <vector>
#include <whichwire/prediction.hpp>

#include "effects/supply.hpp"
#include "effects/wiring.hpp"

namespace whichwire {

struct Effects::Compiled {
  explicit Compiled(const Network& network);

  const Network& network;
  std::vector<Wiring> wiring;                         ///< by bus
  std::array<Supply, 4> supply;                       ///< by KeyState
  std::vector<std::vector<std::size_t>> buses_of;     ///< by module
  std::vector<std::vector<std::size_t>> gateways_at;  ///< by bus: indices into `network.gateways`
  /// By bus: those with one number are joined by gateways, for requests of the tester and for messages of modules.
  std::vector<std::size_t> joined_for_tester, joined_for_modules;

  const Supply& supply_in(KeyState key) const { return supply[static_cast<std::size_t>(key)]; }
};

}  // namespace whichwire
