#pragma once
// What carries the losses away: oil to housing, housing to air, surroundings and foundation.
#include <optional>

#include "engine/base/constants.h"
#include "engine/base/working.h"

namespace lobewise::heat {

inline constexpr Coefficient kEmissivityPainted{0.90, 0.85, 0.95, "common practice, no source: painted surface"};
/// Multiplies convection only: fins enlarge the wetted surface but see each other in radiation.
inline constexpr Coefficient kFinFactor{1.4, 1.0, 1.8, "common practice, no source"};
/// Air speed across a housing in an enclosed space [m/s].
inline constexpr Coefficient kAirSpeedEnclosed{0.3, 0.0, 0.5, "common practice, no source"};
/// Air speed behind the motor's own fan [m/s].
inline constexpr Coefficient kAirSpeedMotorFan{1.5, 0.5, 4.0, "common practice, no source"};
/// Oil and internals to housing [W/K].
inline constexpr Coefficient kOilConductance{30, 15, 60,
                                             "common practice, no source: about 200 W/(m2 K) of wetted wall"};
/// Housing to motor flange or foundation [W/K].
inline constexpr Coefficient kFlangeConductance{4, 0, 10, "common practice, no source"};
/// Share of sunlight taken up, white to dark paint.
inline constexpr Coefficient kSunAbsorptivity{0.6, 0.3, 0.9, "common practice, no source"};
/// Full sun [W/m2].
inline constexpr Coefficient kSunIrradiance{1000, 0, 1100, "common practice, no source"};
/// A layer of dust over the whole outer surface [m2 K/W]: 3 mm (0.5 … 10 mm) of loose dust of 0.1 W/(m K).
inline constexpr Coefficient kDustLayer{0.03, 0.005, 0.1, "common practice, no source: 3 mm of loose dust"};
/// What is left of what fins add when dust fills them.
inline constexpr double kDustyFins = 0.5;  ///< common practice, no source
/// Rise of a motor's flange over its surroundings at its rated load [K]: the frame of a fan-cooled motor of insulation
/// class F, used to class B.
inline constexpr Coefficient kMotorFlangeRise{40, 25, 60, "common practice, no source: frame of a motor at rated load"};
/// Share of the conductance to flange and base that leads into the motor, the rest into the base.
inline constexpr Coefficient kMotorShare{0.5, 0.3, 0.8, "common practice, no source: flange against feet"};
/// Specific heats [J/(kg K)] for the capacities of the two nodes.
inline constexpr Coefficient kHeatOfOil{1900, 1800, 2100, "from memory: mineral oil at 40 degC"};
inline constexpr Coefficient kHeatOfSteel{480, 460, 500, "from memory: steel"};

/// Temperatures the lubricant or the seals are kept below [K]; common practice, no source.
inline constexpr double kLimitOil = kZeroCelsius + 90;
inline constexpr double kLimitGrease = kZeroCelsius + 80;
inline constexpr double kLimitNitrileSeal = kZeroCelsius + 100;

/// Lip of a shaft seal over the lubricant, the hottest surface of a reducer [K].
inline constexpr Coefficient kSealLip{20, 10, 40, "common practice, no source: seal lip over the lubricant"};

/// The reducer as two nodes, oil with internals and housing, in its surroundings. All values SI; temperatures in K.
struct Housing {
  double diameter = 0;  ///< of the cylinder that stands for it, > 0 [m]
  double area = 0;      ///< outer surface without fins, >= 0 [m2]
  double emissivity = kEmissivityPainted.nominal;
  double ambient_temperature = 0;                          ///< of air and surroundings [K]
  double air_speed = 0;                                    ///< across the housing, >= 0 [m/s]
  double altitude = 0;                                     ///< [m]
  double oil_conductance = kOilConductance.nominal;        ///< oil to housing, > 0 [W/K]
  double flange_conductance = kFlangeConductance.nominal;  ///< housing to flange or foundation, >= 0 [W/K]
  std::optional<double> flange_temperature;                ///< of motor flange or foundation; ambient when empty [K]
  double fin_factor = kFinFactor.nominal;                  ///< on convection, >= 0
  double dust_resistance = 0;                              ///< of a layer over the outer surface, >= 0 [m2 K/W]
  double sun_power = 0;                                    ///< taken up in the sun [W]
  double oil_capacity = 0;                                 ///< of oil and internals, needed for transients, > 0 [J/K]
  double housing_capacity = 0;                             ///< needed for transients, > 0 [J/K]
};

/// Where the heat of the housing goes [W]; negative where it comes in.
struct HeatFlow {
  double convection = 0;  ///< fin_factor h A (Ts - Ta)
  double radiation = 0;
  double flange = 0;  ///< negative when the motor flange is hotter than the housing
  double sun = 0;     ///< taken up, >= 0
  [[nodiscard]] double net() const { return convection + radiation + flange - sun; }
};

/// One temperature in place of base and motor, which draw through parts of one conductance:
///   T_f = T_a + q dT_m x
/// @param ambient  of air and base [K]  @param share  q of the conductance that leads into the motor
/// @param rise     dT_m of the motor's flange at rated load [K]
/// @param losses   x of the motor over those at its rating
/// Derived: G_b (T_s - T_a) + G_m (T_s - T_a - dT_m x) = G (T_s - T_f) with G_m = q G, G = G_b + G_m. Exact.
/// Checked by: tests/unit/heat/flange_test.cc.
template <class X>
[[nodiscard]] X counterpart_temperature(const X& ambient, const X& share, const X& rise, const X& losses) {
  return ambient + share * rise * losses;
}

/// Heat that leaves a housing at temperature `housing_temperature` [K]. A layer of dust stands in series with
/// convection and radiation: A (T_s - T_d)/R = Q(T_d) at its own surface T_d, solved to 1e-9 K.
[[nodiscard]] HeatFlow heat_flow(const Housing& housing, double housing_temperature);

/// Temperature of flange or foundation: given, else ambient [K].
[[nodiscard]] inline double flange_temperature(const Housing& housing) {
  return housing.flange_temperature.value_or(housing.ambient_temperature);
}

}  // namespace lobewise::heat
