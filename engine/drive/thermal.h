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

/// Losses of the motor over those at its rating, on the duty: f + (1 - f) x^2 with the load x of its rating as root of
/// the mean square; 1 without a motor. x takes the machine's power over 0.9 of the rating.
[[nodiscard]] double motor_loss_ratio(const Drive& drive, const Coefficients& c);

/// Power lost while it runs, averaged over the duty's blocks [W].
[[nodiscard]] double running_loss(const Drive& drive, double oil_temperature, const Coefficients& c);
/// The same averaged over the rests of an intermittent cycle as well [W].
[[nodiscard]] double mean_loss(const Drive& drive, double oil_temperature, const Coefficients& c);

/// Temperature above which the lubricant (or the seals) should not be kept [K].
[[nodiscard]] double lubricant_limit(const Oil& oil);

/// Hottest that a surface may get in an explosive place [K]; nothing elsewhere, or when nobody stated it.
[[nodiscard]] std::optional<double> hottest_surface(const Drive& drive);
/// Temperature the lubricant must keep below here: its own limit, and in an explosive place the one at which the lip of
/// a seal, heat::kSealLip above it, reaches the hottest surface allowed [K].
[[nodiscard]] double oil_limit(const Drive& drive);

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

/// Largest torque that heat allows for ever at full speed, up to `torque_max` [N m]; nothing: not even idling. The
/// motor's flange is as warm as that torque makes it: `steady` on it reaches the limit.
[[nodiscard]] std::optional<heat::ThermalTorque> thermal_torque(const Drive& drive, double ambient, double torque_max,
                                                                const Coefficients& c);

}  // namespace lobewise::drive
