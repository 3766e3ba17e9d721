#pragma once
// How warm a build gets on its duty.

#include "engine/drive/drive.h"
#include "engine/heat/housing.h"
#include "engine/heat/steady.h"
#include "engine/heat/transient.h"

namespace lobewise::drive {

/// The housing in its surroundings.
/// @param ambient  [K]
[[nodiscard]] heat::Housing housing_of(const Drive& drive, double ambient, const Coefficients& c);

/// Power lost while it runs, averaged over the duty's blocks [W].
[[nodiscard]] double running_loss(const Drive& drive, double oil_temperature, const Coefficients& c);
/// The same averaged over the rests of an intermittent cycle as well [W].
[[nodiscard]] double mean_loss(const Drive& drive, double oil_temperature, const Coefficients& c);

/// Temperature above which the lubricant (or the seals) should not be kept [K].
[[nodiscard]] double lubricant_limit(const Oil& oil);

/// Steady state on the duty's mean loss at an ambient temperature; nothing: no equilibrium (thermal runaway).
[[nodiscard]] std::optional<heat::SteadyState> steady(const Drive& drive, double ambient, const Coefficients& c);

/// Part of a duty in which it runs or rests [s].
struct RunAndRest {
  double run = 0, rest = 0;
};
/// Temperatures of a cycle of running and resting that goes on for ever; the motor's fan stands while it rests.
/// Nothing: thermal runaway.
[[nodiscard]] std::optional<heat::PeriodicDuty> periodic(const Drive& drive, double ambient, const RunAndRest& cycle,
                                                         const Coefficients& c);
/// Air over the housing while the motor's fan stands [m/s].
[[nodiscard]] double air_at_rest(const Drive& drive);

/// Largest torque that heat allows for ever at full speed, up to `torque_max` [N m]; nothing: not even idling.
[[nodiscard]] std::optional<heat::ThermalTorque> thermal_torque(const Drive& drive, double ambient, double torque_max,
                                                                const Coefficients& c);

}  // namespace lobewise::drive
