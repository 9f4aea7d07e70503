// The page of a fleet: how many of what, which units to pull in first, what recurs, what could not be read.
// Tests: tests/cli/fleet.cpp, tests/page/fleet.cpp.
#include <algorithm>
#include <cmath>
#include <whichwire/render_fleet.hpp>

#include "render/document.hpp"
#include "render/page.hpp"

namespace whichwire {
namespace {

using namespace render;

constexpr std::size_t most_units = 20, most_names = 12, most_suspects = 3;
constexpr std::size_t most_rows = 1000;   ///< of less urgent units, on a page of HTML
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

std::string unit_phrase(const FleetRow& row) { return name_of(row) + " (" + network_phrase(*row.finding) + ")"; }

std::string verdict_phrase(const UnitFinding& finding) {
  return finding.verdict.headline + " (" + percent(finding.verdict.headline_probability) + ").";
}

std::string check_phrase(const FirstCheck& check) {
  return check.id.empty() ? "" : check.measure + " (" + number(check.minutes) + " min)";
}

class FleetPage {
 public:
  /// `listing`: less urgent units are rows of a table; otherwise they are only counted.
  FleetPage(const FleetReport& report, const Look& look, bool listing)
      : report_(report),
        most_units_(look.in_full && !listing ? report.rows.size() : most_units),
        most_names_(look.in_full ? report.rows.size() : most_names),
        most_rows_(!listing       ? 0
                   : look.in_full ? report.rows.size()
                                  : most_rows) {}

  Document make() {
    say_counts();
    say_units();
    say_recurring();
    say_others("No fault of the network needed", needs_none);
    say_not_read();
    return std::move(page_);
  }

 private:
  std::size_t count(bool (*which)(const FleetRow&)) const {
    return static_cast<std::size_t>(std::ranges::count_if(report_.rows, which));
  }

  void say_counts() {
    page_.title("Fleet of " + counted(report_.rows.size(), "scan"));
    if (report_.stopped) page_.about("Stopped before the end", "what follows is about the scans up to there");
    page_.about("In all", std::to_string(count(to_pull_in)) + " with a fault of the network, surely or perhaps, " +
                              std::to_string(count(needs_none)) + " without, " + std::to_string(count(failed)) +
                              " not read");
    for (const BuildCount& one : report_.builds)
      page_.about(one.network, counted(one.units, "unit") +
                                   (one.scans > one.units ? " in " + counted(one.scans, "scan") : "") + ", " +
                                   std::to_string(one.with_fault) + " more likely than not with a fault");
  }

  void say_units() {
    std::vector<const FleetRow*> units;
    for (const FleetRow& row : report_.rows)
      if (to_pull_in(row)) units.push_back(&row);
    if (units.empty()) return;
    const std::size_t shown = std::min(units.size(), most_units_);
    page_.heading("Pull in first");
    page_.paragraph("`whichwire locate` on a unit's scan says how to take its first check, and what its results mean.");
    find_common_cautions(units);
    for (const std::string& caution : common_cautions_) page_.caution(caution);
    for (std::size_t i = 0; i < shown; ++i) say_unit(*units[i]);
    const std::size_t listed = std::min(units.size() - shown, most_rows_);
    if (listed > 0) page_.heading("Less urgent");
    for (std::size_t i = shown; i < shown + listed; ++i) list_unit(*units[i]);
    say_left_out(units.size() - shown - listed, "less urgent");
  }

  void say_left_out(std::size_t left, const std::string& what) {
    if (left > 0) page_.remark("and " + std::to_string(left) + " " + what + " (--all lists them)");
  }

  /// What belongs to every first check is said once, before them all.
  void find_common_cautions(const std::vector<const FleetRow*>& units) {
    bool first = true;
    for (const FleetRow* row : units) {
      const FirstCheck& check = row->finding->check;
      if (check.id.empty()) continue;
      if (first) common_cautions_ = check.cautions;
      first = false;
      std::erase_if(common_cautions_, [&](const std::string& caution) {
        return std::ranges::find(check.cautions, caution) == check.cautions.end();
      });
    }
  }

  static std::string cut_short(const UnitFinding& finding) {
    if (finding.outside <= most_unlisted) return "";
    return "The search was cut short: up to " + percent(finding.outside) + " may lie elsewhere.";
  }

  void say_unit(const FleetRow& row) {
    const UnitFinding& finding = *row.finding;
    page_.step(unit_phrase(row));
    page_.claim(verdict_phrase(finding), finding.verdict.headline_probability);
    if (const std::string cut = cut_short(finding); !cut.empty()) page_.paragraph(cut);
    std::vector<std::string> likeliest;
    for (std::size_t i = 0; i < std::min(most_suspects, finding.suspected.size()); ++i)
      if (i == 0 || finding.suspected[i].probability >= least_suspected)
        likeliest.push_back(joined(finding.suspected[i].faults) + " " + percent(finding.suspected[i].probability));
    page_.fact("Likeliest", joined(likeliest, ", "));
    for (const std::string& doubt : finding.doubts) page_.fact("Doubt", doubt);
    if (finding.check.id.empty()) return;
    page_.fact("Check first", check_phrase(finding.check));
    for (const std::string& caution : own_cautions(finding)) page_.caution(caution);
  }

  std::vector<std::string> own_cautions(const UnitFinding& finding) const {
    std::vector<std::string> own = finding.check.cautions;
    std::erase_if(own, [&](const std::string& caution) {
      return std::ranges::find(common_cautions_, caution) != common_cautions_.end();
    });
    return own;
  }

  void list_unit(const FleetRow& row) {
    const UnitFinding& finding = *row.finding;
    std::vector<std::string> doubts = finding.doubts;
    if (std::string cut = cut_short(finding); !cut.empty()) doubts.push_back(std::move(cut));
    page_.row({{"Unit", unit_phrase(row)},
               {"Verdict", verdict_phrase(finding)},
               {"Check first", check_phrase(finding.check)},
               {"Caution", line_of(own_cautions(finding))},
               {"Doubt", line_of(doubts)}});
  }

  void say_recurring() {
    page_.heading("What recurs", true);
    if (report_.recurring.empty())
      page_.paragraph("No part is found in more units of a build than chance makes, of " +
                      counted(report_.looked_at, "part") + " and groups of parts looked at.");
    for (const Recurring& one : report_.recurring) {
      page_.lead(one.network + ": " + cut_list(one.parts, " or "));
      page_.item("in about " + number(std::round(one.units * 10) / 10) + " units, of " +
                 number(std::round(one.of_faulty * 10) / 10) + " faults in all; " +
                 number(std::round(one.by_rates * 100) / 100) + " would be usual. Without a cause in less than " +
                 chance_phrase(one.by_chance) + ".");
      page_.item("Units: " + cut_list(one.where));
    }
    if (!report_.recurring.empty() && !report_.independent)
      page_.paragraph("All units are judged in this light (--independent leaves it out).");
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
    page_.heading(std::string(heading));
    page_.paragraph(cut_list(names));
  }

  void say_not_read() {
    const std::size_t all = count(failed);
    if (all == 0) return;
    page_.heading("Not read");
    std::size_t said = 0;
    for (const FleetRow& row : report_.rows) {
      if (!failed(row) || said == most_names_) continue;
      page_.item(row.scan + ": " + row.finding->error);
      ++said;
    }
    say_left_out(all - said, "more");
  }

  const FleetReport& report_;
  Document page_;
  std::size_t most_units_, most_names_, most_rows_;
  std::vector<std::string> common_cautions_;
};

}  // namespace

std::string text_of(const FleetReport& report, const Look& look) {
  return text_of(FleetPage(report, look, false).make(), look);
}

std::string html_of(const FleetReport& report, const Look& look) {
  return html_of(FleetPage(report, look, true).make());
}

}  // namespace whichwire
