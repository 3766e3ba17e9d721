#pragma once
// Where a build loses power, at any torque, speed and temperature.

#include <memory>
#include <vector>

#include "engine/contact/lubricant.h"
#include "engine/drive/build.h"
#include "engine/drive/coefficients.h"
#include "engine/drive/stage_table.h"
#include "engine/losses/parts.h"

namespace lobewise::drive {

/// Power lost, by place [W].
struct LossPlaces {
  double lobes = 0;
  double output_pins = 0;
  double eccentric_bearings = 0;
  double input_bearings = 0;
  double output_bearings = 0;
  double seals = 0;
  double oil_drag = 0;
  double roller_drag = 0;  ///< oil in the needles and sleeves of ring and output rollers
  [[nodiscard]] double total() const {
    return lobes + output_pins + eccentric_bearings + input_bearings + output_bearings + seals + oil_drag + roller_drag;
  }
  LossPlaces& operator+=(const LossPlaces& other);
};

/// The oil as the models need it.
struct Oil {
  range::Lubricant fill;
  contact::ViscosityCurve curve;  ///< nominal grade
  double density_15 = 0;          ///< [kg/m3]
  double pressure_viscosity = 0;  ///< [1/Pa]
  double f0_factor = 1;           ///< on the no-load friction of bearings in oil, by how the oil reaches them
  double wetted_share = losses::kWettedShare.nominal;  ///< of the gaps at the discs
  bool exposed = false;                                ///< to water or grit: the place is washed down or dusty
  double viscosity_index = 0, nu_100 = 0;              ///< as the range states it, else usual; what it gives [m2/s]
  [[nodiscard]] bool grease() const { return fill.kind == range::LubricantKind::grease; }
  /// [m2/s] at a temperature, with the factor on the grade.
  [[nodiscard]] double nu(double temperature, double factor) const;
  /// [Pa s]
  [[nodiscard]] double eta(double temperature, double factor) const;
};
/// Errors: no viscosity curve with that index.
[[nodiscard]] Result<Oil> oil_of(const range::Lubricant& fill);

/// One moment of running at the output shaft.
struct Running {
  double torque = 0;                                        ///< > = 0 [N m]
  double speed = 0;                                         ///< > 0 [rad/s]
  double radial_inside = 0, radial_outside = 0, axial = 0;  ///< loads of the output bearings [N]
};

/// What each stage sees in it.
struct StageRunning {
  double torque = 0;       ///< at the stage's output [N m]
  double input_speed = 0;  ///< [rad/s]
  LossPlaces losses;
};

struct RunningLosses {
  std::vector<StageRunning> stages;  ///< from input to output
  LossPlaces places;                 ///< of all
  double output_power = 0;           ///< [W]
  double input_torque = 0;           ///< [N m]
  [[nodiscard]] double input_power() const { return output_power + places.total(); }
  [[nodiscard]] double efficiency() const { return output_power / input_power(); }
};

/// Losses of a build at an oil temperature. The last stage is solved first, its losses load the stage before it.
/// @param tables  one per stage of the build
/// Source: docs/theory/losses.md. First order: friction forces do not change the mesh forces.
[[nodiscard]] RunningLosses running_losses(const Build& build,
                                           const std::vector<std::shared_ptr<const StageTable>>& tables, const Oil& oil,
                                           const Running& running, double oil_temperature,
                                           const Coefficients& coefficients);

/// Share of an eccentric bearing's force that reaches each of the two input bearings: one disc 1/2; opposed discs give
/// a couple B s over the span of the input bearings, s from the near to the far disc; three discs 0.866 of that.
/// Source: derived, docs/theory/rating.md.
[[nodiscard]] double input_bearing_share(const range::Stage& stage);

/// f_0 of a bearing in a lubricant, as that reaches it.
[[nodiscard]] double no_load_factor(const range::Bearing& bearing, const Oil& oil);

/// Friction factors of a kind of bearing.
[[nodiscard]] const losses::BearingFriction& friction_of(range::BearingKind kind);

}  // namespace lobewise::drive
