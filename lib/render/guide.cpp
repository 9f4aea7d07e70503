// The screens of the guide: short, since they are read on the knees; one thing is asked at a time.
// Tests: tests/cli/guide.cpp.
#include <algorithm>

#include "render/case_reasoning.hpp"
#include "render/check_words.hpp"
#include "render/terms.hpp"

namespace whichwire {

namespace {

using namespace render;
using About = GuideQuestion::About;

constexpr std::size_t most_likely = 3;
constexpr double least_likely = 0.01;

const Network& network_of(const Case& job) { return job.start().network; }

/// The reading that is the last entry.
void say_last_reading(Page& page, const Case& job, const CaseState& state) {
  if (!state.reasoning || state.reasoning->answers.empty()) return;
  const CaseAnswer& last = state.reasoning->answers.back();
  const auto later = job.entries.begin() + static_cast<std::ptrdiff_t>(last.entry);
  if (std::any_of(later, job.entries.end(),
                  [](const CaseEntry& entry) { return !std::holds_alternative<CaseNote>(entry.contents); }))
    return;
  const auto& made = std::get<CaseReading>(job.entries[last.entry - 1].contents);
  page.text(0, made.place + ": " + made.reading +
                   ". It says: " + joined(meaning_of(network_of(job), *state.reasoning, last), "; ") + ".");
  page.blank();
}

void say_likely(Page& page, const Case& job, const CaseState& state) {
  if (state.stage != CaseStage::measuring) return;
  const Assessment& assessment = state.reasoning->assessment;
  page.text(0, result_phrase(network_of(job), assessment) + ".");
  std::size_t said = 0;
  for (const Repair& repair : assessment.repairs) {
    if (said == most_likely || repair.probability.low < least_likely) break;
    if (++said == 1) continue;  // stands in the heading
    page.text(2, percent(repair.probability.low) + "  ", repair_phrase(network_of(job), repair));
  }
  page.blank();
}

void say_check(Page& page, const Case& job, const CaseState& state) {
  const NextCheck& next = state.reasoning->assessment.next;
  if (const std::string why = why_phrase(network_of(job), *state.reasoning); !why.empty()) page.text(0, why);
  page.text(0, next.check->measure + ".");
  say_how(page, *next.check);
  if (next.by_scan()) return;
  if (const std::string good = if_good_phrase(next); !good.empty()) page.text(2, "If good: ", good);
  char letter = 'a';
  for (const Expectation& expect : next.check->expect)
    page.text(2, std::string(1, letter++) + " = ", outcome_phrase(expect, next.check->mode) + ": " + expect.means);
}

void say_repair(Page& page, const Case& job, const CaseState& state, const GuideQuestion& question) {
  const Assessment& assessment = state.reasoning->assessment;
  if (assessment.decision.standing != Standing::proven) {
    for (const std::string& text : missing_phrases(assessment)) page.text(0, "Not proven; missing: ", text);
  }
  page.text(0, "Make good: " + repair_phrase(network_of(job), assessment, question.what) + ".");
  for (const std::string& caution : cautions_at(network_of(job), question.work, question.what))
    page.text(2, "! ", caution);
  page.text(0, "Then type what you did in your own words, or only press Enter.");
}

void say_scan(Page& page, const Case& job, const CaseState& state) {
  if (state.stage == CaseStage::measuring && state.reasoning->assessment.next.check) {
    say_check(page, job, state);
  } else if (state.stage == CaseStage::measuring) {
    for (const std::string& text : no_check_phrases(network_of(job), state)) page.text(0, text);
  } else if (state.stage == CaseStage::scan_again) {
    page.text(0,
              "Everything back in, codes saved and cleared? Then ask every module again: the scan proves the repair.");
  } else {
    page.text(0, "Key on, battery good: ask every module with the scan tool.");
  }
  page.text(0, "Type the name of a file, or paste the summary here and end it with a line that is only a full stop.");
}

std::string put_back_phrase(const Network& network, const CaseState& state, const GuideQuestion& question) {
  const OffNow& off = state.put_back.front();
  const bool module = index_of(network.modules, question.what) != nowhere;
  return "Put back " + question.what + ": " + off_word(off.kind) + " since " + time_phrase(off.at) + "." +
         (module ? " Key off before you do." : "") + " Press Enter when it is done.";
}

/// Everything that the step says, to look for terms in.
std::string words_of(const Case& job, const CaseState& state, const GuideQuestion& question) {
  if (question.about != About::check) return guide_of(job, state, question);
  const Check& check = *state.reasoning->assessment.next.check;
  std::string all = check.measure + "\n" + with_phrase(check);
  for (const std::string& caution : check.cautions) all += "\n" + caution;
  for (const Expectation& expect : check.expect) all += "\n" + expect.outcome + " " + expect.means;
  return all;
}

std::string state_in_scan(const CaseState& state, const Case& job, const std::string& module) {
  const Scan* const scan = state.reasoning ? scan_of(job, state.reasoning->entry) : nullptr;
  if (scan == nullptr) return "";
  const auto seen = std::ranges::find(scan->modules, module, &ModuleSeen::module);
  if (seen == scan->modules.end()) return " (not in the scan)";
  return seen->answer == Answer::yes || seen->answer == Answer::refused ? "" : " (silent)";
}

}  // namespace

std::string guide_of(const Case& job, const CaseState& state, const GuideQuestion& question, const Look& look) {
  Page page(look);
  say_last_reading(page, job, state);
  say_likely(page, job, state);
  switch (question.about) {
    case About::scan:
      say_scan(page, job, state);
      break;
    case About::put_back:
      page.text(0, put_back_phrase(network_of(job), state, question));
      break;
    case About::take_off: {
      const bool module = index_of(network_of(job).modules, question.what) != nowhere;
      page.text(0, (module ? "Key off, then unplug " : "Unplug ") + question.what +
                       " for the next check. Press Enter when it is done; `skip` if you cannot reach it.");
      for (const std::string& caution : cautions_at(network_of(job), question.work, question.what))
        page.text(2, "! ", caution);
      break;
    }
    case About::check:
      say_check(page, job, state);
      break;
    case About::repair:
      say_repair(page, job, state, question);
      break;
    case About::close:
      page.text(0,
                "The scan after the repair shows no fault of the network. Try what the customer complained of. "
                "Type yes to close the case.");
      break;
    case About::nothing:
      page.text(0, "The case is closed. `case report` prints the report, `case undo` opens it again.");
      break;
  }
  return page.take();
}

std::string guide_help(const Case& job, const CaseState& state, const GuideQuestion& question, std::string_view about,
                       const Look& look) {
  Page page(look);
  const std::vector<Term> terms = terms_in(about.empty() ? words_of(job, state, question) : about);
  for (const Term& term : terms) page.text(0, term.words.front() + ": ", term.explains);
  if (terms.empty() && !about.empty()) page.text(0, "No term of that name; ? by itself explains those of this step.");
  if (about.empty()) {
    page.text(
        0, "You may also type: ",
        "`? WORD` what a word means; `why` all readings and what is likely; `map` the network in words; `back` "
        "takes the last entry back; `skip` asks for another check; `note TEXT` keeps a remark; `quit` leaves, and "
        "the case is kept.");
  }
  return page.take();
}

std::string network_in_words(const Case& job, const CaseState& state, const Look& look) {
  const Network& network = network_of(job);
  Page page(look);
  for (const Bus& bus : network.buses) {
    std::vector<std::string> names;
    const auto add = [&](const std::string& name) {
      if (std::ranges::find(names, name) == names.end()) names.push_back(name);
    };
    for (const Segment& segment : bus.segments) {
      for (const End& end : {segment.from, segment.to}) {
        if (end.kind == End::Kind::point) continue;
        const std::string id = id_of(network, end);
        add(end.kind == End::Kind::module ? id + state_in_scan(state, job, id) : "diagnostic connector");
      }
    }
    page.list(0, bus.id + (bus.name.empty() ? "" : ", " + bus.name), names);
  }
  for (const Gateway& gateway : network.gateways) {
    std::vector<std::string> buses;
    for (const std::size_t bus : gateway.joins) buses.push_back(network.buses[bus].id);
    page.list(0, network.modules[gateway.module].id + " joins", buses);
  }
  return page.take();
}

}  // namespace whichwire
