#pragma once
// How warm the unit in service gets, by the same physics as the candidate: same air, same base, same duty.

#include "engine/heat/housing.h"
#include "engine/incumbent/gear_unit.h"

namespace lobewise::incumbent {

/// The unit's box as a housing. Its foot stands on the base; surfaces per square metre as every housing here has them:
/// oil to wall 140 W/(m2 K), wall to base 18 W/(m2 K), ribs x 1.4 on convection (common practice, no source).
[[nodiscard]] heat::Housing housing_of(const GearUnit& unit, const UnitDuty& duty);

/// Power lost at a torque and speed of the output shaft, W: what follows the load follows T w, drag goes with the
/// square of the speed.
[[nodiscard]] double loss_at(const GearUnit& unit, double torque, double speed, const UnitDuty& duty);
/// … that stays in the oil (a belt's heat does not), averaged over the duty and its rests, W.
[[nodiscard]] double mean_oil_loss(const GearUnit& unit, const UnitDuty& duty);

/// Fills oil_temperature: the steady state of heat::steady_state at the mean loss, with the losses at their ends, the
/// air x 0.4 … 2.5, the base x 0 … 2.5 and oil to wall x 0.5 … 2, the ranges of the candidate. Above kHottest where
/// nothing settles.
void estimate_temperature(GearUnit& unit, const UnitDuty& duty);

}  // namespace lobewise::incumbent
