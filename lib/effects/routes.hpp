// A question as a formula over atoms: the worst of its clauses, a clause being the best of its routes, a route the
// worst of its atoms. An atom is one thing that faults act on: a module's life, a hop on a bus, a gateway's forwarding.
// Tested by tests/differential against an engine that walks every path anew.
#pragma once

#include <compare>
#include <unordered_map>

#include "effects/compiled.hpp"

namespace whichwire {

using AtomIndex = std::uint32_t;

struct Atom {
  enum class Kind : std::uint8_t { life, fitted, tester_supply, forwards, port, hop, at };
  Kind kind = Kind::life;
  std::uint32_t a = 0;         ///< module, gateway's module, or bus of a hop
  std::uint16_t p = 0, q = 0;  ///< points of a hop; bus of a port
  friend bool operator==(const Atom&, const Atom&) = default;
};

using Route = std::vector<AtomIndex>;

/// Redundant gateways multiply routes; beyond this many, or where looking for more takes long, the longer ones are left
/// out, which only makes the answer coarser.
constexpr std::size_t most_routes = 256;

struct Clause {
  std::vector<Route> routes;  ///< none: never so
};

class AtomTable {
 public:
  AtomIndex operator[](const Atom& atom);
  const std::vector<Atom>& all() const { return atoms_; }

 private:
  struct Hash {
    std::size_t operator()(const Atom& atom) const;
  };
  std::vector<Atom> atoms_;
  std::unordered_map<Atom, AtomIndex, Hash> index_;
};

/// The formula of a question; its atoms are entered in `atoms`.
std::vector<Clause> formula_of(const Effects::Compiled&, const Question&, AtomTable& atoms);

/// The buses that gateways join, each by the number of the bus that stands for all of them.
std::vector<std::size_t> joined_buses(const Effects::Compiled&, bool between_modules);

/// Whether a message can get from one to the other when nothing is broken. `from == nowhere`: the tester.
bool reachable(const Effects::Compiled&, std::size_t from, std::size_t to);

}  // namespace whichwire
