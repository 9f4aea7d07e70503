// What a trouble code says. The base code names the accused, the failure type decides what is said of it: missing (87)
// speaks against the sender's life or the way; 81 to 86 speak for both; bus off (88) points at the reporter.
// Source: SAE J2012 / ISO 15031-6 as public lists print them (network-codes.csv, failure-types.csv).
// Tested in tests/scan/meaning.cpp and tests/reference/j2012.cpp.
#include "scan/meaning.hpp"

#include "scan/code_tables.hpp"
#include "scan/generic_codes.hpp"
#include "scan/hex.hpp"
#include "scan/roles.hpp"

namespace whichwire {

namespace {

constexpr std::string_view code_standard = "SAE J2012 / ISO 15031-6";
constexpr std::string_view receiver = "received-by:";

CodeKind kind_of(const GenericCode& row) {
  if (row.kind == "lost-communication") return CodeKind::lost_communication;
  if (row.kind == "invalid-data") return CodeKind::invalid_data;
  if (row.kind == "software-incompatibility") return CodeKind::software_incompatible;
  if (row.kind == "bus-fault") return row.qualifier == "bus-off" ? CodeKind::bus_off : CodeKind::bus_fault;
  return row.subject == "accessory-power" ? CodeKind::other : CodeKind::self;
}

bool about_messages(CodeKind kind) {
  return kind == CodeKind::lost_communication || kind == CodeKind::invalid_data ||
         kind == CodeKind::software_incompatible;
}

/// The kind once the failure type is taken into account.
CodeKind kind_with(CodeKind base, TypeEffect effect) {
  switch (effect) {
    case TypeEffect::content:
      return base == CodeKind::lost_communication ? CodeKind::invalid_data : base;
    case TypeEffect::missing:
      return about_messages(base) ? CodeKind::lost_communication : base;
    case TypeEffect::bus_off:
      return about_messages(base) || base == CodeKind::bus_fault ? CodeKind::bus_off : base;
    case TypeEffect::self:
      return about_messages(base) ? CodeKind::self : base;
    default:
      return base;
  }
}

std::string self_words(const CodeMeaning& meaning) {
  const std::string& what = meaning.qualifier;
  if (what == "self-supply") return "The module that stores this finds one of its own supply inputs open or low.";
  if (what == "self-ground") return "The module that stores this finds one of its own grounds faulty.";
  if (what == "vehicle-supply") return "The module that stores this finds the vehicle's supply out of range.";
  if (what == "self-ignition-signal") return "The module that stores this finds its key (ignition) signal wrong.";
  if (what == "self-wake-up") return "The module that stores this was not woken as it should.";
  if (what == "self-shutdown")
    return "The module that stores this was not shut down as it should: it lost supply early.";
  if (what == "self-vin") return "The vehicle number that the module stores is missing or does not fit.";
  return "The module that stores this speaks of itself, not of another module or a bus.";
}

std::string message_words(const CodeMeaning& meaning) {
  const std::string who = meaning.subject.empty() ? "another module (not told which)"
                                                  : "the " + plain_role(meaning.subject, meaning.qualifier);
  if (meaning.about_configuration)
    return "The module that stores this expects " + who +
           " and finds it not programmed, not configured or not fitted, rather than silent by a fault of a wire.";
  if (meaning.qualifier.starts_with(receiver)) {
    const std::string role = plain_role(std::string_view(meaning.qualifier).substr(receiver.size()));
    if (meaning.kind == CodeKind::lost_communication)
      return "The " + role + " complains that it hears nothing from " + who + ".";
    return "The " + role + " complains that what " + who + " sends it is no use; both are alive and hear each other.";
  }
  if (meaning.kind == CodeKind::lost_communication)
    return "The module that stores this gets no messages from " + who +
           ": that one is silent, or the way between the two is broken.";
  if (meaning.kind == CodeKind::invalid_data)
    return "Messages from " + who + " arrive, so it is alive and the way is whole; their content is no use.";
  if (meaning.subject.empty()) return "Software parts inside the module that stores this do not fit together.";
  return "The software of " + who + " does not fit that of the module that stores this; the two do hear each other.";
}

std::string words_of(const CodeMeaning& meaning) {
  switch (meaning.kind) {
    case CodeKind::bus_fault:
      return "The module that stores this sees trouble on the bus that its maker calls " + plain_role(meaning.subject) +
             " (" + plain_role(meaning.qualifier) + "); the letter is the maker's choice.";
    case CodeKind::bus_off:
      return "The controller of the module that stores this left the bus after too many errors of its own: look at "
             "that module, its stub and its segment first.";
    case CodeKind::self:
      return self_words(meaning);
    case CodeKind::other:
      return "No statement about a module or a bus: " + meaning.title + ".";
    default:
      return message_words(meaning);
  }
}

CodeMeaning generic_meaning(const GenericCode& row, const Code& code) {
  const TypeEffect effect = code.detail ? failure_type_of(*code.detail).effect : TypeEffect::none;
  CodeMeaning meaning;
  meaning.title = std::string(row.title);
  const CodeKind base = kind_of(row);
  meaning.kind = kind_with(base, effect);
  meaning.about_configuration = effect == TypeEffect::configuration;
  if (base == CodeKind::self || base == CodeKind::other) {
    meaning.qualifier = std::string(row.subject);
  } else if (meaning.kind == CodeKind::self) {
    meaning.qualifier = "self";
  } else if (meaning.kind != CodeKind::bus_off || !about_messages(base)) {
    const bool nobody = row.subject == "self" || row.subject == "unspecified";
    if (!nobody) meaning.subject = std::string(row.subject);
    meaning.qualifier = std::string(row.qualifier);
  }
  meaning.explanation = words_of(meaning);
  return meaning;
}

std::string unknown_words(const Code& code) {
  const char digit = static_cast<char>('0' + (code.number >> 12U));
  switch (code.letter) {
    case 'P':
      return "A powertrain code: about a circuit or a function, not about who hears whom.";
    case 'B':
      return "A body code: about a circuit or a function, not about who hears whom.";
    case 'C':
      return "A chassis code: about a circuit or a function, not about who hears whom.";
    default:
      break;
  }
  if (digit == '1' || digit == '2')
    return "A network code of the maker's own: only the maker's text, or the network file, says whom it means.";
  return "A network code that the table of generic codes does not have: look it up in the maker's text.";
}

}  // namespace

CodeMeaning meaning_of(const Code& code) {
  if (code.letter == 'S') return meaning_of_spn(code);
  const GenericCode* row = code.letter == 'U' ? find_generic_code(code.number) : nullptr;
  CodeMeaning meaning;
  if (row != nullptr) {
    meaning = generic_meaning(*row, code);
  } else {
    meaning.explanation = unknown_words(code);
    meaning.about_configuration = code.detail && failure_type_of(*code.detail).effect == TypeEffect::configuration;
  }
  if (code.detail)
    meaning.explanation +=
        " Failure type " + hex_text(*code.detail, 2) + ": " + std::string(failure_type_of(*code.detail).words) + ".";
  meaning.standard = row != nullptr || code.letter != 'U' ? code_standard : "the maker's own";
  if (row == nullptr && code.letter == 'U' && code.number < 0x1000) meaning.standard = code_standard;
  if (row == nullptr && code.letter == 'U' && code.number >= 0x3000) meaning.standard = code_standard;
  if (code.detail) meaning.standard += ", failure type by SAE J2012-DA";
  return meaning;
}

}  // namespace whichwire
