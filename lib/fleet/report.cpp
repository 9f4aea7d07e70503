// All rows together: in the order of urgency, narrowed by each other, and what recurs among them.
// Tests: tests/fleet/recurring.cpp.
#include <algorithm>
#include <map>
#include <unordered_map>
#include <whichwire/fleet.hpp>

#include "fleet/numbers.hpp"
#include "fleet/recurring.hpp"
#include "fleet/state.hpp"

namespace whichwire {
namespace {

using Shared = std::shared_ptr<const UnitFinding>;

constexpr double most_of_class = 0.8;  ///< a part with this share of its class's units stands for the class
constexpr double worth_naming =
    0.05;  ///< of a class's units: a part below that is not named; of a unit's certainty too

/// The rows of one build; of several scans of a unit the last counts.
class BuildReport {
 public:
  BuildReport(const Build& build, const Groups& groups, std::vector<FleetRow>& rows,
              const std::vector<std::size_t>& which)
      : build_(build), groups_(groups), rows_(rows) {
    std::unordered_map<std::string, std::size_t> last;
    for (const std::size_t r : which) {
      if (!rows[r].unit.empty()) last[rows[r].unit] = r;
    }
    for (const std::size_t r : which) {
      if (rows[r].unit.empty() || last.at(rows[r].unit) == r) counted_.push_back(r);
    }
    count_.network = build.name;
    count_.scans = which.size();
    count_.units = counted_.size();
    totals_.units.assign(groups_.all.size(), 0);
    for (const std::size_t r : counted_) add(*rows[r].finding);
  }

  const BuildCount& count() const { return count_; }
  std::size_t looked_at() const { return groups_.looked_at(); }

  /// `looked_at`: groups of all builds.
  void find(std::size_t looked_at, std::vector<Recurring>& all) const {
    std::map<std::size_t, double> chance;
    for (std::size_t g = 0; g < groups_.all.size(); ++g) {
      if (!may_recur(groups_.all[g]) || totals_.units[g] < fleet_number("least-units")) continue;
      const double tail = binomial_tail(totals_.faults, groups_.all[g].share, totals_.units[g]);
      const double corrected = std::min(1.0, tail * static_cast<double>(looked_at));
      if (corrected <= fleet_number("by-chance")) chance[g] = corrected;
    }
    for (const auto& [group, by_chance] : chance) {
      if (!said_otherwise(group, chance)) all.push_back(recurring(group, by_chance));
    }
  }

  void narrow(const std::vector<std::size_t>& which) {
    std::unordered_map<const UnitFinding*, Shared> made;
    for (const std::size_t r : which) {
      Shared& finding = rows_[r].finding;
      if (finding->suspected.empty()) continue;
      const Shared before = finding;
      Shared& after = made[before.get()];
      if (after == nullptr)
        after =
            std::make_shared<const UnitFinding>(narrowed(build_, groups_, *before, load_of(groups_, *before), totals_));
      finding = after;
    }
  }

 private:
  void add(const UnitFinding& finding) {
    count_.with_fault += finding.fault > 0.5 ? 1 : 0;
    const Load load = load_of(groups_, finding);
    for (const auto& [group, probability] : load.groups) totals_.units[group] += probability;
    totals_.faults += load.faults;
  }

  bool is_class(std::size_t group) const { return groups_.all[group].sort == Group::Sort::several_parts; }

  /// Part and class that both recur are one finding: the part where nearly all of the class is about it.
  bool said_otherwise(std::size_t group, const std::map<std::size_t, double>& chance) const {
    for (const auto& [other, ignored] : chance) {
      if (is_class(other) == is_class(group)) continue;
      const std::size_t part = is_class(group) ? other : group, whole = is_class(group) ? group : other;
      const auto& parts = groups_.all[whole].parts;
      if (std::ranges::find(parts, groups_.all[part].parts.front()) == parts.end()) continue;
      const bool part_stands = totals_.units[part] >= most_of_class * totals_.units[whole];
      if (part_stands == is_class(group)) return true;
    }
    return false;
  }

  Recurring recurring(std::size_t group, double by_chance) const {
    Recurring made{build_.name, {}, totals_.units[group], totals_.faults, totals_.faults * groups_.all[group].share,
                   by_chance,   {}};
    std::vector<std::pair<double, std::string>> parts, units;
    for (const std::string& part : groups_.all[group].parts) {
      const double found = totals_.units[groups_.part_group(part)];
      if (!is_class(group) || found >= worth_naming * made.units) parts.emplace_back(found, part);
    }
    for (const std::size_t r : counted_) {
      const double has = has_group(*rows_[r].finding, group);
      if (has >= worth_naming) units.emplace_back(has, rows_[r].unit.empty() ? rows_[r].scan : rows_[r].unit);
    }
    made.parts = names_by_weight(std::move(parts));
    made.where = names_by_weight(std::move(units));
    return made;
  }

  double has_group(const UnitFinding& finding, std::size_t group) const {
    for (const auto& [of, probability] : load_of(groups_, finding).groups) {
      if (of == group) return probability;
    }
    return 0;
  }

  static std::vector<std::string> names_by_weight(std::vector<std::pair<double, std::string>> weighed) {
    std::ranges::stable_sort(weighed, [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<std::string> names;
    names.reserve(weighed.size());
    for (auto& [weight, name] : weighed) names.push_back(std::move(name));
    return names;
  }

  const Build& build_;
  const Groups& groups_;
  std::vector<FleetRow>& rows_;
  std::vector<std::size_t> counted_;
  BuildCount count_;
  Totals totals_;
};

void sort_by_urgency(std::vector<FleetRow>& rows) {
  std::ranges::stable_sort(rows, [](const FleetRow& a, const FleetRow& b) {
    const bool a_fails = !a.finding->error.empty(), b_fails = !b.finding->error.empty();
    return a_fails != b_fails ? b_fails : urgency_of(*a.finding) > urgency_of(*b.finding);
  });
}

}  // namespace

FleetReport report_of(const Fleet& fleet, std::vector<FleetRow> rows, bool independent) {
  FleetReport report;
  report.independent = independent;
  std::vector<BuildReport> reports;
  std::vector<std::vector<std::size_t>> rows_of;
  for (const auto& build : fleet.state().builds) {
    std::vector<std::size_t> which;
    for (std::size_t r = 0; r < rows.size(); ++r) {
      if (rows[r].finding->error.empty() && rows[r].finding->network == build->name) which.push_back(r);
    }
    if (which.empty()) continue;
    reports.emplace_back(*build, fleet.state().groups_of(*build), rows, which);
    rows_of.push_back(std::move(which));
    report.builds.push_back(reports.back().count());
    report.looked_at += reports.back().looked_at();
  }
  for (const BuildReport& one : reports) one.find(report.looked_at, report.recurring);
  std::ranges::stable_sort(report.recurring, {}, &Recurring::by_chance);
  for (std::size_t i = 0; !independent && i < reports.size(); ++i) reports[i].narrow(rows_of[i]);
  sort_by_urgency(rows);
  report.rows = std::move(rows);
  return report;
}

}  // namespace whichwire
