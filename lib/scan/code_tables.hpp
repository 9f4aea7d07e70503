// Failure types, status bits, SPNs, FMIs and source addresses as rows of data (*.csv in this folder, sources in each).
// Every table is read on first use. Tested in tests/scan/tables.cpp and tests/reference.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace whichwire {

/// What a failure type adds to a network code, in our reading.
enum class TypeEffect : std::uint8_t { none, wire, content, self, configuration, missing, bus_off, unknown };

struct FailureType {
  std::uint8_t byte = 0;
  TypeEffect effect = TypeEffect::unknown;
  std::string_view words;
};

/// Bytes without a row are reserved (A0 to EF and gaps) or the maker's own (F0 to FF): effect `unknown`.
FailureType failure_type_of(std::uint8_t byte);

/// Whether the table has a row for this byte.
bool known_failure_type(std::uint8_t byte);

struct StatusBit {
  std::string_view name, brief, words;
};

/// The eight bits, lowest first.
const std::vector<StatusBit>& status_bits();

/// What an FMI says on one of our three sorts of SPN.
enum class FmiEffect : std::uint8_t { lost, content, bus, self, configuration, other };

struct FailureMode {
  FmiEffect box = FmiEffect::other, link = FmiEffect::other, own = FmiEffect::other;
  std::string_view words;
};

/// The row of an FMI; reserved ones say nothing.
FailureMode failure_mode_of(std::uint8_t fmi);

struct NetworkSpn {
  std::uint32_t spn = 0;
  std::string_view kind, subject, words;  ///< kind: link, own, others
};

/// The row of an SPN that speaks about buses or control units, or null.
const NetworkSpn* find_network_spn(std::uint32_t spn);
const std::vector<NetworkSpn>& network_spns();

struct SourceAddress {
  int address = 0;
  std::string_view role, name;
};

/// In order of the addresses.
const std::vector<SourceAddress>& source_addresses();

}  // namespace whichwire
