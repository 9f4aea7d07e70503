// The findings of a scan, in the order in which a technician needs them: what was read, what makes it doubtful, the
// verdict, why, the rivals, what to check first. Tests: tests/render/findings_text.cpp, samples/*/expected.txt,
// tests/page.
#include <algorithm>
#include <functional>
#include <span>

#include "render/page.hpp"
#include "render/steps.hpp"
#include "render/why.hpp"

namespace whichwire {

namespace {

using namespace render;

std::string vehicle_phrase(const Vehicle& vehicle) {
  std::string text = vehicle.make + " " + vehicle.model;
  if (vehicle.model_year > 0) text += " " + std::to_string(vehicle.model_year);
  return text + (vehicle.variant.empty() ? "" : ", " + vehicle.variant);
}

std::string scan_phrase(const Scan& scan) {
  std::vector<std::string> parts;
  if (!scan.unit.empty()) parts.push_back("unit " + scan.unit);
  if (!scan.taken.empty()) parts.push_back("taken " + scan.taken);
  parts.push_back("key " + std::string(word_for(scan.key)) + (scan.key_stated ? "" : " (assumed)"));
  if (scan.battery_volts) parts.push_back("battery " + number(*scan.battery_volts) + " V");
  return joined(parts, ", ");
}

void count_line(Document& page, std::string_view what, const std::vector<std::string>& ids) {
  page.labelled(std::to_string(ids.size()) + " " + std::string(what), joined(ids, ", "));
}

/// Modules of the network that the scan does not speak of.
std::vector<std::string> unmentioned(const Findings& findings) {
  std::vector<std::string> ids;
  for (const Module& module : findings.network.modules) {
    const auto is_it = [&](const ModuleSeen& seen) { return seen.module == module.id; };
    if (std::none_of(findings.scan.modules.begin(), findings.scan.modules.end(), is_it)) ids.push_back(module.id);
  }
  return ids;
}

void say_not_fitted(Document& page, const Findings& findings) {
  std::vector<std::string> optional_ones;
  std::vector<std::string> always;
  for (const std::string& id : modules_with(findings.network, findings.scan, Answer::not_fitted)) {
    const Module& module = findings.network.modules[index_of(findings.network.modules, id)];
    (module.optional ? optional_ones : always).push_back(id);
  }
  count_line(page, "shown as not fitted", optional_ones);
  count_line(page, "shown as not fitted, but always fitted, so silent", always);
}

void say_doubtful_lines(Document& page, const Findings& findings) {
  const auto doubtful = [](const LineRead& line) { return line.doubt != LineDoubt::none && !line.understood.empty(); };
  const auto count = std::count_if(findings.lines.begin(), findings.lines.end(), doubtful);
  if (count > 0) page.lead(std::to_string(count) + (count == 1 ? " line" : " lines") + " to look at again:");
  for (const LineRead& line : findings.lines) {
    if (doubtful(line)) page.quote("line " + std::to_string(line.line), line.text, line.understood);
  }
}

void say_lines(Document& page, const Findings& findings, const Look& look) {
  std::vector<std::string> strangers;
  for (const ModuleSeen& seen : findings.scan.modules) {
    if (index_of(findings.network.modules, seen.module) == nowhere) strangers.push_back(seen.module);
  }
  count_line(page, "not in this network", strangers);
  const auto placed = [](const LineRead& line) { return !line.understood.empty(); };
  const auto lost = std::count_if(findings.lines.begin(), findings.lines.end(), std::not_fn(placed));
  if (lost > 0) page.lead(std::to_string(lost) + (lost == 1 ? " line" : " lines") + " not understood:");
  for (const LineRead& line : findings.lines) {
    if (!placed(line)) page.quote("line " + std::to_string(line.line), line.text);
  }
  if (!look.every_line) return say_doubtful_lines(page, findings);
  page.lead("Every line, and what was understood:");
  for (const LineRead& line : findings.lines)
    page.quote("line " + std::to_string(line.line), line.text, placed(line) ? line.understood : "not understood");
}

void say_what_was_read(Document& page, const Findings& findings, const Look& look) {
  const auto count = [&](std::string_view what, Answer answer) {
    count_line(page, what, modules_with(findings.network, findings.scan, answer));
  };
  page.heading("What was read");
  count("answering", Answer::yes);
  count("answering but refusing the request", Answer::refused);
  count("silent", Answer::no);
  say_not_fitted(page, findings);
  count("not reachable behind a locked gateway", Answer::not_reachable);
  count("not polled", Answer::not_polled);
  count_line(page, "not in the scan", unmentioned(findings));
  say_lines(page, findings, look);
}

void say_doubts(Document& page, const Findings& findings) {
  if (findings.ranking.doubts.empty()) return;
  page.heading("What makes it doubtful");
  for (const std::string& doubt : findings.ranking.doubts) page.caution(doubt);
}

void say_not_condemned(Document& page, const Verdict& verdict) {
  if (verdict.verdict_class != VerdictClass::module && verdict.verdict_class != VerdictClass::gateway) return;
  page.paragraph("Cannot condemn " + (verdict.parts.empty() ? std::string("the module") : joined(verdict.parts)) +
                 " yet: a scan does not tell a module from its feeds, grounds, reference, connector and bus "
                 "wires. Rule these out first.");
}

void say_checks(Document& page, const Findings& findings, const Look& look) {
  const std::size_t shown = std::min(findings.plan.checks.size(), look.most_checks);
  if (shown > 0) page.heading("Check first");
  say_steps(page, findings.network, {findings.plan.checks.data(), shown});
  say_refused(page, findings.plan.refused);
  if (findings.plan.checks.empty())
    page.remark("The maker's service information and local rules come first. Stop and refer where not trained.");
}

Document document_of(const Findings& findings, const Look& look, const Drawn* drawn) {
  const Reasoned reasoned{findings.network, findings.scan, findings.ranking, findings.verdict, " (--json lists them)"};
  Document page;
  page.title(vehicle_phrase(findings.network.vehicle));
  page.about("Scan", scan_phrase(findings.scan));
  say_what_was_read(page, findings, look);
  say_doubts(page, findings);
  page.heading("Verdict", true);
  say_verdict(page, reasoned);
  say_not_condemned(page, findings.verdict);
  if (drawn != nullptr) page.picture(*drawn);
  if (!findings.ranking.explanations.empty()) page.heading("Why");
  say_why(page, reasoned);
  page.heading("Rivals");
  say_rivals(page, reasoned);
  say_checks(page, findings, look);
  return page;
}

}  // namespace

std::string text_of(const Findings& findings, const Look& look) {
  return text_of(document_of(findings, look, nullptr), look);
}

std::string html_of(const Findings& findings, const Drawn& drawn, const Look& look) {
  return html_of(document_of(findings, look, &drawn));
}

}  // namespace whichwire
