#pragma once
// The worst moments of a build: start, jam, reversal, load drop; and what they do to lobes, pins and shaft.

#include <optional>
#include <string>
#include <vector>

#include "engine/drive/cold.h"
#include "engine/drive/drive.h"
#include "engine/motion/characteristic.h"
#include "engine/motion/simulate.h"

namespace lobewise::drive {

/// Inertias, stiffness and play at the output shaft.
struct Torsion {
  double motor_inertia = 0;   ///< motor with input shafts, at the output [kg m2]
  double load_inertia = 0;    ///< [kg m2]
  double mesh_stiffness = 0;  ///< of lobes, discs and pins of all stages, between half and full torque [N m/rad]
  /// Of output shaft, to the middle of its end, input shafts, and of what is joined to them as far as it was said
  /// [N m/rad].
  double shaft_stiffness = 0;
  double stiffness = 0;          ///< both in a row [N m/rad]
  double lost_motion = 0;        ///< turn of the output between +-3 % of the torque [rad]
  double natural_frequency = 0;  ///< closed flanks [rad/s]
};
[[nodiscard]] Torsion torsion_of(const Drive& drive, const Coefficients& c);
/// Twist of mesh and shafts over the output's torque, with the free play of the meshes.
/// Source: the solved levels of the stage tables, torsion of round bars.
[[nodiscard]] motion::Characteristic characteristic_of(const Drive& drive, const Coefficients& c);

/// Share of the free play that a start has to cross. A reversing drive crosses all of it; a load that would run back
/// holds the flanks together; otherwise they lie where the last stop left them. Source: derived,
/// docs/decisions/120-start-peak.md.
[[nodiscard]] Coefficient start_play(const Drive& drive);

/// First swing of a start, before motor and machine speed up.
struct FirstSwing {
  double peak = 0;   ///< [N m]
  double play = 0;   ///< crossed [rad]
  double wound = 0;  ///< torque in the chain at rest [N m]
};

/// Peak torques at the output shaft by closed forms (motion/characteristic.h, shock.h): quick enough for many samples.
struct Peaks {
  double pull = 0;                ///< torque of the motor that crosses the play and winds the chain up [N m]
  double run_up = 0;              ///< largest later on, while it speeds up [N m]
  double speeding_up = 0;         ///< of that, what moves both inertias; the rest is a swing [N m]
  double start = 0;               ///< largest of a start at rest, the play crossed that is expected [N m]
  double start_bound = 0;         ///< all the play crossed [N m]
  FirstSwing first, first_bound;  ///< of both, the first swing alone
  double breakaway = 0;           ///< torque at which the machine begins to move then [N m]
  double pull_jam = 0;            ///< most that the motor gives while it slows down in a jam [N m]
  double jam = 0;                 ///< output stopped within the machine's own angle [N m]
  double jam_rigid = 0;           ///< stopped at once [N m]
  double plugging = 0;            ///< supply reversed at full speed; 0 where the way of starting does not do it [N m]
};
/// @param jam_angle   [rad] >= 0
/// @param efficiency  of the reducer at full load
/// Errors: none; without a motor there is no start and the jam meets the working torque only.
[[nodiscard]] Peaks peaks(const Drive& drive, double jam_angle, double efficiency, const Coefficients& c);

/// The first start after a night at the coldest surroundings.
struct ColdPeak {
  double pull =
      0;  ///< torque of the motor that winds the chain up, at the output, less what contacts and oil take [N m]
  double drag = 0;                     ///< of the oil meanwhile, at the motor [N m]
  double torque = 0;                   ///< largest of the chain, run-up included [N m]
  double given = 0;                    ///< torque of the motor at that moment, at its own shaft [N m]
  FirstSwing first;                    ///< of it, the first swing alone
  double breakaway = 0;                ///< torque at which the machine begins to move then [N m]
  double speeding_up = 0, run_up = 0;  ///< later on, as in `Peaks` [N m]
  double input = 0;                    ///< torque of the input shaft over that of the output
};
/// By the same forms as `peaks`, with what resists when nothing has turned for a night: the machine's break-away, the
/// efficiency of contacts without a film, and the drag of the oil as it is then, while the flanks meet that of half the
/// speed that they can meet with (docs/theory/peaks.md), later the most on the way up.
/// @param cold  of `cold_start` at that temperature. Precondition: there is a motor.
[[nodiscard]] ColdPeak cold_peak(const Drive& drive, const ColdStart& cold, const Coefficients& c);

/// What a peak does: pressures by the stage tables, first stage included.
struct PeakEffect {
  double lobe_pressure = 0;   ///< largest of all stages [Pa]
  double pin_pressure = 0;    ///< [Pa]
  double loaded = 0;          ///< ring rollers that carry, last stage
  double bearing_static = 0;  ///< smallest C_0 / P_0 of the eccentric bearings
  double pin_stress = 0;      ///< bending of an output pin, the larger of all stages [Pa]
};
[[nodiscard]] PeakEffect effect_of(const Drive& drive, double torque);

/// Torque over speed of the motor as this supply turns it. Errors: no motor; no such curve.
[[nodiscard]] Result<motion::MotorCurve> motor_curve_of(const Drive& drive, const Coefficients& c);

/// The way of starting with what the enquiry does not say: ramps of 5 s. Source: common practice, no source.
[[nodiscard]] motion::StartingMethod starting_method(enquiry::Starting starting);

/// Something that happens to the drive, followed in time with the motor's curve, play, hardening and damping.
struct ShockRun {
  const char* id;
  const char* label;  ///< plain words
  Result<motion::Outcome> outcome;
  /// Largest torque of the chain in either direction [N m].
  [[nodiscard]] double peak() const;
};
/// A start in the way asked for, long enough to reach its speed.
[[nodiscard]] Result<motion::Outcome> simulate_start(const Drive& drive, const Coefficients& c);
/// The first moments of that start, finely sampled.
[[nodiscard]] Result<motion::Outcome> simulate_first_moments(const Drive& drive, const Coefficients& c);
/// The machine jams at full load and speed within an angle, the motor on.
[[nodiscard]] Result<motion::Outcome> simulate_jam(const Drive& drive, double jam_angle, const Coefficients& c);
/// Every way of starting, emergency stop by brake and by mains failure, reversal by plugging, load drop. Empty without
/// a motor.
/// @param start  of simulate_start, the way asked for
[[nodiscard]] std::vector<ShockRun> simulate_events(const Drive& drive, const Result<motion::Outcome>& start,
                                                    const Coefficients& c);
/// Holding brake of a brake motor over the motor's rated torque.
inline constexpr Coefficient kBrakeShare{2.0, 1.5, 3.0, "common practice, no source"};

}  // namespace lobewise::drive
