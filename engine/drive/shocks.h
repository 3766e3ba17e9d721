#pragma once
// The worst moments of a build: start, jam, reversal, load drop; and what they do to lobes, pins and shaft.

#include <optional>
#include <string>
#include <vector>

#include "engine/drive/drive.h"
#include "engine/motion/simulate.h"

namespace lobewise::drive {

/// Inertias, stiffness and play at the output shaft.
struct Torsion {
  double motor_inertia = 0;      ///< motor with input shafts, at the output [kg m2]
  double load_inertia = 0;       ///< [kg m2]
  double stiffness = 0;          ///< [N m/rad]
  double play = 0;               ///< free angle to each side of the middle [rad]
  double natural_frequency = 0;  ///< closed flanks [rad/s]
};
[[nodiscard]] Torsion torsion_of(const Drive& drive, const Coefficients& c);

/// Peak torques at the output shaft by closed forms (motion/shock.h): quick enough for many samples.
struct Peaks {
  double start = 0;      ///< switched on at rest, through the play [N m]
  double jam = 0;        ///< output stopped within the machine's own angle [N m]
  double jam_rigid = 0;  ///< stopped at once [N m]
};
/// @param jam_angle  [rad] >= 0
[[nodiscard]] Peaks peaks(const Drive& drive, double jam_angle, const Coefficients& c);

/// What a peak does: pressures by the stage tables, first stage included.
struct PeakEffect {
  double lobe_pressure = 0;   ///< largest of all stages [Pa]
  double pin_pressure = 0;    ///< [Pa]
  double loaded = 0;          ///< ring rollers that carry, last stage
  double bearing_static = 0;  ///< smallest C_0 / P_0 of the eccentric bearings
  double pin_stress = 0;      ///< bending of an output pin, the larger of all stages [Pa]
  double shaft_stress = 0;    ///< torsion of the output shaft end, von Mises [Pa]
};
[[nodiscard]] PeakEffect effect_of(const Drive& drive, double torque);

/// A start simulated in time with the motor's curve, play and damping.
[[nodiscard]] Result<motion::Outcome> simulate_start(const Drive& drive, const Coefficients& c);
/// The machine jams at full load and speed within an angle.
[[nodiscard]] Result<motion::Outcome> simulate_jam(const Drive& drive, double jam_angle, const Coefficients& c);

/// Bending stress of an output pin under a force: guided or as a cantilever at the far disc's lever [Pa].
[[nodiscard]] double pin_bending_stress(const range::Stage& stage, double force);

}  // namespace lobewise::drive
