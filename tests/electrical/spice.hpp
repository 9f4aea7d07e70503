// Buses written as ngspice decks by the rules of lib/electrical/bus_circuit.hpp, without the library's circuit code,
// and ngspice run on many of them at once.
#pragma once

#include <string>
#include <vector>
#include <whichwire/electrical.hpp>

#include "differential/random_network.hpp"

namespace whichwire::test {

/// One bus with what is done to it.
struct SpiceCase {
  Network network;
  std::vector<PresentFault> faults;
  Situation situation;
  Terminal red, black;
};

/// A random bus of this protocol with random faults, unplugged modules and parted points.
SpiceCase random_case(Dice& dice, Protocol protocol);

enum class Mode { ohms, volts };

/// The lines of a deck whose nodes all begin with `prefix`; what the meter shows is the voltage of `prefix`m.
std::string deck_of(const SpiceCase& its, const ElectricalValues& values, double Interval::*limit, Mode mode,
                    const std::string& prefix, std::size_t sender = nowhere);

/// Modules that may send, by the rules.
std::vector<std::size_t> able(const SpiceCase& its);

/// Runs ngspice on all decks together and gives the meter's volts of each.
std::vector<double> run_ngspice(const std::vector<std::string>& decks, const std::vector<std::string>& prefixes);

}  // namespace whichwire::test
