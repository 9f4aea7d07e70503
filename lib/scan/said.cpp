#include "scan/said.hpp"

namespace whichwire {

std::optional<CodeState> state_said(const LineElement& element, bool of_code) {
  if (!element.is(LineElement::Kind::sense)) return std::nullopt;
  switch (element.sense) {
    case Sense::current:
      return CodeState::current;
    case Sense::pending:
      return CodeState::pending;
    case Sense::history:
      return CodeState::history;
    case Sense::unknown_state:
      return CodeState::unknown;
    case Sense::not_tested:
      return CodeState::not_tested;
    case Sense::present:
      return of_code ? std::optional(CodeState::current) : std::nullopt;
    case Sense::not_present:
      return of_code ? std::optional(CodeState::history) : std::nullopt;
    default:
      return std::nullopt;
  }
}

std::optional<Answer> answer_said(const LineElement& element) {
  if (element.is(LineElement::Kind::count)) return Answer::yes;
  if (!element.is(LineElement::Kind::sense)) return std::nullopt;
  switch (element.sense) {
    case Sense::yes:
    case Sense::weak_yes:
    case Sense::no_codes:
    case Sense::present:
    case Sense::current:
      return Answer::yes;
    case Sense::no:
    case Sense::no_answer_from:
    case Sense::missing:
    case Sense::time_out:
      return Answer::no;
    case Sense::refused:
    case Sense::locked:
      return Answer::refused;
    case Sense::not_fitted:
    case Sense::not_present:
      return Answer::not_fitted;
    case Sense::not_reachable:
    case Sense::behind_gateway:
      return Answer::not_reachable;
    case Sense::not_polled:
    case Sense::not_tested:
      return Answer::not_polled;
    default:
      return std::nullopt;
  }
}

bool said_weakly(const LineElement& element) {
  return element.says(Sense::weak_yes) || element.says(Sense::current) || element.says(Sense::present);
}

int weight_of(CodeState state) {
  switch (state) {
    case CodeState::current:
      return 4;
    case CodeState::pending:
      return 3;
    case CodeState::history:
      return 2;
    case CodeState::not_tested:
      return 1;
    case CodeState::unknown:
      return 0;
  }
  return 0;
}

}  // namespace whichwire
