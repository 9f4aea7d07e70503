// How much the slow tests do: those that draw cases at random, and those that take a few of very many.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdlib>

namespace whichwire::test {

/// Random cases of the search against its plain reference: WHICHWIRE_CASES in the environment, 1000 where it is not
/// set.
inline std::uint64_t cases() {
  const char* wanted = std::getenv("WHICHWIRE_CASES");
  return wanted == nullptr ? 1000 : std::strtoull(wanted, nullptr, 10);
}

/// As much of a test's usual number, at least 1.
inline std::uint64_t share_of(std::uint64_t usual) { return std::max<std::uint64_t>(1, usual * cases() / 1000); }

}  // namespace whichwire::test
