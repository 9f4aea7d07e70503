#include "scan/code_tables.hpp"

#include <algorithm>
#include <array>

#include "scan/hex.hpp"
#include "scan/table.hpp"

namespace whichwire {

namespace data {
extern const std::string_view failure_types;
extern const std::string_view status_bits;
extern const std::string_view j1939_fmi;
extern const std::string_view j1939_spns;
extern const std::string_view j1939_addresses;
}  // namespace data

namespace {

TypeEffect type_effect(std::string_view word) {
  constexpr std::array<std::string_view, 7> words{"none",          "wire",    "content", "self",
                                                  "configuration", "missing", "bus-off"};
  const auto found = std::ranges::find(words, word);
  return static_cast<TypeEffect>(found - words.begin());
}

FmiEffect fmi_effect(std::string_view word) {
  constexpr std::array<std::string_view, 5> words{"lost", "content", "bus", "self", "configuration"};
  const auto found = std::ranges::find(words, word);
  return static_cast<FmiEffect>(found - words.begin());
}

/// By byte; rows that the table does not have keep empty words.
const std::array<FailureType, 256>& failure_types() {
  static const std::array<FailureType, 256> types = [] {
    std::array<FailureType, 256> all;
    for (std::size_t i = 0; i < all.size(); ++i) all[i].byte = static_cast<std::uint8_t>(i);
    for (const auto& [byte, effect, words] : rows_of<3>(data::failure_types)) {
      const std::size_t at = parse_hex(byte).value_or(0) & 0xFFU;
      all[at] = {static_cast<std::uint8_t>(at), type_effect(effect), words};
    }
    return all;
  }();
  return types;
}

}  // namespace

FailureType failure_type_of(std::uint8_t byte) {
  FailureType type = failure_types()[byte];
  if (type.words.empty()) type.words = byte >= 0xF0 ? "the maker's own failure type" : "a reserved failure type";
  return type;
}

bool known_failure_type(std::uint8_t byte) { return !failure_types()[byte].words.empty(); }

const std::vector<StatusBit>& status_bits() {
  static const std::vector<StatusBit> bits = [] {
    std::vector<StatusBit> all;
    for (const auto& [bit, name, brief, words] : rows_of<4>(data::status_bits)) all.push_back({name, brief, words});
    return all;
  }();
  return bits;
}

FailureMode failure_mode_of(std::uint8_t fmi) {
  static const std::array<FailureMode, 32> modes = [] {
    std::array<FailureMode, 32> all;
    for (FailureMode& mode : all) mode.words = "a reserved failure mode";
    for (const auto& [number, box, link, own, words] : rows_of<5>(data::j1939_fmi))
      all[parse_decimal(number).value_or(0) & 31U] = {fmi_effect(box), fmi_effect(link), fmi_effect(own), words};
    return all;
  }();
  return modes[fmi & 31U];
}

const std::vector<NetworkSpn>& network_spns() {
  static const std::vector<NetworkSpn> spns = [] {
    std::vector<NetworkSpn> all;
    for (const auto& [spn, kind, subject, words] : rows_of<4>(data::j1939_spns))
      all.push_back({parse_decimal(spn).value_or(0), kind, subject, words});
    std::ranges::sort(all, {}, &NetworkSpn::spn);
    return all;
  }();
  return spns;
}

const NetworkSpn* find_network_spn(std::uint32_t spn) {
  const auto found = std::ranges::lower_bound(network_spns(), spn, {}, &NetworkSpn::spn);
  return found != network_spns().end() && found->spn == spn ? &*found : nullptr;
}

const std::vector<SourceAddress>& source_addresses() {
  static const std::vector<SourceAddress> addresses = [] {
    std::vector<SourceAddress> all;
    for (const auto& [address, role, name] : rows_of<3>(data::j1939_addresses))
      all.push_back({static_cast<int>(parse_decimal(address).value_or(0)), role, name});
    std::ranges::sort(all, {}, &SourceAddress::address);
    return all;
  }();
  return addresses;
}

}  // namespace whichwire
