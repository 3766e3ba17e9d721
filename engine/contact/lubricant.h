#pragma once
// Properties of the lubricant: viscosity over temperature, viscosity index, density, and the viscosity a rolling
// bearing asks for. It stands here because life (engine/strength) and friction (engine/losses) both need it and must
// not include each other. Theory, validity and sources: docs/theory/lubricant.md. Plain SI: viscosity m2/s, temperature
// K.
#include "engine/base/formula/term.h"
#include "engine/base/result.h"
#include "engine/base/working.h"

namespace lobewise::contact {

/// Tolerance of an ISO VG grade: viscosity at 40 C over its nominal value. ISO 3448 (read in a public copy of the
/// table).
inline constexpr Coefficient kViscosityGrade{1.0, 0.9, 1.1, "ISO 3448: mid-point viscosity at 40 C +-10 %"};

/// What is assumed of an oil when only its kind is known.
struct BaseOil {
  const char* name;
  Coefficient viscosity_index;
  Coefficient density_15;          ///< at 15 C [kg/m3]
  Coefficient pressure_viscosity;  ///< alpha in eta = eta_0 e^{alpha p} [1/Pa]
};
inline constexpr BaseOil kMineralOil{"mineral oil",
                                     {95, 85, 105, "common practice, no source"},
                                     {890, 870, 900, "common practice, no source"},
                                     {2.0e-8, 1.5e-8, 2.4e-8, "common practice, no source"}};
inline constexpr BaseOil kPolyalphaolefin{"synthetic hydrocarbon (PAO)",
                                          {150, 130, 170, "common practice, no source"},
                                          {850, 830, 870, "common practice, no source; range +-20 from memory"},
                                          {1.4e-8, 1.1e-8, 1.7e-8, "common practice, no source; range from memory"}};
inline constexpr BaseOil kPolyglycol{"polyglycol (PAG)",
                                     {220, 180, 240, "common practice, no source"},
                                     {1040, 1000, 1080, "common practice, no source; range from memory"},
                                     {1.2e-8, 0.9e-8, 1.6e-8, "from memory"}};

/// lg lg(nu/(mm2/s) + 0.7) = A - B lg(T/K): a straight line through two known viscosities.
struct ViscosityCurve {
  double a = 0;
  double b = 0;
};

/// Temperatures at which an oil's viscosity is given [K].
inline constexpr double kGiven40 = 313.15, kGiven100 = 373.15;

/// lg lg(nu/(mm2/s) + 0.7).
template <class X>
[[nodiscard]] X double_logarithm(const X& nu) {
  using namespace formula;
  return lg(lg(nu * X(1e6) + X(0.7)));
}
/// Slope B of the curve through (40 C, nu_40) and (100 C, nu_100).
template <class X>
[[nodiscard]] X curve_slope(const X& nu_40, const X& nu_100) {
  using namespace formula;
  return (double_logarithm(nu_40) - double_logarithm(nu_100)) / (lg(X(kGiven100)) - lg(X(kGiven40)));
}
/// Its height A.
template <class X>
[[nodiscard]] X curve_height(const X& nu_40, const X& slope) {
  using namespace formula;
  return double_logarithm(nu_40) + slope * lg(X(kGiven40));
}
/// Viscosity on a curve [m2/s], see `kinematic_viscosity`.
template <class X>
[[nodiscard]] X viscosity_on(const X& height, const X& slope, const X& temperature) {
  using namespace formula;
  const X y = named("Y", "viscosity on the straight line, mm2/s", Quantity::number,
                    pow(X(10), pow(X(10), height - slope * lg(temperature))) - X(0.7), "[astm_d341]");
  return choose(
      less_or_equal(X(2), y), [&] { return y * X(1e-6); },
      [&] { return (y - exp(X(-0.7487) + y * (X(-3.295) + y * (X(0.6119) - X(0.3193) * y)))) * X(1e-6); });
}

/// The curve through (40 C, nu_40) and (100 C, nu_100).
/// Precondition: nu_40 > nu_100 > 0.3 mm2/s. Source: ASTM D341 (equation read in public source code).
[[nodiscard]] ViscosityCurve viscosity_curve(double nu_40, double nu_100);

/// Kinematic viscosity at `temperature` [m2/s]. Below 2 mm2/s the correction of ASTM D341 applies (from memory):
/// nu = Y - exp(-0.7487 - 3.295 Y + 0.6119 Y^2 - 0.3193 Y^3), Y = the uncorrected value in mm2/s; at 2 mm2/s it is 0.03
/// %. Precondition: temperature within about 230..470 K, where the oil is neither wax nor vapour (not checked).
[[nodiscard]] double kinematic_viscosity(const ViscosityCurve& curve, double temperature);
/// As above, in one call.
[[nodiscard]] double kinematic_viscosity(double nu_40, double nu_100, double temperature);

/// How fast it falls: b = -d ln(nu)/dT = B (1 + 0.7/nu) ln(nu + 0.7)/T, nu in mm2/s [1/K]. Source: derived from the
/// curve; the correction below 2 mm2/s and the fall of density (6.5e-4 1/K) are left out.
/// Preconditions as `kinematic_viscosity`, above 2 mm2/s.
[[nodiscard]] double viscosity_fall(const ViscosityCurve& curve, double temperature);

/// Viscosity index. U = nu_40, Y = nu_100 in mm2/s, L(Y), H(Y) piecewise quadratic.
/// U >= H: 100 (L-U)/(L-H); else 100 + (10^n - 1)/0.00715, n = (lg H - lg U)/lg Y.
/// Precondition: nu_100 >= 2 mm2/s, nu_40 > nu_100. Source: ASTM D2270; coefficients from memory, checked by continuity
/// (0.1 %, one seam 0.2 %) and by the standard's two worked examples (tests/reference/lubricant).
[[nodiscard]] double viscosity_index(double nu_40, double nu_100);

/// Row of the index' table: L = a Y^2 + b Y + c and H = d Y^2 + e Y + f up to Y = `end`.
struct IndexRow {
  double end, a, b, c, d, e, f;
};
/// The row that holds at a viscosity at 100 C.
[[nodiscard]] const IndexRow& index_row(double nu_100);
/// Viscosity index by a row of its table.
template <class X>
[[nodiscard]] X index_by_row(const X& nu_40, const X& nu_100, const IndexRow& row) {
  using namespace formula;
  const X u = nu_40 * X(1e6), y = nu_100 * X(1e6);
  const X low = (X(row.a) * y + X(row.b)) * y + X(row.c), high = (X(row.d) * y + X(row.e)) * y + X(row.f);
  return choose(
      less_or_equal(high, u), [&] { return X(100) * (low - u) / (low - high); },
      [&] { return X(100) + (pow(X(10), lg(high / u) / lg(y)) - X(1)) / X(0.00715); });
}

/// nu_100 that gives this viscosity index, by bisection on `viscosity_index` [m2/s].
/// Error (model): no viscosity at 100 C between 2 mm2/s and nu_40 gives that index.
[[nodiscard]] Result<double> nu_100_from_index(double nu_40, double index);

/// rho(T) = rho_15 (1 - 6.5e-4 (T - 288.15)) [kg/m3]. Source: common practice, no source.
template <class X>
[[nodiscard]] X density_at(const X& density_15, const X& temperature) {
  return density_15 * (X(1) - X(6.5e-4) * (temperature - X(288.15)));
}
[[nodiscard]] inline double oil_density(double density_15, double temperature) {
  return density_at<double>(density_15, temperature);
}

/// Reference viscosity nu_1 of a rolling bearing [m2/s]; n in 1/min, D_pw in mm, nu_1 in mm2/s:
/// 45000 n^-0.83 D_pw^-0.5 for n < 1000, 4500 n^-0.5 D_pw^-0.5 from 1000 on (the branches differ by 2.3 % at 1000).
/// @param speed           relative speed of the rings [rad/s] > 0
/// @param pitch_diameter  D_pw [m] > 0
/// Source: ISO 281:2007, reference viscosity, as quoted in public source code.
template <class X>
[[nodiscard]] X reference_viscosity_of(const X& speed, const X& pitch_diameter) {
  using namespace formula;
  const X n = speed * X(30) / pi<X>();
  // 1000 1/min written in rad/s must fall on the upper branch whatever its last digit.
  return choose(
             less(n, X(1000 * (1 - 1e-12))), [&] { return X(45000) * pow(n, X(-0.83)); },
             [&] { return X(4500) / sqrt(n); }) /
         sqrt(pitch_diameter * X(1e3)) * X(1e-6);
}
[[nodiscard]] double reference_viscosity(double speed, double pitch_diameter);
/// kappa = nu / nu_1. Preconditions and source as `reference_viscosity`.
[[nodiscard]] double viscosity_ratio(double nu, double speed, double pitch_diameter);

/// Speed factor n d_m [mm/min] of a bearing, the measure for grease. Source: read in a public text on grease selection.
template <class X>
[[nodiscard]] X speed_factor_of(const X& speed, const X& mean_diameter) {
  return speed * X(30) / formula::pi<X>() * mean_diameter * X(1e3);
}
[[nodiscard]] double speed_factor(double speed, double mean_diameter);
/// Speed factor up to which grease is usual in roller bearings [mm/min]: warn beyond, do not refuse.
inline constexpr double kGreaseSpeedFactorRoller = 3e5;  ///< common practice, no source

}  // namespace lobewise::contact
