#include "textbook.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "locate/list.hpp"

namespace whichwire::textbook {

namespace {

/// Whether some values of the unknown wires fit all gates of `whole`.
bool fits(const Circuit& circuit, const std::vector<bool>& whole, std::vector<int>& values, std::size_t wire) {
  while (wire < values.size() && circuit.wires[wire] != Circuit::unknown) ++wire;
  if (wire == values.size()) {
    for (std::size_t g = 0; g < circuit.gates.size(); ++g) {
      if (whole[g] && !circuit.gates[g].whole(values)) return false;
    }
    return true;
  }
  for (values[wire] = 0; values[wire] <= circuit.most; ++values[wire]) {
    if (fits(circuit, whole, values, wire + 1)) return true;
  }
  return false;
}

bool contains(const Parts& all, const Parts& some) {
  return std::includes(all.begin(), all.end(), some.begin(), some.end());
}

}  // namespace

search::Problem problem_of(const std::vector<std::string>& parts, const Sets& conflicts, double log_odds) {
  search::Problem problem;
  search::Likelihood broken{};
  broken.front() = never;
  problem.likelihood.assign(conflicts.size(), broken);
  for (const auto& part : parts) {
    std::vector<std::uint32_t> breaks;
    std::uint32_t index = 0;
    for (const auto& conflict : conflicts) {
      if (conflict.count(part) != 0) breaks.push_back(index);
      ++index;
    }
    add_candidate(problem, log_odds, breaks);
  }
  return problem;
}

Sets consistent_sets(const std::vector<std::string>& parts, const Sets& conflicts) {
  Sets sets;
  for (const auto& found : search::sets_within(problem_of(parts, conflicts), -never / 2)) {
    Parts set;
    for (const auto member : found.members) set.insert(parts[member]);
    CHECK(sets.insert(set).second);
  }
  return sets;
}

Sets minimal_of(const Sets& sets) {
  Sets minimal;
  for (const auto& set : sets) {
    const bool least = std::none_of(sets.begin(), sets.end(),
                                    [&](const Parts& other) { return other != set && contains(set, other); });
    if (least) minimal.insert(set);
  }
  return minimal;
}

std::vector<std::string> parts_of(const Sets& conflicts) {
  Parts parts;
  for (const auto& conflict : conflicts) parts.insert(conflict.begin(), conflict.end());
  return {parts.begin(), parts.end()};
}

Sets minimal_hitting_sets(const Sets& conflicts) { return minimal_of(consistent_sets(parts_of(conflicts), conflicts)); }

std::vector<std::string> Circuit::names() const {
  std::vector<std::string> names;
  for (const auto& gate : gates) names.push_back(gate.name);
  return names;
}

Circuit Circuit::with(std::size_t wire, int value) const {
  Circuit probed = *this;
  probed.wires[wire] = value;
  return probed;
}

Sets Circuit::minimal_conflicts() const {
  Sets conflicts;
  for (std::size_t bits = 0; bits < std::size_t{1} << gates.size(); ++bits) {
    std::vector<bool> whole;
    Parts set;
    for (std::size_t g = 0; g < gates.size(); ++g) {
      whole.push_back((bits >> g & 1) != 0);
      if (whole.back()) set.insert(gates[g].name);
    }
    auto values = wires;
    if (!fits(*this, whole, values, 0)) conflicts.insert(set);
  }
  return minimal_of(conflicts);
}

}  // namespace whichwire::textbook
