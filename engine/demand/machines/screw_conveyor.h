#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Trough screw conveyor, level to 20 degrees of rise. P = g Q (lambda L + H) + 50 W/m2 D L, the ISO 7119 form in SI
/// (P[kW] = Q (lambda L + H) / 367 + D L / 20 with t/h and m); the US form stands beside it where its factors are
/// given.
struct ScrewConveyor {
  std::optional<double> mass_flow;            ///< [kg/s] 0 … 1000, required
  std::optional<double> length;               ///< conveying length [m] 0.3 … 100, required
  std::optional<double> lift;                 ///< [m] -10 … 35, required (0 when level)
  std::optional<double> diameter;             ///< of the screw [m] 0.05 … 2, required
  std::optional<double> speed;                ///< [rad/s] 0.1 … 60, required
  std::optional<double> progress_resistance;  ///< lambda 1 … 8, default 3
  std::optional<double> start_factor;         ///< packed screw at start over running 1 … 5, default 2
  std::optional<double>
      screw_mass;  ///< flights and pipe per metre [kg/m] 1 … 500, default 70 kg/m per metre of diameter
  std::optional<double> density;  ///< bulk [kg/m3] 50 … 5000; for the filling degree and the US form
  std::optional<double> pitch;    ///< [m] 0.02 … 3, default the diameter
  std::optional<double>
      material_factor;       ///< Fm of the US form 0.2 … 6; the US form is worked only when it and density are given
  std::optional<Feed> feed;  ///< default uneven

  static constexpr MachineInfo kInfo{
      "screw_conveyor", "Screw conveyor",
      "Trough screw for bulk material up to 20 degrees of rise. Steep and vertical screws need trials."};
};

/// Volume conveyed, pi/4 D^2 s n fill [m3/s]; diameter and pitch [m], speed [rad/s], fill 0 … 1. Derived.
[[nodiscard]] double screw_volume_flow(double diameter, double pitch, double speed, double fill);

/// Factors of the US form (CEMA 350, from memory).
struct UsScrewFactors {
  double bearing =
      1.7;  ///< Fb: ball 1.0, bronze, wood or plastic 1.7, self-lubricating plastic 2.0, hard iron 3.4 … 4.4
  double flight = 1.0;    ///< Ff
  double paddle = 1.0;    ///< Fp
  double material = 1.0;  ///< Fm
};
struct UsScrewPower {
  double friction = 0, material = 0;  ///< [W] empty running; moving the material
  double overload_factor = 1;         ///< Fo by the sum of both
  [[nodiscard]] double shaft() const {
    return (friction + material) * overload_factor;
  }  ///< [W] before the drive's efficiency
};
/// HPf = L N Fd Fb / 1e6, HPm = C L W Ff Fm Fp / 1e6, HP = (HPf + HPm) Fo. SI in and out: length, diameter [m], speed
/// [rad/s], volume flow [m3/s], bulk density [kg/m3]. Level screws only.
[[nodiscard]] UsScrewPower us_screw_power(double length, double diameter, double speed, double volume_flow,
                                          double density, const UsScrewFactors& factors);

[[nodiscard]] Result<Demand> compute(const ScrewConveyor& screw);

}  // namespace lobewise::demand
