// A sensor supply: the output in its module, its wire, its loads. The output gives its volts behind some ohms, up to
// the current where it limits, and takes no current back. What hangs on the wire is brought to one source behind ohms;
// the output then works on that. The volts rise with the output's volts and current, with every ohm to ground and with
// the battery, and fall with every ohm to the battery and with the output's own ohms, so that their limits are exact:
// all at one end. Method: common practice, no source. Tests: tests/electrical/reference.cpp.
#pragma once

#include "electrical/ready.hpp"

namespace whichwire {

/// Volts at the wire with the output of its module as it stands.
Interval reference_volts(const ReadyNetwork& ready, std::size_t module, std::size_t item,
                         const std::vector<PresentFault>& faults, const Situation& situation);

/// Ohms from the wire to ground.
Interval reference_ohms(const ReadyNetwork& ready, std::size_t module, std::size_t item,
                        const std::vector<PresentFault>& faults, const Situation& situation);

}  // namespace whichwire
