// Words of the format for states and kinds, and a status byte in words (ISO 14229-1).
// Tested in tests/scan/code.cpp and tests/reference/iso14229.cpp.
#include <whichwire/code.hpp>

#include "scan/code_tables.hpp"

namespace whichwire {

CodeState state_of_status(std::uint8_t status) {
  const auto bit = [status](unsigned number) { return (status >> number & 1U) != 0; };
  if (bit(0)) return CodeState::current;
  if (bit(4) || bit(6)) return CodeState::not_tested;
  if (bit(1) || bit(3) || bit(5)) return CodeState::history;
  if (bit(2)) return CodeState::pending;
  return CodeState::not_tested;  // tested and passing: no fault is stored, so the row says nothing
}

std::string text_of_status(std::uint8_t status) {
  std::string text;
  const auto& bits = status_bits();
  for (std::size_t i = 0; i < bits.size(); ++i) {
    if ((status >> i & 1U) == 0) continue;
    if (!text.empty()) text += ", ";
    text += bits[i].brief;
  }
  return text.empty() ? "tested and passing" : text;
}

std::string_view word_for(CodeState state) {
  switch (state) {
    case CodeState::current:
      return "current";
    case CodeState::pending:
      return "pending";
    case CodeState::history:
      return "history";
    case CodeState::not_tested:
      return "not-tested";
    case CodeState::unknown:
      return "unknown";
  }
  return {};
}

std::string_view word_for(CodeKind kind) {
  switch (kind) {
    case CodeKind::lost_communication:
      return "lost-communication";
    case CodeKind::invalid_data:
      return "invalid-data";
    case CodeKind::software_incompatible:
      return "software-incompatible";
    case CodeKind::bus_fault:
      return "bus-fault";
    case CodeKind::bus_off:
      return "bus-off";
    case CodeKind::self:
      return "self";
    case CodeKind::other:
      return "other";
  }
  return {};
}

}  // namespace whichwire
