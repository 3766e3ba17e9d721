#pragma once
// How thick the oil stands in the line contacts of a stage.

#include "engine/drive/drive.h"

namespace lobewise::drive {

/// The oil between two surfaces.
struct FilmOil {
  double eta = 0;                 ///< [Pa s]
  double pressure_viscosity = 0;  ///< alpha [1/Pa]
};

/// Lambda: film at the most heavily pressed lobe over the roughness of lobe and roller [-]. Radius and surface speeds
/// are those of the hardest contact at the nearest solved torque, the load is that of the torque itself.
/// @param torque       that the discs of the stage share alike [N m] > 0
/// @param input_speed  of the stage [rad/s] > 0
/// Sources: `contact::line_film`, `contact::hardest_lobe_contact`; docs/theory/lubricant.md.
[[nodiscard]] double lobe_film_ratio(const range::Stage& stage, const StageTable& table, double torque,
                                     double input_speed, const FilmOil& oil);

/// The same between an output roller and its hole, under the largest force. The contact goes round both once a relative
/// turn of crank and disc: a roller that turns rolls with r_h w Z/N on either side, a pin that stands fast has r_w w
/// Z/N on its own. Source: derived, docs/theory/lubricant.md.
[[nodiscard]] double pin_film_ratio(const range::Stage& stage, const StageTable& table, double torque,
                                    double input_speed, const FilmOil& oil);

/// Lambda at the lobes of the last stage at full load.
/// @param oil_temperature  [K]
[[nodiscard]] double lobe_film_ratio(const Drive& drive, double oil_temperature, const Coefficients& c);

}  // namespace lobewise::drive
