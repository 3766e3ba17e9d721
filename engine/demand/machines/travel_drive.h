#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

enum class Wheel { steel_on_rail, plastic_tyre, rubber_tyre };

/// Travel drive of a crane, trolley, transfer car or stacker. F = m g (w cos a + sin a) + wind, shared by the drives.
/// Derived.
struct TravelDrive {
  std::optional<bool> carries_people;        ///< default unknown: asked
  std::optional<Wheel> wheel;                ///< default steel on rail
  std::optional<double> mass;                ///< vehicle and load [kg] 1 … 1e7, required
  std::optional<double> speed;               ///< [m/s] 0.001 … 15, required
  std::optional<double> wheel_diameter;      ///< [m] 0.03 … 2, required
  std::optional<double> rolling_resistance;  ///< with flanges and bearings, over weight 0.002 … 0.2, default by wheel
  std::optional<double> slope;               ///< steepest upward [rad] 0 … 0.5, default level
  std::optional<double> wind_force;          ///< in service [N] 0 … 1e7, default none
  std::optional<double> drives;              ///< sharing the work 1 … 32, default 1
  std::optional<double> driven_share;        ///< share of the weight on driven wheels 0.05 … 1, default 0.5
  std::optional<double> adhesion;            ///< wheel on its track 0.03 … 1, default by wheel
  std::optional<double> start_time;          ///< [s] 0.1 … 120, default 4
  std::optional<double> breakaway_factor;    ///< 1 … 4, default 1.5

  static constexpr MachineInfo kInfo{"travel_drive", "Travel drive",
                                     "Rail or floor vehicle on driven wheels; the figures are for one drive."};
};

[[nodiscard]] Result<Demand> compute(const TravelDrive& drive);

}  // namespace lobewise::demand
