// How much the slow tests do: those that draw cases at random, and those that take a few of very many.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <vector>

namespace whichwire::test {

/// Random cases of the search against its plain reference: WHICHWIRE_CASES in the environment, 1000 where it is not
/// set.
inline std::uint64_t cases() {
  const char* wanted = std::getenv("WHICHWIRE_CASES");
  return wanted == nullptr ? 1000 : std::strtoull(wanted, nullptr, 10);
}

/// As much of a test's usual number, at least 1.
inline std::uint64_t share_of(std::uint64_t usual) { return std::max<std::uint64_t>(1, usual * cases() / 1000); }

/// Whether to leave out what takes long and cannot be cut, as `TEST_CASE("..." * doctest::skip(test::only_few()))`:
/// where few cases are asked for, as under the sanitizers in a run that has to end within the hour.
inline bool only_few() { return cases() < 100; }

/// All of these, or some evenly spread where less is to be done.
template <class T>
std::vector<T> some_of(const std::vector<T>& all) {
  std::vector<T> some;
  const std::size_t step = std::max<std::size_t>(1, all.size() / share_of(all.size()));
  for (std::size_t i = 0; i < all.size(); i += step) some.push_back(all[i]);
  return some;
}

}  // namespace whichwire::test
