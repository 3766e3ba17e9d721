#pragma once
// Start, stop, jam, reversal and load drop of a chain with play, in time. Everything at the OUTPUT shaft.
//
// Model and limits: docs/theory/motion.md. Dormand-Prince 5(4); contact, sticking, switching of the motor and the ends
// of ramps are met exactly as events, the zero of every link's relative speed is searched inside the step, so that the
// peak of a spring is exact. No allocation while it runs. The energy balance
//   kinetic + elastic + dissipated - work of drive, load and stop = constant
// is followed at every step; a run that breaks it by more than 1e-6 of the largest energy is refused.

#include <array>
#include <optional>
#include <vector>

#include "engine/base/result.h"
#include "engine/motion/chain.h"
#include "engine/motion/motor_curve.h"

namespace lobewise::motion {

/// Torque factor of the star connection, 1/3 in theory.
inline constexpr Coefficient kStarFactor{
    1.0 / 3, 0.27, 0.33, "derived: a third of the voltage squared; low end: saturation, common practice"};
/// Share of the synchronous speed at which star goes over to delta.
inline constexpr Coefficient kStarDeltaSwitch{0.85, 0.80, 0.90, "common practice, no source"};
/// Time without torque while the contactors change [s].
inline constexpr Coefficient kStarDeltaPause{0.050, 0.040, 0.100, "common practice, no source"};
/// Torque limit of an inverter over the motor's rated torque.
inline constexpr Coefficient kInverterTorqueLimit{1.5, 1.2, 2.0, "common practice, no source"};
/// Speed at which a start counts as done, share of the rated speed.
inline constexpr double kStartedShare = 0.95;

enum class Starting {
  direct,      ///< direct on line
  star_delta,  ///< reduced torque up to a speed, a pause, then full torque
  soft_start,  ///< voltage ramp, torque with its square
  inverter,    ///< frequency ramp; Kloss at the same slip speed, limited torque
};

/// How the motor is switched on at t = 0.
struct StartingMethod {
  Starting kind = Starting::direct;
  double star_factor = kStarFactor.nominal;
  double switch_share = kStarDeltaSwitch.nominal;      ///< of the synchronous speed
  double pause = kStarDeltaPause.nominal;              ///< [s]
  double initial_voltage = 0.4;                        ///< share of the rated voltage at t = 0 of a soft start
  double ramp_time = 0;                                ///< of voltage or frequency > 0 [s]
  double torque_limit = kInverterTorqueLimit.nominal;  ///< of the inverter, share of the rated torque
};

/// What pulls at inertia 0.
struct Drive {
  double torque = 0;                ///< constant torque at the output [N m]; without effect when a motor is given
  std::optional<MotorCurve> motor;  ///< its own shaft turns `ratio` times as fast as the output
  double ratio = 1;                 ///< i > 0
  double efficiency = 1;  ///< 0..1; torque at the output T_m i eta while the motor drives, T_m i / eta while it brakes
  StartingMethod starting;
};

/// What hangs on the last inertia.
struct Load {
  double active = 0;          ///< constant, against positive rotation whichever way it turns: lifting [N m]
  double friction = 0;        ///< dry, against whatever motion there is, holds at rest: belt, screw [N m]
  double curve_torque = 0;    ///< at `curve_speed`, against the motion, (|w|/curve_speed)^exponent: fan, pump [N m]
  double curve_speed = 1;     ///< > 0 [rad/s]
  double curve_exponent = 2;  ///< >= 1
};

enum class EventKind {
  jam,  ///< last inertia (of two at least) brought to rest with constant deceleration within the angle `value` [rad];
        ///< 0: at once
  motor_off,  ///< no more torque of the drive
  brake,      ///< dry brake of torque `value` > 0 more, at the output, on inertia 0 [N m]
  reversal,   ///< supply reversed: plugging; an inverter runs down its ramp and up the other way
  load_drop,  ///< load torque vanishes
};
struct Event {
  EventKind kind = EventKind::jam;
  double time = 0;   ///< >= 0 [s]
  double value = 0;  ///< see EventKind
};

/// How the links stand at t = 0.
enum class InitialFlanks {
  middle,    ///< no deflection, play open to both sides
  opposite,  ///< lying on the other flank: all the play to cross, the worst start
  touching,  ///< driving flanks touch without load
  wound,     ///< every link carries `wound_torque`
};

/// A scenario that begins in motion begins on the full supply, whatever the starting method.
struct Scenario {
  Chain chain;
  Drive drive;
  Load load;
  double speed = 0;  ///< of all inertias at t = 0 [rad/s]
  InitialFlanks flanks = InitialFlanks::middle;
  double wound_torque = 0;     ///< [N m]
  std::vector<Event> events;   ///< in order of time
  double duration = 0;         ///< > 0 [s]
  double sample_interval = 0;  ///< of the time series [s]; 0: none
  /// A start of which nothing is asked once it is over: the run ends at this many times the time to speed, or when the
  /// speeds stand still, before its duration; 0: it lasts its duration, else >= 1.
  double after_start = 0;
  double tolerance = 1e-9;  ///< relative local error, 1e-12..1e-4
};

struct LinkResult {
  double spring_peak = 0;  ///< largest |spring torque| [N m]
  double highest_torque =
      0;  ///< largest torque in driving direction, spring and damper, at steps and spring extremes [N m]
  double highest_time = 0;    ///< [s]
  double lowest_torque = 0;   ///< least of the same, negative when the flanks change [N m]
  double lowest_time = 0;     ///< [s]
  double hardest_impact = 0;  ///< largest relative speed at which flanks met [rad/s]
  int impacts = 0;            ///< how often flanks met
};

struct Sample {
  double time = 0;                                     ///< [s]
  double motor_speed = 0;                              ///< of inertia 0, at the output [rad/s]
  double load_speed = 0;                               ///< of the last inertia [rad/s]
  double motor_torque = 0;                             ///< of the drive, at the output [N m]
  double shaft_torque = 0;                             ///< of the drive, at its own shaft, before any loss [N m]
  std::array<double, kMaxInertias - 1> link_torque{};  ///< [N m]
};

struct Outcome {
  std::array<LinkResult, kMaxInertias - 1> links{};
  std::optional<double> started;     ///< motor reaches kStartedShare of its rated speed [s]
  std::optional<double> standstill;  ///< last inertia comes to rest, by friction, brake or jam [s]
  double rotor_heat = 0;             ///< slip energy of the motor [J]
  double dissipated = 0;             ///< in dampers, reducer, friction and brake [J]
  double energy_error = 0;           ///< largest error of the balance over the largest energy
  int steps = 0;
  std::vector<double> final_speed;  ///< of every inertia [rad/s]
  std::vector<Sample> samples;
};

/// Everything wrong with a scenario, each with its path; empty when it can run.
[[nodiscard]] Errors check_scenario(const Scenario& scenario);

/// Runs a scenario.
/// Errors: a field out of its range (path `chain.inertia[2]`, `chain.link[0].stiffness`, `duration` …); model error
/// when 400 000 steps do not reach the end; internal error when the energy balance fails. Source: derived,
/// docs/theory/motion.md. Checked by: tests/unit/motion/simulate_test.cc (every closed form of shock.h, run-up, brake),
/// tests/property/motion, tests/reference/motion/second_integrator_test.cc (GNU Scientific Library).
[[nodiscard]] Result<Outcome> simulate(const Scenario& scenario);

}  // namespace lobewise::motion
