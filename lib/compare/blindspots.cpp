// See whichwire/blindspots.hpp. Tests: tests/compare/blindspots.cpp, tests/compare/separating.cpp.
#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <whichwire/blindspots.hpp>

#include "compare/class_checks.hpp"
#include "compare/more_eyes.hpp"
#include "compare/outlook.hpp"

namespace whichwire {
namespace {

constexpr std::size_t most_proposals = 5;

/// What the first scan that shows anything shows.
void add_shown(Outlook& outlook, AlikeFaults& alike) {
  for (std::size_t scan = 0; scan < outlook.scans(); ++scan) {
    const auto& raised = outlook.shown(alike.faults.front(), scan);
    if (raised.empty()) continue;
    alike.key = outlook.circumstances(scan).key;
    for (const Raised& one : raised) alike.shown.push_back({outlook.questions(scan)[one.question], one.level});
    return;
  }
}

/// Faults that the chosen checks leave together and that need different repairs; one by itself is not told from none.
std::vector<std::vector<Fault>> left_by(const Cheapest& cheapest, const OutcomeTable& table,
                                        const std::vector<Fault>& faults) {
  std::vector<std::size_t> group(faults.size());
  std::iota(group.begin(), group.end(), 0U);
  for (std::size_t i = 0; i < faults.size(); ++i) {
    for (std::size_t j = i + 1; j < faults.size(); ++j) {
      const auto apart = [&](std::size_t check) { return tells_apart(table, check, i, j); };
      if (table.repair[i] == table.repair[j] || std::any_of(cheapest.checks.begin(), cheapest.checks.end(), apart))
        continue;
      const std::size_t from = group[j], to = group[i];
      std::replace(group.begin(), group.end(), from, to);
    }
  }
  // Against no fault, where it is one of those that look alike.
  const auto from_none = [&](std::size_t i) {
    const auto apart = [&](std::size_t check) { return tells_apart(table, check, i, faults.size()); };
    return table.shows.size() == faults.size() || std::any_of(cheapest.checks.begin(), cheapest.checks.end(), apart);
  };
  std::map<std::size_t, std::vector<Fault>> groups;
  for (std::size_t i = 0; i < faults.size(); ++i) groups[group[i]].push_back(faults[i]);
  std::vector<std::vector<Fault>> left;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    const auto found = groups.find(group[i]);
    if (found == groups.end() || (found->second.size() == 1 && from_none(i))) continue;
    left.push_back(std::move(found->second));
    groups.erase(found);
  }
  return left;
}

Separation separation_of(const Network& network, const AlikeFaults& alike) {
  ClassChecks all = checks_for(network, alike.faults, alike.shown.empty());
  const Cheapest cheapest = cheapest_checks(all.table);
  Separation separation;
  separation.minutes = cheapest.minutes;
  separation.at_least = cheapest.at_least;
  separation.left = left_by(cheapest, all.table, alike.faults);
  for (const std::size_t check : cheapest.checks) separation.checks.push_back(std::move(all.checks[check]));
  return separation;
}

double odds_of_any(const AlikeFaults& alike) {
  return std::accumulate(alike.faults.begin(), alike.faults.end(), 0.0,
                         [](double sum, const Fault& fault) { return sum + fault.odds; });
}

/// Modules of which no other stores a code and that no function needs.
std::vector<Unnoticed> unnoticed_of(const Effects& effects) {
  const Network& network = effects.network();
  std::vector<Unnoticed> all;
  for (std::size_t m = 0; m < network.modules.size(); ++m) {
    bool noticed = false, certain = true;
    for (std::size_t other = 0; other < network.modules.size(); ++other) {
      const auto& list = network.modules[other].listens_to;
      if (other == m || !effects.answerable({Question::About::hears, other, m})) continue;
      certain = certain && list.has_value();
      noticed = noticed || (list && std::find(list->begin(), list->end(), m) != list->end());
    }
    for (const Function& function : network.functions) {
      const auto sent = [&](const Function::Message& message) { return message.from == m || message.to == m; };
      noticed = noticed || std::find(function.modules.begin(), function.modules.end(), m) != function.modules.end() ||
                std::any_of(function.messages.begin(), function.messages.end(), sent);
    }
    if (!noticed) all.push_back({m, certain});
  }
  return all;
}

}  // namespace

Blindspots blindspots(const Effects& effects, const Rates& rates) {
  const Network& network = effects.network();
  const Network* only[] = {&network};
  Outlook outlook(effects, different_keys(only));
  std::map<Print, std::vector<Fault>> classes;
  Blindspots found;
  for (const Fault& fault : faults_of(network, rates)) {
    classes[outlook.print(fault)].push_back(fault);
    ++found.faults;
  }
  found.kinds_of_scan = classes.size();
  std::vector<AlikeClass> to_split;
  for (auto& [print, faults] : classes) {
    AlikeFaults alike;
    std::stable_sort(faults.begin(), faults.end(), [](const Fault& x, const Fault& y) { return x.odds > y.odds; });
    alike.faults = std::move(faults);
    add_shown(outlook, alike);
    if (alike.faults.size() < 2 && !alike.shown.empty()) continue;
    const auto repairs = repairs_of(network, alike.faults);
    alike.repairs = std::set<std::size_t>(repairs.begin(), repairs.end()).size();
    found.pairs += pairs_among(repairs);
    if (alike.repairs > 1 || alike.shown.empty()) alike.separation = separation_of(network, alike);
    if (alike.repairs > 1) to_split.push_back({alike.faults, repairs});
    found.alike.push_back(std::move(alike));
  }
  std::stable_sort(found.alike.begin(), found.alike.end(),
                   [](const AlikeFaults& x, const AlikeFaults& y) { return odds_of_any(x) > odds_of_any(y); });
  found.unnoticed = unnoticed_of(effects);
  found.listening = extra_listening(effects, to_split, most_proposals);
  found.access = access_points(network, to_split, most_proposals);
  return found;
}

}  // namespace whichwire
