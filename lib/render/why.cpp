#include "render/why.hpp"

#include <algorithm>

#include "render/page.hpp"
#include "render/phrases.hpp"
#include "render/shown_words.hpp"

namespace whichwire::render {

namespace {

using Mark = Document::Mark;

constexpr std::size_t most_alike = 8;   // phrases of one explanation before `and N more`
constexpr std::size_t most_rivals = 4;  // other explanations shown
constexpr double most_unlisted = 0.01;  // more than this must be said
constexpr double least_rival = 0.005;   // below this a rival is not worth a line

/// The explanation that the verdict is about: the likeliest of its class.
const Explanation* explanation_of(const Reasoned& reasoned) {
  const auto& all = reasoned.ranking.explanations;
  const auto found = std::ranges::find(all, reasoned.verdict.verdict_class, &Explanation::verdict_class);
  if (found != all.end()) return &*found;
  return all.empty() ? nullptr : &all.front();
}

void say_evidence(Document& page, const Reasoned& reasoned, const std::string& title,
                  const std::vector<std::size_t>& which, Mark mark) {
  if (which.empty()) return;
  page.lead(title);
  const std::vector<std::string> no_answer = modules_with(reasoned.network, reasoned.scan, Answer::no);
  std::vector<std::string> silent;
  for (std::size_t index : which) {
    const Observation& seen = reasoned.ranking.evidence[index];
    const std::string& asked = reasoned.network.modules[seen.question.a].id;
    if (seen.question.about == Question::About::answers && std::ranges::count(no_answer, asked) > 0) {
      silent.push_back(asked);
    } else {
      page.item(seen.text, mark);
    }
  }
  if (silent.size() == 1) page.item(silent.front() + " does not answer", mark);
  if (silent.size() > 1) page.item("silent: " + joined(silent, ", "), mark);
}

/// What a scan cannot tell from the rival: where it is one fault here or there, the few other parts; else how many.
std::string others_alike(const Network& network, const Explanation& rival, std::size_t count) {
  constexpr std::size_t most_named = 3;
  const auto one = [](const std::vector<Fault>& set) { return set.size() == 1; };
  std::vector<std::string> parts;
  if (one(rival.faults) && std::ranges::all_of(rival.alike, one)) {
    const std::string own = name_of_part(network, rival.faults.front());
    for (const auto& set : rival.alike) {
      const std::string part = name_of_part(network, set.front());
      if (part != own && std::ranges::find(parts, part) == parts.end()) parts.push_back(part);
    }
  }
  return parts.empty() || parts.size() > most_named ? std::to_string(count) : joined(parts, " or ");
}

}  // namespace

std::vector<std::string> modules_with(const Network& network, const Scan& scan, Answer answer) {
  std::vector<std::string> ids;
  for (const ModuleSeen& seen : scan.modules) {
    if (seen.answer != answer || index_of(network.modules, seen.module) == nowhere) continue;
    if (std::ranges::find(ids, seen.module) == ids.end()) ids.push_back(seen.module);
  }
  return ids;
}

void say_verdict(Document& page, const Reasoned& reasoned) {
  const Verdict& verdict = reasoned.verdict;
  page.claim(verdict.headline + " (" + percent(verdict.headline_probability) + ").", verdict.headline_probability);
  const double outside = reasoned.ranking.outside;
  if (outside > most_unlisted && !reasoned.ranking.unsettled) {
    page.paragraph("The search was cut short: up to " + percent(outside) +
                   " may lie with explanations that are not listed here.");
  }
}

void say_why(Document& page, const Reasoned& reasoned) {
  const Explanation* const best = explanation_of(reasoned);
  if (best == nullptr) return;
  const Alternatives alternatives = alternatives_of(reasoned.network, *best);
  const std::vector<std::string>& phrases = alternatives.each;
  const std::string share = percent(best->probability.low);
  if (phrases.size() == 1) {
    page.paragraph("Likeliest (" + share + "): " + alternatives.first);
  } else {
    const std::string& besides = alternatives.besides;
    page.lead("Likeliest (" + share + " together); this scan cannot tell these apart" +
              (besides.empty() ? ":" : ", and with each " + besides + ":"));
    for (std::size_t i = 0; i < std::min(phrases.size(), most_alike); ++i) page.item(phrases[i]);
    if (phrases.size() > most_alike) page.more({phrases.begin() + most_alike, phrases.end()}, reasoned.where_more);
  }
  say_evidence(page, reasoned, "It explains:", best->explains, Mark::speaks_for);
  say_evidence(page, reasoned, "It does not explain:", best->leaves, Mark::speaks_against);
  say_evidence(page, reasoned, "It speaks against it:", best->contradicts, Mark::speaks_against);
}

void say_rivals(Document& page, const Reasoned& reasoned) {
  const Explanation* const best = explanation_of(reasoned);
  std::size_t shown = 0;
  double rest = best == nullptr ? 1 : 1 - best->probability.low;
  for (const Explanation& rival : reasoned.ranking.explanations) {
    if (&rival == best || rival.probability.low < least_rival || shown == most_rivals) continue;
    const Alternatives alternatives = alternatives_of(reasoned.network, rival);
    const std::size_t alike = alternatives.each.size() - 1;
    page.share(
        rival.probability.low,
        alternatives.first + (alike == 0 ? "" : " (or " + others_alike(reasoned.network, rival, alike) + " alike)"));
    rest -= rival.probability.low;
    ++shown;
  }
  page.share(std::max(rest, 0.0), shown == 0 ? "everything else together" : "all others together");
}

}  // namespace whichwire::render
