// The checks that only make sense one after the other: a reference with one load off, its wire by itself, volts on a
// bus wire, a module asked again. Source of the methods: common practice, no source. Tests: tests/planner/evidence.cpp.
#pragma once

#include "checks/bus_checks.hpp"

namespace whichwire {

/// The supply as it is, before anything is unplugged: the id is that of the check of lib/checks, which also unplugs.
Candidate reference_volts_check(const Job& job, std::size_t module, std::size_t item);
Candidate load_check(const Job& job, std::size_t module, std::size_t item, std::size_t load);
Candidate all_loads_check(const Job& job, std::size_t module, std::size_t item);
Candidate reference_wire_check(const Job& job, std::size_t module, std::size_t item);
Candidate bus_volts_check(const Job& job, std::size_t bus, Line line);
/// A piece of bus wire by itself, end to end.
Candidate wire_check(const Job& job, const Wiring& wiring, std::size_t segment);
/// Whether the module before a link of a ring sends at all: the link and its sender are dark alike at the other end.
Candidate ring_sender_check(const Job& job, const Wiring& wiring, std::size_t segment);
/// Where nobody remembers that it was replaced, the part itself may tell.
Candidate label_check(const Job& job, std::size_t module);
Candidate poll_check(const Job& job, const Effects& effects, std::size_t module);

}  // namespace whichwire
