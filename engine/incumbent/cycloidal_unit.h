#pragma once
// A cycloidal unit that stands there already. Nobody knows its lobes; losses, size and heat are those of its kind.

#include "engine/incumbent/gear_unit.h"

namespace lobewise::incumbent {

/// Largest ratio of one stage that is taken where nobody says the stages; common practice, no source.
inline constexpr double kMostOfOneStage = 100;

/// Losses a stage: lobes and pins 2 % (1 … 5), bearings 0.5 % (0.2 … 1), drag and seals 2.5 % (1.2 … 4.5) of the design
/// power at 1500 1/min of its eccentric. Nominal values: what our own loss model gives over the sizes of the demo
/// range; ends common practice, no source. Mass 0.12 kg (T_design / N m)^0.9 x 0.65 … 1.35, size by 2200 kg/m3 of its
/// box (common practice, no source). What stands in lobes, pins and bearings is not known: no stress, no life. Beside a
/// candidate of the same kind nothing but what is stated tells the two apart (evidence/beside.h). Preconditions:
/// checked unit and duty with its parts.
[[nodiscard]] GearUnit cycloidal_unit(const UnitInService& unit, const UnitDuty& duty);

}  // namespace lobewise::incumbent
