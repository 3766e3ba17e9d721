#pragma once
// Heat from a surface to the air around it.

namespace lobewise::heat {

/// Rayleigh number of a surface in air: Ra = g |Ts - Ta| L^3 Pr / (T_f nu^2), the expansion of a perfect gas 1/T_f.
/// @param temperature_difference  |Ts - Ta| [K]
/// @param length                  L: diameter of a cylinder, height of a plate [m]
/// @param film_temperature        T_f = (Ts + Ta) / 2 [K]
/// @param viscosity, prandtl      nu [m2/s], Pr of the air at T_f
[[nodiscard]] double rayleigh(double temperature_difference, double length, double film_temperature, double viscosity,
                              double prandtl);

/// Natural convection, horizontal cylinder: Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}^2.
/// @param rayleigh  on the diameter, 1e-5..1e12
/// Source: S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1049-1053, form read in public source
/// code. Checked by: tests/reference/heat/convection_test.cc.
[[nodiscard]] double nusselt_cylinder(double rayleigh, double prandtl);

/// Natural convection, vertical plate, all Ra: Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}^2.
/// @param rayleigh  on the height, 0.1..1e12
/// Source: S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323-1329, form read in public source
/// code. Checked by: tests/reference/heat/convection_test.cc.
[[nodiscard]] double nusselt_plate(double rayleigh, double prandtl);

/// Forced convection across a cylinder:
///   Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3) / [1 + (0.4/Pr)^(2/3)]^(1/4) [1 + (Re/282000)^(5/8)]^(4/5)
/// @param reynolds  v D / nu; Re Pr > 0.2
/// Source: S. W. Churchill, M. Bernstein, J. Heat Transfer 99 (1977) 300-306, form read in public source code.
/// Checked by: tests/reference/heat/convection_test.cc.
[[nodiscard]] double nusselt_crossflow(double reynolds, double prandtl);

struct Convection {
  double natural = 0;   ///< coefficient of natural convection alone [W/(m2 K)]
  double forced = 0;    ///< of the air stream alone; 0 in still air
  double combined = 0;  ///< (natural^3 + forced^3)^(1/3)
};

/// Housing, seen as a horizontal cylinder, to air; properties at the film temperature.
/// @param diameter             D > 0 [m]
/// @param surface_temperature  Ts [K]
/// @param air_temperature      Ta [K]
/// @param air_speed            v >= 0 across the housing [m/s]
/// @param altitude             [m]
/// Combination Nu^3 = Nu_natural^3 + Nu_forced^3 (assisting flow): common practice, no source.
[[nodiscard]] Convection convection(double diameter, double surface_temperature, double air_temperature,
                                    double air_speed, double altitude);

/// Net radiation of a grey surface to large surroundings: P = eps sigma A (Ts^4 - Ta^4) [W].
/// @param area        A >= 0, without fins: they see each other [m2]
/// @param emissivity  eps 0..1
/// Source: Stefan-Boltzmann law, CODATA constant.
[[nodiscard]] double radiation(double area, double emissivity, double surface_temperature,
                               double surroundings_temperature);

/// Heat taken up in the sun: P = alpha G A [W].
/// @param absorptivity    alpha 0..1, 0.3 white to 0.9 dark
/// @param irradiance      G [W/m2]
/// @param projected_area  A, shadow of the housing [m2]
[[nodiscard]] double sun(double absorptivity, double irradiance, double projected_area);

}  // namespace lobewise::heat
