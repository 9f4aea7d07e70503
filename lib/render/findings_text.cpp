// The page of findings, in the order in which a technician needs it: what was read, what makes it doubtful, the
// verdict, why, the rivals, what to check first. Tests: tests/render/findings_text.cpp, samples/*/expected.txt.
#include <algorithm>
#include <functional>
#include <span>

#include "render/check_words.hpp"
#include "render/phrases.hpp"

namespace whichwire {

namespace {

using namespace render;

constexpr std::size_t most_alike = 8;   // phrases of one explanation before `and N more`
constexpr std::size_t most_rivals = 4;  // other explanations shown
constexpr double most_unlisted = 0.01;  // more than this must be said
constexpr double least_rival = 0.005;   // below this a rival is not worth a line

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

/// Modules of the scan with this answer, as the network calls them.
std::vector<std::string> modules_with(const Findings& findings, Answer answer) {
  std::vector<std::string> ids;
  for (const ModuleSeen& seen : findings.scan.modules) {
    if (seen.answer != answer || index_of(findings.network.modules, seen.module) == nowhere) continue;
    if (std::find(ids.begin(), ids.end(), seen.module) == ids.end()) ids.push_back(seen.module);
  }
  return ids;
}

void count_line(Page& page, std::string_view what, const std::vector<std::string>& ids) {
  if (ids.empty()) return;
  page.list(2, std::to_string(ids.size()) + " " + std::string(what), ids);
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

void say_not_fitted(Page& page, const Findings& findings) {
  std::vector<std::string> optional_ones;
  std::vector<std::string> always;
  for (const std::string& id : modules_with(findings, Answer::not_fitted)) {
    const Module& module = findings.network.modules[index_of(findings.network.modules, id)];
    (module.optional ? optional_ones : always).push_back(id);
  }
  count_line(page, "shown as not fitted", optional_ones);
  count_line(page, "shown as not fitted, but always fitted, so silent", always);
}

void say_doubtful_lines(Page& page, const Findings& findings) {
  const auto doubtful = [](const LineRead& line) { return line.doubt != LineDoubt::none && !line.understood.empty(); };
  const auto count = std::count_if(findings.lines.begin(), findings.lines.end(), doubtful);
  if (count > 0) page.text(2, std::to_string(count) + (count == 1 ? " line" : " lines") + " to look at again:");
  for (const LineRead& line : findings.lines) {
    if (!doubtful(line)) continue;
    page.quote(4, "line " + std::to_string(line.line) + ": ", line.text);
    page.text(6, "= ", line.understood);
  }
}

void say_lines(Page& page, const Findings& findings, const Look& look) {
  std::vector<std::string> strangers;
  for (const ModuleSeen& seen : findings.scan.modules) {
    if (index_of(findings.network.modules, seen.module) == nowhere) strangers.push_back(seen.module);
  }
  count_line(page, "not in this network", strangers);
  const auto placed = [](const LineRead& line) { return !line.understood.empty(); };
  const auto lost = std::count_if(findings.lines.begin(), findings.lines.end(), std::not_fn(placed));
  if (lost > 0) page.text(2, std::to_string(lost) + (lost == 1 ? " line" : " lines") + " not understood:");
  for (const LineRead& line : findings.lines) {
    if (!placed(line)) page.quote(4, "line " + std::to_string(line.line) + ": ", line.text);
  }
  if (!look.every_line) return say_doubtful_lines(page, findings);
  page.text(2, "Every line, and what was understood:");
  for (const LineRead& line : findings.lines) {
    page.quote(4, "line " + std::to_string(line.line) + ": ", line.text);
    page.text(6, "= ", placed(line) ? line.understood : "not understood");
  }
}

void say_what_was_read(Page& page, const Findings& findings, const Look& look) {
  page.text(0, vehicle_phrase(findings.network.vehicle));
  page.text(0, "Scan: ", scan_phrase(findings.scan));
  page.heading("What was read");
  count_line(page, "answering", modules_with(findings, Answer::yes));
  count_line(page, "answering but refusing the request", modules_with(findings, Answer::refused));
  count_line(page, "silent", modules_with(findings, Answer::no));
  say_not_fitted(page, findings);
  count_line(page, "not reachable behind a locked gateway", modules_with(findings, Answer::not_reachable));
  count_line(page, "not polled", modules_with(findings, Answer::not_polled));
  count_line(page, "not in the scan", unmentioned(findings));
  say_lines(page, findings, look);
}

void say_doubts(Page& page, const Findings& findings) {
  if (findings.ranking.doubts.empty()) return;
  page.heading("What makes it doubtful");
  for (const std::string& doubt : findings.ranking.doubts) page.text(2, "! ", doubt);
}

/// The explanation that the verdict is about: the likeliest of its class.
const Explanation* explanation_of(const Findings& findings) {
  const auto& all = findings.ranking.explanations;
  const auto of_class = [&](const Explanation& one) { return one.verdict_class == findings.verdict.verdict_class; };
  const auto found = std::find_if(all.begin(), all.end(), of_class);
  if (found != all.end()) return &*found;
  return all.empty() ? nullptr : &all.front();
}

void say_verdict(Page& page, const Findings& findings) {
  const Verdict& verdict = findings.verdict;
  page.heading("Verdict");
  page.text(2, verdict.headline + " (" + percent(verdict.headline_probability) + ").");
  if (findings.ranking.outside > 0.5) {
    page.text(2, "The search did not get far enough to tell: most may lie with explanations that are not listed here.");
  } else if (findings.ranking.outside > most_unlisted) {
    page.text(2, "The search was cut short: up to " + percent(findings.ranking.outside) +
                     " may lie with explanations that are not listed here.");
  }
  if (verdict.verdict_class == VerdictClass::module || verdict.verdict_class == VerdictClass::gateway) {
    page.text(2, "Cannot condemn " + (verdict.parts.empty() ? std::string("the module") : joined(verdict.parts)) +
                     " yet: a scan does not tell a module from its feeds, grounds, reference, connector and bus "
                     "wires. Rule these out first.");
  }
}

void say_evidence(Page& page, const Findings& findings, std::string_view title, const std::vector<std::size_t>& which,
                  std::string_view mark) {
  if (which.empty()) return;
  page.text(2, title);
  const std::vector<std::string> no_answer = modules_with(findings, Answer::no);
  std::vector<std::string> silent;
  for (std::size_t index : which) {
    const Observation& seen = findings.ranking.evidence[index];
    const std::string& asked = findings.network.modules[seen.question.a].id;
    if (seen.question.about == Question::About::answers && std::count(no_answer.begin(), no_answer.end(), asked) > 0) {
      silent.push_back(asked);
    } else {
      page.text(4, mark, seen.text);
    }
  }
  if (silent.size() == 1) page.text(4, mark, silent.front() + " does not answer");
  if (silent.size() > 1) page.list(4, std::string(mark) + "silent", silent);
}

void say_why(Page& page, const Findings& findings) {
  const Explanation* best = explanation_of(findings);
  if (best == nullptr) return;
  page.heading("Why");
  const std::vector<std::string> phrases = phrases_of(findings.network, *best);
  const std::string share = percent(best->probability.low);
  if (phrases.size() == 1) {
    page.text(2, "Likeliest (" + share + "): " + phrases.front());
  } else {
    page.text(2, "Likeliest (" + share + " together); this scan cannot tell these apart:");
    for (std::size_t i = 0; i < std::min(phrases.size(), most_alike); ++i) page.text(4, "- ", phrases[i]);
    if (phrases.size() > most_alike) {
      page.text(4, "- ", "and " + std::to_string(phrases.size() - most_alike) + " more (--json lists them)");
    }
  }
  say_evidence(page, findings, "It explains:", best->explains, "+ ");
  say_evidence(page, findings, "It does not explain:", best->leaves, "- ");
  say_evidence(page, findings, "It speaks against it:", best->contradicts, "- ");
}

void say_rivals(Page& page, const Findings& findings) {
  const Explanation* best = explanation_of(findings);
  std::size_t shown = 0;
  double rest = 1;
  if (best != nullptr) rest -= best->probability.low;
  page.heading("Rivals");
  for (const Explanation& rival : findings.ranking.explanations) {
    if (&rival == best || rival.probability.low < least_rival || shown == most_rivals) continue;
    const std::vector<std::string> phrases = phrases_of(findings.network, rival);
    const std::string more = phrases.size() == 1 ? "" : " (or " + std::to_string(phrases.size() - 1) + " alike)";
    page.text(2, percent(rival.probability.low) + "  ", phrases.front() + more);
    rest -= rival.probability.low;
    ++shown;
  }
  page.text(2, percent(std::max(rest, 0.0)) + "  ", shown == 0 ? "everything else together" : "all others together");
}

void say_check(Page& page, const Check& check, std::size_t number_of_check, const std::vector<std::string>& said) {
  const std::string mark = std::to_string(number_of_check) + ". ";
  page.text(2, mark, check.measure);
  const std::size_t indent = 2 + mark.size();
  page.text(indent, "At: ", at_phrase(check));
  page.text(indent, "With: ", with_phrase(check));
  for (const std::string& caution : check.cautions) {
    if (std::find(said.begin(), said.end(), caution) == said.end()) page.text(indent, "! ", caution);
  }
  for (const Expectation& expect : check.expect) {
    page.text(indent, "= ", outcome_phrase(expect, check.mode) + ": " + expect.means);
  }
}

/// Cautions that belong to every one of the checks: said once, before the first, instead of again and again.
std::vector<std::string> common_cautions(std::span<const Check> checks) {
  std::vector<std::string> common = checks.empty() ? std::vector<std::string>{} : checks.front().cautions;
  for (const Check& check : checks) {
    std::erase_if(common, [&](const std::string& caution) {
      return std::find(check.cautions.begin(), check.cautions.end(), caution) == check.cautions.end();
    });
  }
  return common;
}

void say_checks(Page& page, const Findings& findings, const Look& look) {
  const std::size_t shown = std::min(findings.plan.checks.size(), look.most_checks);
  const std::span<const Check> checks(findings.plan.checks.data(), shown);
  const std::vector<std::string> common = common_cautions(checks);
  if (!checks.empty()) page.heading("Check first");
  for (const std::string& caution : common) page.text(2, "! ", caution);
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0 || !common.empty()) page.blank();
    say_check(page, checks[i], i + 1, common);
  }
  if (!findings.plan.refused.empty()) page.heading("Do not measure");
  for (const Refused& refused : findings.plan.refused) page.text(2, "! ", refused.what + ": " + refused.why);
}

}  // namespace

std::string text_of(const Findings& findings, const Look& look) {
  Page page(look);
  say_what_was_read(page, findings, look);
  say_doubts(page, findings);
  say_verdict(page, findings);
  say_why(page, findings);
  say_rivals(page, findings);
  say_checks(page, findings, look);
  if (findings.plan.checks.empty()) {
    page.blank();
    page.text(0, "The maker's service information and local rules come first. Stop and refer where not trained.");
  }
  return page.take();
}

}  // namespace whichwire
