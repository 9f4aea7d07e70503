// Textbook diagnosis in the terms of the search core. A conflict (parts that cannot all be whole) is an observation
// that is certain to be broken, and each of its parts breaks it; what is consistent is then a set of parts that hits
// every conflict. With noise off and unit odds the core must list every such set, once. The literature's *minimal*
// diagnoses are no notion of a search by probability: they are picked from the full list here, as those that no other
// listed set is a part of. A circuit's own conflicts are found by plain trial, without the core.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "locate/problem.hpp"

namespace whichwire::textbook {

using Parts = std::set<std::string>;
using Sets = std::set<Parts>;

/// Log probability of what cannot be.
constexpr double never = -1000;

/// `log_odds` for each of `parts`; one certain observation a conflict.
search::Problem problem_of(const std::vector<std::string>& parts, const Sets& conflicts, double log_odds = 0);

/// All sets that the core finds consistent with the conflicts. Fails the test where one is listed twice.
Sets consistent_sets(const std::vector<std::string>& parts, const Sets& conflicts);

Sets minimal_of(const Sets& sets);

/// All parts that occur in the conflicts, in order.
std::vector<std::string> parts_of(const Sets& conflicts);

/// The smallest hitting sets of conflicts that need no circuit.
Sets minimal_hitting_sets(const Sets& conflicts);

/// Gates over wires; a gate that is whole relates its wires.
struct Circuit {
  struct Gate {
    std::string name;
    std::function<bool(const std::vector<int>&)> whole;  ///< whether these wire values fit it
  };
  std::vector<Gate> gates;
  std::vector<int> wires;  ///< values; `unknown` where not seen
  int most = 1;            ///< largest value that a wire may have
  static constexpr int unknown = -1;

  std::vector<std::string> names() const;
  Circuit with(std::size_t wire, int value) const;

  /// The smallest sets of gates that cannot all be whole.
  Sets minimal_conflicts() const;
};

}  // namespace whichwire::textbook
