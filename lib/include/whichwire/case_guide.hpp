// The guide: of all that a case still needs the one thing to ask now, and what a typed line makes of it. Everything
// follows from the case file, so that the guide can be left and resumed at any moment.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <whichwire/case_state.hpp>

namespace whichwire {

struct GuideQuestion {
  enum class About : std::uint8_t {
    scan,      ///< ask every module, or ask them again after a repair
    put_back,  ///< `what` is off and in the way
    take_off,  ///< `what` has to be unplugged first
    check,     ///< the next check of the assessment
    repair,    ///< one repair is proven, or the likeliest is to be made good: what was done
    close,     ///< everything is shown to be whole
    nothing,   ///< the case is closed, or another has to go on
  };
  About about = About::nothing;
  std::string what;
  WorkKind work = WorkKind::unplug;  ///< of the entry that the answer makes, where it is work
};

GuideQuestion question_of(const CaseState& state);

/// What a line that was typed comes to: an entry, or why it is none, in a sentence. A scan is read by the caller.
struct GuideAnswer {
  std::optional<CaseContents> entry;
  std::string error;
};

GuideAnswer answer_to(const GuideQuestion& question, const CaseState& state, std::string_view typed);

/// The check cannot be done, as its plug cannot be reached: another is asked for.
CaseReading put_aside(const Check& check);

/// Whether the check is answered by what a meter or a lamp shows; else by one of its outcomes.
bool answered_by_value(const NextCheck& next);

/// The place that a reading of the check is noted for: `ECM/A-27`, `F4`, else the part.
std::string place_of(const Check& check);

}  // namespace whichwire
