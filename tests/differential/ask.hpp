// Asks one question about a network under faults given in the words of the command line.
#pragma once

#include <doctest/doctest.h>

#include <array>
#include <initializer_list>
#include <string>
#include <vector>
#include <whichwire/prediction.hpp>

#include "building.hpp"

namespace whichwire {

/// For the messages of failed checks.
inline doctest::String toString(Level level) {  // NOLINT(readability-identifier-naming): doctest looks for this name
  constexpr std::array names = {"up", "was_unsure", "was_down", "unsure", "down"};
  return names[static_cast<std::size_t>(level)];
}

}  // namespace whichwire

namespace whichwire::test {

/// The faults of `words`, each as on the command line. Throws std::logic_error with the reader's message.
std::vector<Fault> faults_from(const Network& network, std::initializer_list<const char*> words);

/// Level of one question, by the plain reference.
struct Asker {
  Network network;
  Circumstances circumstances = {};

  Level answers(const char* module, std::initializer_list<const char*> faults) const;
  Level hears(const char* module, const char* other, std::initializer_list<const char*> faults) const;
  Level bus(const char* module, const char* bus, std::initializer_list<const char*> faults) const;
  Level function(const char* function, std::initializer_list<const char*> faults) const;

 private:
  Level ask(const Question& question, std::initializer_list<const char*> faults) const;
};

}  // namespace whichwire::test
