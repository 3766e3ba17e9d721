#pragma once
// How warm a build gets on its duty.

#include "engine/drive/drive.h"
#include "engine/heat/housing.h"
#include "engine/heat/steady.h"

namespace lobewise::drive {

/// The housing in its surroundings.
/// @param ambient  [K]
[[nodiscard]] heat::Housing housing_of(const Drive& drive, double ambient, const Coefficients& c);

/// Power lost on the whole duty, averaged over the running time (and over the rests of an intermittent cycle) [W].
[[nodiscard]] double mean_loss(const Drive& drive, double oil_temperature, const Coefficients& c);

/// Temperature above which the lubricant (or the seals) should not be kept [K].
[[nodiscard]] double lubricant_limit(const Oil& oil);

/// Steady state on the duty's mean loss at an ambient temperature; nothing: no equilibrium (thermal runaway).
[[nodiscard]] std::optional<heat::SteadyState> steady(const Drive& drive, double ambient, const Coefficients& c);

/// Largest torque that heat allows for ever at full speed, up to `torque_max` [N m]; nothing: not even idling.
[[nodiscard]] std::optional<heat::ThermalTorque> thermal_torque(const Drive& drive, double ambient, double torque_max,
                                                                const Coefficients& c);

}  // namespace lobewise::drive
