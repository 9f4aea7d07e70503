// The words of scan summaries (scan-words.csv) and what they say. Tested in tests/scan/phrases.cpp.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace whichwire {

enum class Sense : std::uint8_t {
  yes,       ///< answers
  weak_yes,  ///< `ok`: an answer where it stands alone beside a module
  no_codes,  ///< read and empty, so it answers
  no,        ///< silent
  time_out,  ///< silent, or part of a code's text
  refused,
  locked,  ///< refused; of a gateway beside others: these are not reachable
  not_fitted,
  not_present,  ///< of a module: not fitted; of a code: not there now
  fitted,       ///< says nothing about an answer
  not_reachable,
  behind_gateway,  ///< not reachable because a gateway is locked
  not_polled,
  present,  ///< of a module: answers; of a code: there now
  bare_yes,
  bare_no,
  current,
  pending,
  history,
  unknown_state,
  not_tested,
  misses,            ///< what follows is a module that the reporter does not hear
  no_answer_from,    ///< what follows is silent, or not heard when a reporter stands before it
  messages_from,     ///< what follows is a sender
  bad_data,          ///< what follows sends nonsense, so it is alive
  messages_missing,  ///< what stands before is a sender that is not heard
  missing,           ///< what stands before is silent, or not heard
  stored_in,         ///< what follows is the reporter
  all_others,
  all_of,
  works,  ///< of a function
  fails,
  key_run,
  key_off,
  key_accessory,
  key_start,
  battery,
  own_battery,
  unit,
  taken,
  printed,
  page,
  of,
  and_,
  status_byte,
  volts_at,
  codes,
  address,
  failure_type,
  spn,
  fmi,
  heading,
  noise,
};

/// The sense of a phrase by its `folded_key`.
std::optional<Sense> sense_of(const std::string& key);

/// No phrase has more words.
constexpr std::size_t most_phrase_words = 7;

}  // namespace whichwire
