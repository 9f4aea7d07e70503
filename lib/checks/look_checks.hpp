// What is looked at, unplugged, asked or scanned again. Source of the methods: common practice, no source.
// Tests: tests/checks/look_checks.cpp.
#pragma once

#include "checks/build.hpp"

namespace whichwire {

/// The plug of a module: bent, spread, corroded, wet, not seated.
Candidate plug_check(const Job& job, std::size_t module);

/// A splice, in-line connector or star.
Candidate point_check(const Job& job, std::size_t point);
Candidate connector_look_check(const Job& job);

/// Whether the others come back when the module is unplugged.
Candidate unplug_check(const Job& job, std::size_t module, std::size_t bus);
Candidate added_check(const Job& job);
Candidate fitted_check(const Job& job, std::size_t module);

/// Whether it may be that a module was not set up for the vehicle: a gateway then often answers and passes nothing on.
bool of_configuration(const Fault& fault);
Candidate configured_check(const Job& job, std::size_t module);

/// What tells a module that was not set up from a dead one, where what is remembered and its label do not. Refused, as
/// measuring is, where only who is trained and authorised may work.
Candidate set_up_check(const Job& job, std::size_t module);

Candidate rescan_check(const Job& job);

/// The scan taken after clearing: the rest of a `rescan_check` that was answered, and put aside under its name.
Candidate hand_in_check(const Job& job);

/// Comes before all others where the scan says that the battery was low; it tells no repairs apart.
Candidate battery_check(const Job& job);
bool battery_was_low(const Scan& scan);

}  // namespace whichwire
