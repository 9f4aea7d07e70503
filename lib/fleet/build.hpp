// A network compiled once, with its faults.
#pragma once

#include <string>
#include <whichwire/fault.hpp>
#include <whichwire/network.hpp>
#include <whichwire/prediction.hpp>

namespace whichwire {

struct Build {
  Build(Network its_network, const Rates& rates);
  Build(const Build&) = delete;
  Build& operator=(const Build&) = delete;

  Network network;
  std::string name;
  Effects effects;
  std::vector<Fault> faults;
};

}  // namespace whichwire
