// What every fuzzer checks of a reader's answer, whatever the input was.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <whichwire/mistake.hpp>
#include <whichwire/network.hpp>

namespace whichwire::fuzz {

/// Stops the run as a finding.
inline void insist(bool holds) {
  if (!holds) std::abort();
}

inline std::string_view text_of_bytes(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// An input of two texts: what stands before a line `---` and what stands behind it.
struct TwoTexts {
  std::string_view first, second;
};
inline TwoTexts two_texts(std::string_view text) {
  constexpr std::string_view between = "\n---\n";
  const std::size_t at = text.find(between);
  if (at == std::string_view::npos) return {{}, text};
  return {text.substr(0, at), text.substr(at + between.size())};
}

/// No control character but the line feed at the end of a line.
inline void insist_printable(std::string_view text) {
  for (char byte : text) insist(byte == '\n' || (static_cast<unsigned char>(byte) >= 0x20 && byte != 0x7f));
}

/// A refused input says why, in lines that can be printed; an accepted one says nothing.
inline void insist_on(bool accepted, const std::vector<Mistake>& mistakes) {
  insist(accepted == mistakes.empty());
  for (const Mistake& mistake : mistakes) {
    insist(!mistake.message.empty());
    insist_printable(text_of(mistake));
  }
}

inline Network loaded(const char* path) {
  NetworkResult result = load_network(path);
  insist(result.network.has_value());
  return std::move(*result.network);
}

inline const Network& compact_car() {
  static const Network network = loaded(WHICHWIRE_NETWORK);
  return network;
}

/// The small network of tests/scan: names that fit two modules, makers' own codes, addresses.
inline const Network& van() {
  static const Network network = loaded(WHICHWIRE_VAN);
  return network;
}

}  // namespace whichwire::fuzz
