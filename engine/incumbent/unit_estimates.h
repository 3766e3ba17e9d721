#pragma once
// Losses, size, mass and temperature of the unit in service. Rough by nature: every coefficient carries a range.

#include <optional>

#include "engine/incumbent/gear_unit.h"

namespace lobewise::incumbent {

/// Oil of ISO VG 220 at 60 (40 … 80) degC, m2/s.
inline constexpr Coefficient kUsualViscosity = {85e-6, 35e-6, 220e-6,
                                                "ISO 3448 grade over temperature, VI 95; common practice"};

/// Share of the power lost in the teeth of one pair: mu H_v,
/// H_v = pi (u ± 1) / (z1 u cos beta_b) (1 - eps_alpha + eps_1^2 + eps_2^2) (Ohlendorf),
/// mu = 0.048 (F_bt/b / (v_sumC rho_redC))^0.2 eta^-0.05 Ra^0.25 (Schlenk; N/mm, m/s, mm, mPa s, um), F_bt/b >= 150
/// N/mm, Ra 0.6 um. Both as in ISO/TR 14179-2, from memory.
/// @param tangential  F_t, N;  @param pinion_speed  rad/s;  @param viscosity  m2/s
[[nodiscard]] double tooth_loss_share(const PairGeometry& geometry, double tangential, double pinion_speed,
                                      double viscosity);

/// Fills losses, efficiency, loss_power, output_power.
void estimate_losses(GearUnit& unit, const UnitDuty& duty);
/// Fills length, width, height, output_shaft_diameter and mass; a stated mass wins.
void estimate_housing(GearUnit& unit, std::optional<double> stated_mass);
/// Torque a unit was made for: plate, power of the plate at the output speed, else T2 f_s, with the assumption [N m].
[[nodiscard]] double design_torque(const UnitInService& unit, const UnitDuty& duty,
                                   std::vector<Assumption>& assumptions);
/// Output shaft made for a torque, torsion 30 MPa (common practice, no source) [m].
[[nodiscard]] double shaft_diameter_for(double design_torque);
/// Fills output power, efficiency and loss_power from `losses`, the torque it was made for and the working load.
void total_losses(GearUnit& unit, const UnitDuty& duty);

}  // namespace lobewise::incumbent
