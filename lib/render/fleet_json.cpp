// Many units for programs: rows a line each, the report as JSON and CSV. The schemas are topologies/fleet.schema.json
// and fleet-row.schema.json; lib/fleet/row.cpp reads rows again. Tests: tests/fleet/row.cpp, tests/cli/fleet.cpp.
#include <cstdio>
#include <unordered_map>
#include <whichwire/render_fleet.hpp>

#include "render/json.hpp"

namespace whichwire {
namespace {

using render::Json;

Json suspected_json(const UnitFinding& finding) {
  Json all = Json::array();
  for (const Suspected& set : finding.suspected)
    all.push_back({{"probability", set.probability}, {"faults", set.faults}});
  return all;
}

/// A row's members behind those that say which unit it is.
Json finding_json(const UnitFinding& finding) {
  if (!finding.error.empty()) return {{"error", finding.error}};
  Json json = {{"network", finding.network},
               {"matched", word_for(finding.matched)},
               {"class", word_for(finding.verdict.verdict_class)},
               {"parts", finding.verdict.parts},
               {"probability", finding.verdict.probability},
               {"headline", finding.verdict.headline},
               {"headline_probability", finding.verdict.headline_probability},
               {"fault", finding.fault},
               {"silent", finding.silent}};
  if (!finding.check.id.empty()) {
    const FirstCheck& check = finding.check;
    json["check"] = {
        {"id", check.id}, {"measure", check.measure}, {"minutes", check.minutes}, {"cautions", check.cautions}};
  }
  json["doubts"] = finding.doubts;
  json["outside"] = finding.outside;
  json["suspected"] = suspected_json(finding);
  if (finding.narrowed) json["narrowed"] = true;
  return json;
}

std::string quoted(const std::string& text) { return render::on_one_line(Json(text)); }

Json recurring_json(const Recurring& one) {
  return {{"network", one.network},
          {"parts", one.parts},
          {"units", render::rounded(one.units)},
          {"of_faults", render::rounded(one.of_faulty)},
          {"by_rates", render::rounded(one.by_rates)},
          {"by_chance", one.by_chance},
          {"where", one.where}};
}

std::string cell(const std::string& text) {
  std::string safe = printable(text);
  if (safe.find_first_of(",\"") == std::string::npos) return safe;
  for (std::size_t at = 0; (at = safe.find('"', at)) != std::string::npos; at += 2) safe.insert(at, 1, '"');
  return '"' + safe + '"';
}

std::string cell(double value) {
  char digits[32];
  std::snprintf(digits, sizeof digits, "%.9g", value);
  return digits;
}

std::string cell(const std::vector<std::string>& all) {
  std::string text;
  for (const std::string& one : all) text += (text.empty() ? "" : "; ") + one;
  return cell(text);
}

std::string csv_line(const FleetRow& row) {
  const UnitFinding& finding = *row.finding;
  const std::string who = cell(row.unit) + "," + cell(row.scan) + ",";
  if (!finding.error.empty()) return who + ",,,,,,,,,,,," + cell(finding.error) + "\n";
  return who + cell(finding.network) + "," + std::string(word_for(finding.matched)) + "," +
         cell(render::rounded(urgency_of(finding))) + "," + std::string(word_for(finding.verdict.verdict_class)) + "," +
         cell(finding.verdict.parts) + "," + cell(finding.verdict.probability) + "," + cell(finding.fault) + "," +
         cell(finding.silent) + "," + cell(finding.check.measure) + "," +
         (finding.check.id.empty() ? std::string() : cell(finding.check.minutes)) + "," + cell(finding.doubts) + "," +
         cell(finding.outside) + ",\n";
}

}  // namespace

std::string ndjson_of(std::span<const FleetRow> rows) {
  // Most rows of a fleet share a few findings: each is written once.
  std::unordered_map<const UnitFinding*, std::string> written;
  std::string lines;
  for (const FleetRow& row : rows) {
    std::string& finding = written[row.finding.get()];
    if (finding.empty()) finding = render::on_one_line(finding_json(*row.finding)).substr(1);
    lines.append(R"({"format":")").append(fleet_row_format).append(R"(","scan":)").append(quoted(row.scan));
    if (!row.unit.empty()) lines.append(R"(,"unit":)").append(quoted(row.unit));
    lines.append(",").append(finding).append("\n");
  }
  return lines;
}

std::string json_of(const FleetReport& report) {
  Json builds = Json::array(), rows = Json::array(), recurring = Json::array();
  for (const BuildCount& one : report.builds)
    builds.push_back(
        {{"network", one.network}, {"scans", one.scans}, {"units", one.units}, {"with_fault", one.with_fault}});
  for (const FleetRow& row : report.rows) {
    Json json = {{"scan", row.scan}};
    if (!row.unit.empty()) json["unit"] = row.unit;
    json.update(finding_json(*row.finding));
    rows.push_back(std::move(json));
  }
  for (const Recurring& one : report.recurring) recurring.push_back(recurring_json(one));
  return render::dumped({{"format", "whichwire.fleet.v1"},
                         {"networks", std::move(builds)},
                         {"rows", std::move(rows)},
                         {"recurring", std::move(recurring)},
                         {"looked_at", report.looked_at},
                         {"independent", report.independent},
                         {"stopped", report.stopped}});
}

std::string csv_of(const FleetReport& report) {
  std::string lines =
      "unit,scan,network,matched,urgency,class,parts,probability,fault,silent,check,minutes,doubts,outside,error\n";
  for (const FleetRow& row : report.rows) lines += csv_line(row);
  return lines;
}

}  // namespace whichwire
