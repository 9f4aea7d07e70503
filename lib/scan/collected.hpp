// The scan as it grows line by line: modules in the order in which they were first spoken of, each once.
// Tested in tests/scan/pasted_scan.cpp.
#pragma once

#include <whichwire/scan.hpp>

#include "scan/line_meaning.hpp"

namespace whichwire {

class Collected {
 public:
  explicit Collected(const Network& network) : network_(network) {}

  struct Place {
    std::size_t module = nowhere, code = nowhere;  ///< into `scan().modules` and its codes
    bool valid() const { return module != nowhere; }
  };

  /// The entry of a module or stranger; made when there is none.
  std::size_t entry_of(const Who& who);

  /// Takes an answer. Of two that differ, one about a module named by its id or name counts more than one about a
  /// module named by a role, which may live elsewhere. Returns what an earlier line said otherwise, in words, or
  /// nothing.
  std::string answer(std::size_t entry, Answer answer, bool by_role);

  /// Whether a line said how this one answers.
  bool answered(std::size_t entry) const { return said_[entry]; }

  /// Takes a code, or adds to the same one of an earlier line.
  Place code(std::size_t entry, CodeSeen seen);

  CodeSeen& at(Place place) { return scan_.modules[place.module].codes[place.code]; }

  /// `all others answer`: what was not said of a module that the vehicle always has.
  void rest(Answer answer, std::size_t bus);

  Scan& scan() { return scan_; }

 private:
  const Network& network_;
  Scan scan_;
  std::vector<bool> said_;       // beside the modules
  std::vector<bool> by_role_;    // what was said was said of a role
  std::vector<std::size_t> of_;  // index of a known module to its entry
};

}  // namespace whichwire
