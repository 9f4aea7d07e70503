// What a suspect parameter number says about buses and control units. SPN 2000+n is the module at address n, as the
// reporter sees it; the FMI decides whether its messages are missing or merely wrong.
// Source: SAE J1939-73 as open libraries and public pages print it (j1939-spns.csv, j1939-fmi.csv).
// Tested in tests/scan/meaning.cpp and tests/reference/j1939.cpp.
#include "scan/code_tables.hpp"
#include "scan/meaning.hpp"
#include "scan/roles.hpp"

namespace whichwire {

namespace {

constexpr std::uint32_t first_box = 2000;
constexpr std::uint32_t last_box = 2255;
constexpr std::uint32_t first_of_makers = 520192;

std::string fmi_words(const Code& code) {
  if (!code.detail) return "no failure mode is given";
  return "FMI " + std::to_string(*code.detail) + ": " + std::string(failure_mode_of(*code.detail).words);
}

FmiEffect effect_of(const Code& code, FmiEffect FailureMode::*column, FmiEffect without) {
  return code.detail ? failure_mode_of(*code.detail).*column : without;
}

CodeMeaning box(const Code& code) {
  const int address = static_cast<int>(code.number - first_box);
  const std::string role = role_at_address(address);
  const std::string who =
      "address " + std::to_string(address) + (role.empty() ? "" : " (usually the " + plain_role(role) + ")");
  CodeMeaning meaning;
  meaning.subject = "address:" + std::to_string(address);
  meaning.title = "Source address " + std::to_string(address);
  const std::string tail = " (" + fmi_words(code) + ").";
  switch (effect_of(code, &FailureMode::box, FmiEffect::lost)) {
    case FmiEffect::lost:
      meaning.kind = CodeKind::lost_communication;
      meaning.explanation = "Messages from the module at " + who +
                            " are missing: it is silent, or the way from it to the module that stores this is broken" +
                            tail;
      break;
    case FmiEffect::configuration:
      meaning.kind = CodeKind::lost_communication;
      meaning.about_configuration = true;
      meaning.explanation =
          "The module at " + who + " is expected and does not fit or is not configured, rather than silent" + tail;
      break;
    case FmiEffect::content:
      meaning.kind = CodeKind::invalid_data;
      meaning.explanation = "Messages from the module at " + who +
                            " arrive, so it is alive and the way is whole; their content or rate is wrong" + tail;
      break;
    default:
      meaning.kind = CodeKind::other;
      meaning.explanation = "About the module at " + who + ", but not that its messages are missing" + tail;
  }
  return meaning;
}

CodeMeaning link(const Code& code, const NetworkSpn& row) {
  CodeMeaning meaning;
  meaning.title = std::string(row.words);
  const FmiEffect effect = effect_of(code, &FailureMode::link, FmiEffect::bus);
  meaning.about_configuration = effect == FmiEffect::configuration;
  const bool disturbed = effect == FmiEffect::bus || meaning.about_configuration;
  meaning.kind = disturbed ? CodeKind::bus_fault : CodeKind::other;
  if (disturbed) meaning.subject = std::string(row.subject);
  meaning.explanation =
      (disturbed ? "The module that stores this sees trouble on " : "Names ") + std::string(row.words) +
      (disturbed ? " (" : ", but says nothing that can be traced to a wire or a module (") + fmi_words(code) + ").";
  return meaning;
}

CodeMeaning own(const Code& code, const NetworkSpn& row) {
  CodeMeaning meaning;
  meaning.title = std::string(row.words);
  const FmiEffect effect = effect_of(code, &FailureMode::own, FmiEffect::self);
  meaning.about_configuration = effect == FmiEffect::configuration;
  const bool self = effect == FmiEffect::self || meaning.about_configuration;
  meaning.kind = self ? CodeKind::self : CodeKind::other;
  if (self) meaning.qualifier = "self";
  meaning.explanation =
      "The module that stores this speaks of itself: " + std::string(row.words) + " (" + fmi_words(code) + ").";
  return meaning;
}

CodeMeaning measured(const Code& code) {
  CodeMeaning meaning;
  meaning.title = "SPN " + std::to_string(code.number);
  const bool not_sent = code.detail == 9 || code.detail == 19;
  meaning.explanation =
      code.number >= first_of_makers
          ? "A number that the maker defines: only the maker's text says what it means (" + fmi_words(code) + ")."
      : not_sent ? "A measured value that should come over the network is late, absent or marked as wrong (" +
                       fmi_words(code) + "); the number does not tell which module sends it."
                 : "A measured value or part, not a statement about the network (" + fmi_words(code) + ").";
  return meaning;
}

}  // namespace

CodeMeaning meaning_of_spn(const Code& code) {
  const NetworkSpn* row = find_network_spn(code.number);
  CodeMeaning meaning;
  if (code.number >= first_box && code.number <= last_box) {
    meaning = box(code);
  } else if (row != nullptr && row->kind == "link") {
    meaning = link(code, *row);
  } else if (row != nullptr && row->kind == "own") {
    meaning = own(code, *row);
  } else if (row != nullptr) {
    meaning.title = std::string(row->words);
    meaning.explanation = "The module that stores this is limited because " + std::string(row->words) +
                          ": look at their codes; it is no statement about a bus.";
  } else {
    meaning = measured(code);
  }
  meaning.standard = "SAE J1939-73";
  return meaning;
}

}  // namespace whichwire
