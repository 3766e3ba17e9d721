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

/// Volume that a full screw conveys, pi/4 D^2 s n [m3/s]; diameter and pitch [m], speed [rad/s]. Derived.
template <class X>
[[nodiscard]] X screw_volume_flow(const X& diameter, const X& pitch, const X& speed) {
  using namespace formula;
  return pi<X>() / 4.0 * pow(diameter, 2.0) * pitch * speed / (2.0 * pi<X>());
}

inline constexpr const char* kCema = "CEMA 350 form, from memory";

/// Factors of the US form (CEMA 350, from memory).
struct UsScrewFactors {
  double bearing =
      1.7;  ///< Fb: ball 1.0, bronze, wood or plastic 1.7, self-lubricating plastic 2.0, hard iron 3.4 … 4.4
  double flight = 1.0;    ///< Ff
  double paddle = 1.0;    ///< Fp
  double material = 1.0;  ///< Fm
};
template <class X>
struct UsScrewPower {
  X friction, material;  ///< [W] empty running; moving the material
  X overload_factor;     ///< Fo by the sum of both
  [[nodiscard]] X shaft() const {
    return (friction + material) * overload_factor;
  }  ///< [W] before the drive's
     ///< efficiency
};

/// Rows of the diameter factor Fd on both sides of a screw [in] (CEMA 350, from memory).
struct UsDiameterRows {
  double below, above, factor_below, factor_above;
};
[[nodiscard]] UsDiameterRows us_diameter_rows(double inches);

/// HPf = L N Fd Fb / 1e6, HPm = C L W Ff Fm Fp / 1e6, HP = (HPf + HPm) Fo. SI in and out: length, diameter [m], speed
/// [rad/s], volume flow [m3/s], bulk density [kg/m3]. Level screws only.
template <class X>
[[nodiscard]] UsScrewPower<X> us_screw_power(const X& length, const X& diameter, const X& speed, const X& volume_flow,
                                             const X& density, const UsScrewFactors& factors) {
  using namespace formula;
  constexpr double kHorsepower = 745.6998715822702, kFoot = 0.3048, kInch = 0.0254, kPound = 0.45359237;
  constexpr double kCubicFoot = kFoot * kFoot * kFoot;
  const UsDiameterRows rows = us_diameter_rows(value(diameter) / kInch);
  const X below = as<X>("d_1", "row below (in)", rows.below), above = as<X>("d_2", "row above (in)", rows.above);
  const X by_diameter = named(
      "F_d", "US form: factor of the diameter, between two rows", Quantity::number,
      lerp(as<X>("F_1", "factor of the row below", rows.factor_below),
           as<X>("F_2", "factor of the row above", rows.factor_above), (diameter / kInch - below) / (above - below)),
      kCema);
  const X bearing = as<X>("F_b", "bearing factor", factors.bearing),
          flight = as<X>("F_f", "flight factor", factors.flight),
          paddle = as<X>("F_p", "paddle factor", factors.paddle),
          material = as<X>("F_m", "material factor", factors.material);
  const X friction =
      named("P_f", "US form: friction of the empty screw", Quantity::power,
            kHorsepower * (length / kFoot) * (speed * 60.0 / (2.0 * pi<X>())) * by_diameter * bearing / 1e6, kCema);
  const X moving = named("P_m", "US form: moving the material", Quantity::power,
                         kHorsepower * (volume_flow * 3600.0 / kCubicFoot) * (length / kFoot) *
                             (density * kCubicFoot / kPound) * flight * material * paddle / 1e6,
                         kCema);
  // Fit of the overload chart between 0.2 and 5.2 hp, from memory; 3.0 below, 1.0 above.
  const X sum = named("N", "US form: sum of both (hp)", Quantity::number, (friction + moving) / kHorsepower, kCema);
  const X overload =
      named("F_o", "US form: overload factor", Quantity::number,
            choose(
                less_or_equal(5.2, sum), [] { return X(1.0); }, [&] { return 2.024 - 0.6115 * ln(max(sum, 0.2)); }),
            kCema);
  return {friction, moving, overload};
}

[[nodiscard]] Result<Demand> compute(const ScrewConveyor& screw);

}  // namespace lobewise::demand
