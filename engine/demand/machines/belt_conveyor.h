#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Belt conveyor for bulk material, level, rising or falling, one drive drum.
/// Resistances: ISO 5048:1989 / DIN 22101 structure F_U = C f L g [q_RO + q_RU + (2 q_B + q_G) cos d] + q_G H g + F_S
/// (main term read in an IS 11592:2000 work sheet, the rest from memory), SI throughout.
struct BeltConveyor {
  std::optional<double> mass_flow;  ///< [kg/s] 0 … 5000, required
  std::optional<double> speed;      ///< belt [m/s] 0.01 … 12, required
  std::optional<double> length;     ///< centre distance of the end drums [m] 1 … 20000, required
  std::optional<double> lift;       ///< discharge above feed point, negative when falling [m] -1000 … 1000, required
  std::optional<double> drum_diameter;  ///< drive drum over lagging [m] 0.05 … 3, required
  std::optional<double> belt_width;  ///< [m] 0.2 … 3.2, default 0.8; only used to estimate masses that are not given
  std::optional<double> belt_mass;   ///< one strand [kg/m] 0 … 200, default 13 kg/m per metre of width
  std::optional<double> carrying_idler_mass;  ///< rotating, per metre of carrying strand [kg/m] 0 … 100, default 17
                                              ///< kg/m per metre of width
  std::optional<double>
      return_idler_mass;  ///< rotating, per metre of return strand [kg/m] 0 … 60, default 6.5 kg/m per metre of width
  std::optional<double> friction;            ///< artificial friction f 0.008 … 0.1, default 0.022
  std::optional<double> length_coefficient;  ///< C 1 … 12, default by length
  std::optional<double> special_resistance;  ///< skirts, scrapers, ploughs [N] 0 … 1e6, default 300
  std::optional<double> friction_force;  ///< all resistance but lift, when measured or given as one figure [N] 0 … 1e7
  std::optional<double> breakaway_factor;  ///< friction at start over running friction 1 … 3, default 1.5
  std::optional<double> wrap_angle;        ///< belt on drive drum [rad] 2 … 8, default pi
  std::optional<double> drum_friction;     ///< belt on drum 0.1 … 0.8, default 0.3
  std::optional<Feed> feed;                ///< default uneven

  static constexpr MachineInfo kInfo{
      "belt_conveyor", "Belt conveyor",
      "Bulk belt on idlers, level, rising or falling. One drive drum; part-loaded humps and hollows are not covered."};
};

/// Length coefficient C of ISO 5048 / DIN 22101 (from memory), interpolated over log(length) [m]; 3 m … 2000 m, ends
/// held.
[[nodiscard]] double length_coefficient(double length);

[[nodiscard]] Result<Demand> compute(const BeltConveyor& belt);

}  // namespace lobewise::demand
