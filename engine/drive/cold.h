#pragma once
// What it takes to start a build, at rest and on the way up, with its lubricant at any temperature; meant for cold
// mornings. Everything at the motor shaft. Model, validity and sources: docs/theory/cold.md.

#include <vector>

#include "engine/drive/drive.h"

namespace lobewise::drive {

/// Temperature of the hall in which motor and lubricant are chosen [K]. Common practice, no source.
inline constexpr double kNormalTemperature = kZeroCelsius + 20;

/// Before anything turns: friction of all contacts without a film, seals and bearings stuck.
struct Rest {
  double machine = 0;     ///< torque that breaks the machine away, at the output shaft [N m]
  double torque = 0;      ///< it takes at the motor shaft [N m]
  double efficiency = 0;  ///< machine / (torque i): what of the motor's torque arrives
  LossPlaces friction;    ///< by place, as torques at the motor shaft [N m]
};
/// @param machine      torque at the output shaft >= 0, whatever the coefficients say of it [N m]
/// @param temperature  of the seals [K]
/// Source: the losses of docs/theory/losses.md without film, times losses::kBearingAtRest and kSealAtRest.
[[nodiscard]] Rest at_rest(const Drive& drive, double machine, double temperature, const Coefficients& c);

/// Drag of the lubricant, at the motor shaft [N m].
struct ColdDrag {
  double bearings = 0;  ///< their no-load moments
  double gaps = 0;      ///< shear at the faces of the discs
  [[nodiscard]] double total() const { return bearings + gaps; }
};

/// Drag of a unit over its speed, at one temperature of walls and oil. Put together once, cheap at every speed.
class ColdTurning {
 public:
  ColdTurning(const Drive& drive, double temperature, const Coefficients& c);
  /// @param input_speed  of the unit >= 0 [rad/s]
  [[nodiscard]] ColdDrag at(double input_speed) const;
  /// Speed up to `top` at which the drag is largest: oil that its shear warms resists less above it [rad/s].
  [[nodiscard]] double hardest_speed(double top) const;

  /// A bearing as its ring turns.
  struct Bearing {
    const range::Bearing* bearing = nullptr;
    double count = 1;
    double speed_share = 1;  ///< relative speed of its rings over the input speed
    double f_0 = 0;
  };
  /// The faces of a stage's discs.
  struct Gap {
    double speed_per_input = 0;  ///< relative speed of the walls over the input speed [m]
    double area = 0;             ///< wetted, with the factor for squeezing at the lobes [m2]
  };
  [[nodiscard]] const std::vector<Bearing>& bearings() const { return bearings_; }
  [[nodiscard]] const std::vector<Gap>& gaps() const { return gaps_; }
  [[nodiscard]] double nu() const { return nu_; }        ///< [m2/s]
  [[nodiscard]] double eta() const { return eta_; }      ///< [Pa s]
  [[nodiscard]] double falls() const { return falls_; }  ///< -d ln(eta)/dT [1/K]

 private:
  std::vector<Bearing> bearings_;
  std::vector<Gap> gaps_;
  double nu_ = 0, eta_ = 0, falls_ = 0, cold_factor_ = 1;
};

/// A start with lubricant and walls at one temperature, at the speed, from rest to the motor's breakdown, at which its
/// torque is the least share of what is asked. The machine asks there what breaks it away, without any film; the oil
/// asks the most that it asked on the way up to there, so that colder never asks less.
struct ColdStart {
  double temperature = 0;  ///< [K]
  Rest rest;
  double speed = 0;       ///< of the motor [rad/s]
  double drag_speed = 0;  ///< up to it, where the drag is largest [rad/s]
  ColdDrag drag;          ///< there
  double given = 0;       ///< torque of the motor at `speed`; 0 without a motor [N m]
  [[nodiscard]] double asked() const { return rest.torque + drag.total(); }
  [[nodiscard]] double ratio() const { return given / asked(); }
};
/// Without a motor: what is asked up to the unit's own speed.
[[nodiscard]] ColdStart cold_start(const Drive& drive, double temperature, const Coefficients& c);

/// Coldest surroundings, with the shift of what nobody said [K].
[[nodiscard]] double coldest(const Drive& drive, const Coefficients& c);

/// A start followed over the speed as one rigid body against the most that is asked.
struct ColdRunUp {
  double time = 0;      ///< that heats the rotor as much at full voltage: time in star counts a third [s]
  bool sticks = false;  ///< less than kLeastSurplus of the rated torque is left somewhere; taken as that much in `time`
};
/// Torque left below which a motor is said to stick, share of its rated torque.
inline constexpr double kLeastSurplus = 0.02;
/// Time a cage motor bears with its rotor held, from cold, at full voltage [s].
inline constexpr Coefficient kLockedRotorTime{12, 8, 20, "common practice, no source: ask the motor's supplier"};
/// On an inverter there is no such limit: its ramp holds the current; 0 then. Precondition: there is a motor.
[[nodiscard]] ColdRunUp cold_run_up(const Drive& drive, const ColdStart& start, const Coefficients& c);

}  // namespace lobewise::drive
