#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Load over the rating of a motor of which nothing but its plate is known: the rating is taken, the most it can carry
/// for hours; half of it is as usual. Common practice, no source.
inline constexpr Coefficient kLoadOfRating{1.0, 0.5, 1.0, kCommonPractice};

/// A machine known by what its present motor draws, or by a torque that was measured: at most one of measured_current,
/// measured_power and measured_torque is given. Without any the motor's rating is taken as the load (load_share of it).
struct MeasuredDrive {
  std::optional<double> rated_power;  ///< motor nameplate [W] 10 … 1e7, required unless torque was measured
  std::optional<double> rated_speed;  ///< motor nameplate [rad/s] 10 … 700, required unless torque was measured
  std::optional<double>
      rated_current;  ///< nameplate, same connection as measured [A] 0.05 … 5000, required for a current
  std::optional<double> power_factor;      ///< nameplate 0.3 … 0.97, default 0.83
  std::optional<double> efficiency;        ///< nameplate 0.3 … 0.99, default 0.90
  std::optional<double> measured_current;  ///< one phase, heaviest steady running [A] 0.01 … 1e4
  std::optional<double> measured_power;    ///< electric, heaviest steady running [W] 1 … 1e7
  std::optional<double> measured_torque;   ///< at the driven shaft [N m] 0 … 1e7
  std::optional<double> load_share;        ///< of the rated torque, when nothing was measured 0.05 … 1.5, default 1
  std::optional<double> speed;             ///< of the driven shaft [rad/s] 0.001 … 700; required
  std::optional<double> train_efficiency;  ///< present gear and belt, motor to driven shaft 0.2 … 1, default 0.9
  std::optional<double> start_factor;      ///< 0.5 … 6, default 1.8
  std::optional<double> run_up_time;  ///< direct on line to full speed [s] 0.05 … 120, default 1; for the inertia
  std::optional<Feed> feed;           ///< evenness of the load, default uneven
  std::optional<bool> can_run_back;   ///< whether the load can turn it back; default yes
  std::optional<Coefficient> train;  ///< what is known of the present train's kind, where nobody states its efficiency;
                                     ///< no field, the enquiry's own drive in service says it

  static constexpr MachineInfo kInfo{"measured", "Measured drive",
                                     "Any machine, from amps, kW or torque measured on the drive that stands there."};
};

[[nodiscard]] Result<Demand> compute(const MeasuredDrive& drive);

}  // namespace lobewise::demand
