#pragma once
// How thick the oil stands between lobe and ring roller.

#include "engine/drive/drive.h"

namespace lobewise::drive {

/// Lambda: film at the most heavily pressed lobe of the last stage at full load, over the roughness of lobe and roller
/// [-]. Radius and surface speeds are those of the hardest contact at the nearest solved torque, the load is that of
/// the torque itself.
/// @param oil_temperature  [K]
/// Sources: `contact::line_film`, `contact::hardest_lobe_contact`; docs/theory/lubricant.md.
[[nodiscard]] double lobe_film_ratio(const Drive& drive, double oil_temperature, const Coefficients& c);

}  // namespace lobewise::drive
