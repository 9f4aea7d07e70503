// A test lamp: its current grows with a power of its volts, so that a dim lamp has fewer ohms than a bright one. Put to
// a source of some volts behind some ohms, its volts are where both agree. Source: filament exponent by common
// practice, no source. Tests: tests/electrical/supply.cpp.
#pragma once

#include "electrical/ready.hpp"

namespace whichwire {

/// Volts across the load when its terminals have `open_volts` without it, behind `ohms`.
double lamp_volts(const TestLoad& load, const PartValues& parts, double open_volts, double ohms);

/// Ohms of the load at these volts across it.
double lamp_ohms(const TestLoad& load, const PartValues& parts, double volts);

}  // namespace whichwire
