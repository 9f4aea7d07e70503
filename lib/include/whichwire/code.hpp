// Trouble codes: what a network code says, about whom, and how surely.
// Sources: SAE J2012 / ISO 15031-6 (codes, failure-type byte), ISO 14229-1 (status byte), SAE J1939 (SPN, FMI).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace whichwire {

enum class CodeState : std::uint8_t { current, pending, history, not_tested, unknown };

/// A trouble code as read. `letter` is P, C, B or U; or S for a J1939 suspect parameter number.
struct Code {
  char letter = 'U';
  std::uint32_t number = 0;            ///< the four hexadecimal digits, or the SPN in decimal
  std::optional<std::uint8_t> detail;  ///< failure-type byte, or the FMI
  friend bool operator==(const Code&, const Code&) = default;
};

/// Reads `U0100`, `u0100-87`, `U010087`, `U0100:87`, the bytes as sent `0xC10087`, `SPN 2000 FMI 9`, `SPN2000-9`;
/// nullopt for anything else.
std::optional<Code> parse_code(std::string_view text);

/// `U0100-87`, `SPN 2000 FMI 9`.
std::string text_of(const Code&);

/// The bytes as sent: 0xC100 for U0100, 0xC10087 with its failure type; nullopt for J1939.
std::optional<std::uint32_t> bytes_of(const Code&);

/// What a code says.
enum class CodeKind : std::uint8_t {
  lost_communication,     ///< messages from `subject` are missing
  invalid_data,           ///< messages from `subject` arrive, their content is no use
  software_incompatible,  ///< `subject` answers with a version that does not fit
  bus_fault,              ///< the reporter sees the bus `subject` disturbed
  bus_off,                ///< the reporter's own controller left the bus
  self,                   ///< about the reporter's own supply, ground, wake-up or inside
  other,                  ///< says nothing about the network
};

struct CodeMeaning {
  CodeKind kind = CodeKind::other;
  std::string subject;  ///< role or bus subject of the table; for J1939 `address:N`; empty for self, other, not told
  std::string
      qualifier;      ///< as `plus-open`, `a`, `front`; for self what it is about, as `self-supply`, `self-ground`,
                      ///< `vehicle-supply`; `received-by:ROLE` when that role complains about `subject`, the reporter
  std::string title;  ///< the standard's short title
  std::string explanation;           ///< in our words, one or two sentences, failure type taken into account
  std::string standard;              ///< which standard says so
  bool about_configuration = false;  ///< failure types 51 to 57
};

/// The meaning of a code, by the table of generic codes, its failure-type byte or FMI.
/// A code that the table does not have gets kind `other` and says so in `explanation`.
CodeMeaning meaning_of(const Code&);

/// How well a module's role fits the one that a code accuses.
enum class RoleMatch : std::uint8_t {
  none,
  loose,  ///< the same role, but the code names a letter, number or side that the network does not tell apart
  exact,
};

/// Whether `role` (of a module) is the one that the code accuses. Roles may carry the code's qualifier:
/// `door-control-b`. Where several modules match, those that match exactly are meant.
RoleMatch match(const CodeMeaning&, std::string_view role);

/// ISO 14229-1 status byte to state: bit 0: current; else bit 4 or 6: not tested; bit 1, 3 or 5: history; bit 2:
/// pending. No bit of these set: tested and passing, which is no verdict on a code either, so not tested.
CodeState state_of_status(std::uint8_t status);

/// A status byte in words, bit by bit.
std::string text_of_status(std::uint8_t status);

/// All role ids (subjects of lost-communication, invalid-data and software codes, plain and with their qualifier, as
/// `door-control` and `door-control-b`; and J1939 roles), sorted.
const std::vector<std::string>& known_roles();

/// All bus subjects (`can-high-speed`, `bus-a`, `j1939-1`, …), sorted.
const std::vector<std::string>& known_bus_subjects();

/// Role at a J1939 source address, or empty.
std::string role_at_address(int address);

std::string_view word_for(CodeState);
std::string_view word_for(CodeKind);

}  // namespace whichwire
