#include "fleet/match.hpp"

#include <algorithm>
#include <limits>
#include <whichwire/compare.hpp>

#include "compare/fit.hpp"
#include "fleet/numbers.hpp"
#include "scan/fold.hpp"

namespace whichwire {
namespace {

using Builds = std::vector<const Build*>;

/// The first mistake in one line, with its place in the scan's own text.
std::string said(const std::vector<Mistake>& mistakes, std::string_view scan) {
  const Mistake& first = mistakes.front();
  const bool one_line = scan.find('\n') == std::string_view::npos;
  std::string text;
  if (first.line > 0 && !one_line) text += "line " + std::to_string(first.line) + ", ";
  if (first.line > 0) text += "column " + std::to_string(first.column) + ": ";
  if (!first.path.empty()) text += first.path + ": ";
  text += first.message;
  if (mistakes.size() > 1) text += " (and " + std::to_string(mistakes.size() - 1) + " more)";
  return text;
}

Matched read_for(const Build& build, MatchedBy by, std::string_view text, const std::string& name) {
  ScanResult read = read_any_scan(text, name, build.network);
  if (!read.scan) return {&build, by, {}, said(read.mistakes, text)};
  return {&build, by, std::move(read.scan), ""};
}

bool same_word(const std::string& stated, const std::string& of_network) {
  return stated.empty() || folded_key(stated) == folded_key(of_network);
}

bool of_vehicle(const Vehicle& stated, const Vehicle& of_network) {
  return same_word(stated.make, of_network.make) && same_word(stated.model, of_network.model) &&
         same_word(stated.variant, of_network.variant) &&
         (stated.model_year == 0 || stated.model_year == of_network.model_year);
}

Builds of_vehicle(const Builds& builds, const Vehicle& stated) {
  Builds its;
  for (const Build* build : builds) {
    if (of_vehicle(stated, build->network.vehicle)) its.push_back(build);
  }
  return its;
}

std::string phrase_of(const Vehicle& vehicle) {
  std::string phrase;
  const auto add = [&](const std::string& word) { phrase += (phrase.empty() || word.empty() ? "" : " ") + word; };
  add(vehicle.make);
  add(vehicle.model);
  add(vehicle.model_year == 0 ? "" : std::to_string(vehicle.model_year));
  add(vehicle.variant);
  return phrase;
}

/// Modules of the scan that the network knows, less those that it always has and the scan does not speak of: a scan is
/// of all modules.
int names_in_common(const Network& network, const Scan& scan) {
  int common = 0;
  std::vector<bool> seen(network.modules.size(), false);
  for (const ModuleSeen& one : scan.modules) {
    const std::size_t module = index_of(network.modules, one.module);
    if (module == nowhere) continue;
    seen[module] = true;
    ++common;
  }
  if (common == 0) return std::numeric_limits<int>::min();
  for (std::size_t m = 0; m < seen.size(); ++m) common -= !seen[m] && !network.modules[m].optional ? 1 : 0;
  return common;
}

/// Those that have the most modules in common with the scan, but for one that may be missed by chance; best first.
Builds nearest(const Builds& builds, std::string_view text, const std::string& name) {
  std::vector<std::pair<int, const Build*>> all;
  for (const Build* build : builds) {
    const ScanResult read = read_any_scan(text, name, build->network);
    const int common = read.scan ? names_in_common(build->network, *read.scan) : std::numeric_limits<int>::min();
    if (common > std::numeric_limits<int>::min()) all.emplace_back(common, build);
  }
  std::ranges::stable_sort(all, [](const auto& a, const auto& b) { return a.first > b.first; });
  Builds best;
  for (const auto& [common, build] : all) {
    const bool near = common >= all.front().first - 1;
    if (near && static_cast<double>(best.size()) < fleet_number("most-networks")) best.push_back(build);
  }
  return best;
}

/// The winner of each against the best so far. What is not positively better is not told apart.
Matched fitting(const Fleet::State& state, const Builds& builds, std::string_view text, const std::string& name) {
  const Build* best = builds.front();
  auto by = MatchedBy::fit;
  for (std::size_t i = 1; i < builds.size(); ++i) {
    const Build& rival = *builds[i];
    const auto read = read_scan_of_both(text, name, best->network, rival.network);
    if (!read.scan) continue;
    const Fits fits = fits_of({best->effects, best->faults, read.scan->in_a},
                              {rival.effects, rival.faults, read.scan->in_b}, state.search);
    const bool told = fits.strength != Fits::Strength::none && fits.strength != Fits::Strength::not_known;
    if (!told) by = MatchedBy::fit_of_several;
    if (told && fits.for_b) by = MatchedBy::fit;
    if (told && fits.for_b) best = &rival;
  }
  return read_for(*best, by, text, name);
}

}  // namespace

Matched match_scan(const Fleet::State& state, std::string_view text, const std::string& name) {
  if (state.given != nullptr) return read_for(*state.given, MatchedBy::given, text, name);
  if (state.builds.size() == 1) return read_for(*state.builds.front(), MatchedBy::only_one, text, name);
  Builds builds;
  for (const auto& build : state.builds) builds.push_back(build.get());
  // Units of one build mostly come together: then the scan is read only once.
  if (const Build* const last = state.last_by_vehicle; last != nullptr) {
    Matched again = read_for(*last, MatchedBy::vehicle, text, name);
    if (again.scan && again.scan->vehicle != Vehicle{} && of_vehicle(builds, again.scan->vehicle) == Builds{last})
      return again;
  }
  // A scan with mistakes, or pasted text, states no vehicle here; what is wrong is said where it is read for a network.
  const Scan plain = read_scan(text, name, nullptr).scan.value_or(Scan{});
  if (plain.vehicle != Vehicle{}) {
    builds = of_vehicle(builds, plain.vehicle);
    if (builds.empty()) return {nullptr, {}, {}, "no network is of this vehicle: " + phrase_of(plain.vehicle)};
    if (builds.size() == 1) state.last_by_vehicle = builds.front();
    if (builds.size() == 1) return read_for(*builds.front(), MatchedBy::vehicle, text, name);
  }
  const Builds near = nearest(builds, text, name);
  if (!near.empty()) return fitting(state, near, text, name);
  const Matched first = read_for(*builds.front(), MatchedBy::fit, text, name);
  if (!first.scan) return {nullptr, {}, {}, first.error};
  return {nullptr, {}, {}, "no network knows any of its modules"};
}

}  // namespace whichwire
