#include "render/case_reasoning.hpp"

#include <algorithm>
#include <cmath>

#include "render/phrases.hpp"

namespace whichwire::render {

namespace {

constexpr double least_shift = 0.005;

const Repair* repair_called(const Assessment& assessment, std::string_view what) {
  const auto found = std::ranges::find(assessment.repairs, what, &Repair::what);
  return found == assessment.repairs.end() ? nullptr : &*found;
}

std::string ohms_or_volts(double value, Reading::Kind kind) {
  Reading reading;
  reading.kind = kind == Reading::Kind::ohms ? kind : Reading::Kind::volts;
  constexpr double most_ohms = 4e7;
  reading.value = kind == Reading::Kind::ohms && value > most_ohms ? INFINITY : std::round(value * 100) / 100;
  return text_of(reading);
}

std::string lamp_phrase(const Interval& volts) {
  constexpr double bright = 9, dark = 1;
  return volts.nominal > bright ? "lamp bright" : volts.nominal < dark ? "lamp dark" : "lamp dim";
}

}  // namespace

std::string repair_phrase(const Network& network, const Repair& repair) {
  if (repair.likeliest.empty()) return "no fault of the network";
  const std::string phrase = phrase_of(network, repair.likeliest);
  return repair.load.empty() ? phrase : phrase + ", in the " + repair.load + " or its branch";
}

std::string repair_phrase(const Network& network, const Assessment& assessment, std::string_view what) {
  const Repair* const repair = repair_called(assessment, what);
  return repair == nullptr ? std::string(what) : repair_phrase(network, *repair);
}

std::vector<std::string> meaning_of(const Network& network, const CaseReasoning& reasoning, const CaseAnswer& answer) {
  const Weighed& weighed = answer.weighed;
  if (answer.put_aside) return {"nothing, and it is not asked again"};
  if (!weighed.understood) return {"says nothing about what is suspected; it is kept"};
  if (weighed.doubtful && !weighed.counted)
    return {"doubtful: nothing that is held possible makes it; measure it again before it counts"};
  if (!weighed.counted) return {"not counted: nothing that was held possible made it, and nothing has confirmed it"};
  std::vector<std::string> all;
  if (weighed.contradicted) all.emplace_back("a later answer to the same check differs: a slip, or it comes and goes");
  all.push_back(weighed.means.empty() ? (weighed.good ? "as it should be" : "not as it should be") : weighed.means);
  const Shift& shift = weighed.shift;
  if (std::abs(shift.after - shift.before) < least_shift) return all;
  all.push_back((shift.after > shift.before ? "for: " : "against: ") +
                repair_phrase(network, reasoning.assessment, shift.repair) + ", " + percent(shift.before) + " -> " +
                percent(shift.after));
  return all;
}

std::string result_phrase(const Network& network, const Assessment& assessment) {
  const Decision& decision = assessment.decision;
  const std::string what = repair_phrase(network, assessment, decision.repair);
  const std::string sure = " (" + percent(decision.probability.low) + ")";
  switch (decision.standing) {
    case Standing::proven:
      return "Proven: " + what + sure;
    case Standing::probable:
      return "Probable, not proven: " + what + sure;
    case Standing::cannot_condemn:
      if (assessment.repairs.empty()) return "Nothing that is listed fits: scan again";
      return (decision.ruled_out.empty() ? "Not narrowed down yet; likeliest: " : "Not to be condemned yet: ") + what +
             sure;
    case Standing::comes_and_goes:
      return (assessment.readings.empty() ? "Comes and goes, and is not there now; likeliest: "
                                          : "Comes and goes, and was not there while you measured; likeliest: ") +
             what + sure;
    case Standing::not_communication:
      return "Not a fault of the network" + sure;
    case Standing::refer:
      return "Refer: " + what + sure + " is only for people who are trained and authorised for that system";
  }
  return "";
}

std::string why_phrase(const Network& network, const CaseReasoning& reasoning) {
  const NextCheck& next = reasoning.assessment.next;
  switch (next.why) {
    case NextCheck::Why::again:
      return "The last reading fits nothing that is held possible. Measure it once more before it counts.";
    case NextCheck::Why::once_more:
      return "Much hangs on this answer. Take it once more, with the leads or the probe set anew.";
    case NextCheck::Why::rules_out:
      return "Before " + repair_phrase(network, reasoning.assessment, reasoning.assessment.decision.repair) +
             " is condemned, this must be ruled out.";
    case NextCheck::Why::scan_again:
      return "This scan leaves more possible than can be weighed. Only the codes that return after clearing count.";
    case NextCheck::Why::hand_in:
      return "The scan of before leaves more possible than can be weighed. The one after clearing shows what is there "
             "now.";
    case NextCheck::Why::confirms:
      return "All else is ruled out; now look at the part itself before you repair it.";
    default:
      if (!next.check || reasoning.assessment.decision.standing != Standing::comes_and_goes) return "";
      return "It shows only while it is there: measure as it was when it happened (cold, wet, on the move), and shake "
             "the wires meanwhile, clear of moving parts.";
  }
}

std::vector<std::string> before_check_phrases(const Network& network, const CaseState& state) {
  std::vector<std::string> all;
  for (const OffNow& off : state.put_back)
    all.push_back("First put back " + off.what + ": " + off_word(off.kind) + " since " + time_phrase(off.at) + ".");
  if (state.take_off.empty()) return all;
  const bool module = std::ranges::any_of(
      state.take_off, [&](const std::string& what) { return index_of(network.modules, what) != nowhere; });
  all.push_back("First unplug " + joined(state.take_off, ", ") + (module ? ": key off before you do." : "."));
  return all;
}

std::string if_good_phrase(const NextCheck& next) {
  if (!next.measurement || !next.if_good) return "";
  const Reading::Kind kind = next.measurement->kind;
  if (kind == Reading::Kind::lamp) return lamp_phrase(*next.if_good);
  const std::string low = ohms_or_volts(next.if_good->low, kind), high = ohms_or_volts(next.if_good->high, kind);
  return low == high ? low : low + " to " + high;
}

std::vector<std::string> no_check_phrases(const Network& network, const CaseState& state) {
  const Assessment& assessment = state.reasoning->assessment;
  switch (assessment.decision.standing) {
    case Standing::proven:
      return {"Repair it, note it with `replaced` or `programmed`, then scan again: the scan proves the repair."};
    case Standing::not_communication:
      return {"Look for the complaint elsewhere: in the function itself, its sensors and its supply."};
    case Standing::comes_and_goes:
      return {"Bring it back first: warm, wet, cold, over bumps, moving the wires. Scan while it is there."};
    case Standing::refer:
      return {"Stop here and hand it on, with this page."};
    default:
      break;
  }
  if (assessment.next.together.size() < 2) return {"No check that is left tells more. Scan again."};
  std::vector<std::string> all = {
      "No check that is left tells these apart: wherever a meter can be put, they read the same."};
  for (const std::string& what : assessment.next.together)
    all.push_back("- " + repair_phrase(network, assessment, what));
  all.emplace_back("Make good the one that is easiest to reach, then scan again.");
  return all;
}

std::vector<std::string> missing_phrases(const Assessment& assessment) {
  std::vector<std::string> all;
  for (const std::string& text : assessment.decision.missing) {
    const auto item = std::ranges::find(assessment.decision.ruled_out, text, &RuleOut::what);
    const bool timed = item != assessment.decision.ruled_out.end() && item->minutes > 0;
    all.push_back(timed ? text + " (" + number(item->minutes) + " min)" : text);
  }
  return all;
}

std::string ticked_by(const Case& job, const std::string& by) {
  if (by == "scan" || by == "network") return "the " + by;
  const bool number = !by.empty() && std::ranges::all_of(by, [](char c) { return c >= '0' && c <= '9'; });
  if (!number || by.size() > 6) return by;
  const std::size_t entry = std::stoul(by);
  const auto* const reading =
      entry <= job.entries.size() ? std::get_if<CaseReading>(&job.entries[entry - 1].contents) : nullptr;
  return reading == nullptr ? by : "entry " + by + " (" + reading->place + ": " + reading->reading + ")";
}

}  // namespace whichwire::render
