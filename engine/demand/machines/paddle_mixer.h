#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

enum class Batch { free_powder, moist_grain, paste, dough, stiff_plastic };

/// Paddle mixer or kneader: power by volume of the batch, which only experience or a trial gives.
struct PaddleMixer {
  std::optional<Batch> batch;            ///< required unless specific_power is given
  std::optional<double> volume;          ///< of the batch [m3] 0.0005 … 100, required
  std::optional<double> density;         ///< of the batch [kg/m3] 100 … 4000, default 1000
  std::optional<double> speed;           ///< of the mixer shaft [rad/s] 0.05 … 60, required
  std::optional<double> rotor_diameter;  ///< over the paddles [m] 0.05 … 5, required
  std::optional<double> specific_power;  ///< at the worst moment of the batch [W/m3] 100 … 2e6, default by batch
  std::optional<double> start_factor;    ///< 1 … 5, default 1.8

  std::optional<bool> reducer_carries_shaft;  ///< no: the shaft has bearings of its own behind a coupling
  std::optional<double> side_force;           ///< of the batch on the paddles [N] 0 … 1e7
  std::optional<double> side_position;        ///< where it acts, from the reducer's shaft shoulder [m] 0 … 20
  std::optional<double> thrust;               ///< along the shaft [N] 0 … 1e7

  static constexpr MachineInfo kInfo{
      "paddle_mixer", "Paddle mixer or kneader",
      "Horizontal or vertical mixer for powder, paste or dough; torque by power per volume."};
};

[[nodiscard]] Result<Demand> compute(const PaddleMixer& mixer);

}  // namespace lobewise::demand
