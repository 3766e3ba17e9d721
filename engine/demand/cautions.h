#pragma once
// Cautions that several machines share, in our own words; sources in docs/theory/machines.md.

#include "engine/demand/demand.h"

namespace lobewise::demand {

/// Load that falls, runs away or runs back by gravity.
[[nodiscard]] Caution runback_caution();
/// The fast-shaft and low-speed places of a backstop, its fixed direction.
[[nodiscard]] Caution backstop_caution();
/// A load that drives the machine: brake, not backstop.
[[nodiscard]] Caution downhill_caution();
/// A reducer is no holding device.
[[nodiscard]] Caution holding_caution();
/// Lifting of goods: lifting code, factors, test loads.
[[nodiscard]] Caution lifting_caution();
/// Goods only.
[[nodiscard]] Caution no_people_caution();
/// Rigid jam exceeds what a service factor covers.
[[nodiscard]] Caution jam_caution();
/// Guards; every machine carries it.
[[nodiscard]] Caution guard_caution();
/// Isolation before work; every drive carries it.
[[nodiscard]] Caution lockout_caution();
/// What stays stored in this machine when its drive stops, and the step that releases it; every machine carries it.
/// @param held     what holds energy (`the hung load`)  @param release  the step, in the imperative
[[nodiscard]] Caution stored_energy_caution(const std::string& held, const std::string& release);

}  // namespace lobewise::demand
