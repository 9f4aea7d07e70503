// The page of a fleet: how many of what, which units to pull in first, what recurs, what could not be read.
// Tests: tests/cli/fleet.cpp.
#include <algorithm>
#include <cmath>
#include <whichwire/render_fleet.hpp>

#include "render/page.hpp"

namespace whichwire {
namespace {

using render::joined;
using render::number;
using render::Page;
using render::percent;

constexpr std::size_t most_units = 20, most_names = 12, most_suspects = 3;
constexpr double least_suspected = 0.01;  ///< of the others a person is told
constexpr double most_unlisted = 0.01;    ///< a bound below that says nothing to a person

std::string counted(std::size_t count, const std::string& one) {
  return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

const std::string& name_of(const FleetRow& row) { return row.unit.empty() ? row.scan : row.unit; }

bool failed(const FleetRow& row) { return !row.finding->error.empty(); }
bool needs_none(const FleetRow& row) { return !failed(row) && row.finding->suspected.empty(); }
bool to_pull_in(const FleetRow& row) { return !failed(row) && !needs_none(row); }

std::string network_phrase(const UnitFinding& finding) {
  switch (finding.matched) {
    case MatchedBy::fit:
      return finding.network + ", which fits it best";
    case MatchedBy::fit_of_several:
      return finding.network + ", which fits it, but another hardly worse";
    default:
      return finding.network;
  }
}

class FleetPage {
 public:
  FleetPage(const FleetReport& report, const Look& look)
      : report_(report),
        page_(look),
        most_units_(look.in_full ? report.rows.size() : most_units),
        most_names_(look.in_full ? report.rows.size() : most_names) {}

  std::string make() {
    say_counts();
    say_units();
    say_recurring();
    say_others("No fault of the network needed", needs_none);
    say_not_read();
    page_.blank();
    page_.text(0, "`whichwire locate` on a unit's scan says how to take its first check, and what its results mean.");
    return page_.take();
  }

 private:
  std::size_t count(bool (*which)(const FleetRow&)) const {
    return static_cast<std::size_t>(std::ranges::count_if(report_.rows, which));
  }

  void say_counts() {
    if (report_.stopped) page_.text(0, "Stopped before the end: what follows is about the scans up to there.");
    page_.text(0, counted(report_.rows.size(), "scan") + ": " + std::to_string(count(to_pull_in)) +
                      " with a fault of the network, surely or perhaps, " + std::to_string(count(needs_none)) +
                      " without, " + std::to_string(count(failed)) + " not read.");
    for (const BuildCount& one : report_.builds)
      page_.text(2, one.network + ": ",
                 counted(one.units, "unit") + (one.scans > one.units ? " in " + counted(one.scans, "scan") : "") +
                     ", " + std::to_string(one.with_fault) + " more likely than not with a fault");
  }

  void say_units() {
    const std::size_t all = count(to_pull_in);
    if (all == 0) return;
    page_.heading("Pull in first");
    find_common_cautions();
    for (const std::string& caution : common_cautions_) page_.text(2, "! ", caution);
    std::size_t said = 0;
    for (const FleetRow& row : report_.rows) {
      if (!to_pull_in(row)) continue;
      if (said == most_units_) break;
      if (said++ > 0 || !common_cautions_.empty()) page_.blank();
      say_unit(row, said);
    }
    if (all > said) page_.text(2, "and " + std::to_string(all - said) + " less urgent (--all lists them)");
  }

  /// What belongs to every first check is said once, before them all.
  void find_common_cautions() {
    bool first = true;
    for (const FleetRow& row : report_.rows) {
      const FirstCheck& check = row.finding->check;
      if (!to_pull_in(row) || check.id.empty()) continue;
      if (first) common_cautions_ = check.cautions;
      first = false;
      std::erase_if(common_cautions_, [&](const std::string& caution) {
        return std::ranges::find(check.cautions, caution) == check.cautions.end();
      });
    }
  }

  void say_unit(const FleetRow& row, std::size_t place) {
    const UnitFinding& finding = *row.finding;
    const std::string mark = std::to_string(place) + ". ";
    const std::size_t indent = 2 + mark.size();
    page_.text(2, mark, name_of(row) + " (" + network_phrase(finding) + ")");
    page_.text(indent, finding.verdict.headline + " (" + percent(finding.verdict.headline_probability) + ").");
    if (finding.outside > most_unlisted)
      page_.text(indent, "The search was cut short: up to " + percent(finding.outside) + " may lie elsewhere.");
    std::vector<std::string> likeliest;
    for (std::size_t i = 0; i < std::min(most_suspects, finding.suspected.size()); ++i)
      if (i == 0 || finding.suspected[i].probability >= least_suspected)
        likeliest.push_back(joined(finding.suspected[i].faults) + " " + percent(finding.suspected[i].probability));
    page_.text(indent, "Likeliest: " + joined(likeliest, ", "));
    if (!finding.check.id.empty())
      page_.text(indent, "Check first: " + finding.check.measure + " (" + number(finding.check.minutes) + " min)");
    for (const std::string& caution : finding.check.cautions) {
      if (std::ranges::find(common_cautions_, caution) == common_cautions_.end()) page_.text(indent, "! ", caution);
    }
    for (const std::string& doubt : finding.doubts) page_.text(indent, "? ", doubt);
  }

  void say_recurring() {
    page_.heading("What recurs");
    if (report_.recurring.empty())
      page_.text(2, "No part is found in more units of a build than chance makes, of " +
                        counted(report_.looked_at, "part") + " and groups of parts looked at.");
    for (const Recurring& one : report_.recurring) {
      page_.text(2, one.network + ": " + cut_list(one.parts, " or "));
      page_.text(4, "in about " + number(std::round(one.units * 10) / 10) + " units, of " +
                        number(std::round(one.of_faulty * 10) / 10) + " faults in all; " +
                        number(std::round(one.by_rates * 100) / 100) +
                        " would be usual. Without a cause in less than " + chance_phrase(one.by_chance) + ".");
      page_.text(4, "Units: " + cut_list(one.where));
    }
    if (!report_.recurring.empty() && !report_.independent)
      page_.text(2, "The units above are judged in this light (--independent leaves it out).");
  }

  /// The order of magnitude: more is not known of a bound.
  static std::string chance_phrase(double by_chance) {
    std::string fleets = "1";
    for (double chance = 1; chance / 10 >= by_chance && fleets.size() < 7; chance /= 10) fleets += '0';
    return "one of " + fleets + " fleets";
  }

  std::string cut_list(const std::vector<std::string>& names, std::string_view last = " and ") const {
    if (names.size() <= most_names_) return joined(names, last);
    const std::vector<std::string> first(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(most_names_));
    return joined(first, ", ") + " and " + std::to_string(names.size() - most_names_) + " more (--all lists them)";
  }

  void say_others(std::string_view heading, bool (*which)(const FleetRow&)) {
    std::vector<std::string> names;
    for (const FleetRow& row : report_.rows) {
      if (which(row)) names.push_back(name_of(row));
    }
    if (names.empty()) return;
    page_.heading(heading);
    page_.text(2, cut_list(names));
  }

  void say_not_read() {
    const std::size_t all = count(failed);
    if (all == 0) return;
    page_.heading("Not read");
    std::size_t said = 0;
    for (const FleetRow& row : report_.rows) {
      if (!failed(row) || said == most_names_) continue;
      page_.text(2, row.scan + ": " + row.finding->error);
      ++said;
    }
    if (all > said) page_.text(2, "and " + std::to_string(all - said) + " more (--all lists them)");
  }

  const FleetReport& report_;
  Page page_;
  std::size_t most_units_, most_names_;
  std::vector<std::string> common_cautions_;
};

}  // namespace

std::string text_of(const FleetReport& report, const Look& look) { return FleetPage(report, look).make(); }

}  // namespace whichwire
