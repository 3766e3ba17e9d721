#pragma once
// Losses of one stage by place. `StageLossModel` is prepared once from the mesh forces; `stage_losses` then answers for
// any speed, oil and set of coefficients in microseconds and allocates nothing. Theory: docs/theory/losses.md. SI.
#include <vector>

#include "engine/contact/cycle_forces.h"
#include "engine/contact/film.h"
#include "engine/losses/mesh_loss.h"
#include "engine/losses/parts.h"

namespace lobewise::losses {

/// How a ring roller or an output sleeve stands on its pin.
enum class Mount {
  plain,   ///< turns on a plain pin
  needle,  ///< turns on needle rollers
  fixed,   ///< does not turn: slides on the lobe or in the hole
};

/// Which part stands still. Relative speeds inside the stage are N/Z as large per input turn when the carrier does.
enum class Held { ring, carrier };

/// Rollers or sleeves of one disc under one set of forces.
struct SlidingPair {
  Mount mount = Mount::plain;
  double inner_over_outer = 0;  ///< r_b/r; not used when fixed
  SlidingSums sums;
  contact::HardContact hardest;  ///< where the film decides mu_outer
};

struct LoadedBearing {
  BearingDrag drag;
  double load = 0;         ///< P_1 [N]
  double speed_share = 1;  ///< relative speed of its rings over input speed: 1, 1/N …
};
struct ShaftSeal {
  double diameter = 0;     ///< [m]
  double speed_share = 1;  ///< shaft speed over input speed
};
/// A part that dips into the oil.
struct DippingPart {
  double speed_share = 1;
  double radius = 0;       ///< [m]
  double chord = 0;        ///< immersed chord [m]
  double wetted_area = 0;  ///< [m2]
};

struct StageLossModel {
  int discs = 2;
  double mesh_share = 1;             ///< crank against ring over input speed: 1, or N/Z with the carrier held
  double modulus_pair = 0;           ///< E' = E/(1 - nu^2) [Pa]
  double eccentricity = 0;           ///< e [m]
  double eccentric_speed_share = 1;  ///< disc against eccentric, per speed of the crank against the ring: Z/N
  SlidingPair lobes, pins;
  BearingDrag eccentric;
  double eccentric_load = 0;  ///< mean |B| of one disc [N]
  std::vector<LoadedBearing> input_bearings, output_bearings;
  std::vector<ShaftSeal> seals;
  std::vector<DippingPart> dipping;
  double gap_area = 0;  ///< sum of the areas of the gaps beside the discs [m2]
  double gap = kDiscGap;
};

struct StageDesign {
  Mount ring_mount = Mount::plain;
  double ring_bore_radius = 0;  ///< r_b of the ring roller [m]; not used when fixed
  Mount pin_mount = Mount::plain;
  double pin_bore_radius = 0;  ///< r_b of the output sleeve [m]; not used when fixed
  Held held = Held::ring;
  BearingDrag eccentric;
  contact::Elastic material;
};
/// The part of the model that comes from the mesh: everything but shaft bearings, seals, dipping parts and gaps.
[[nodiscard]] StageLossModel prepare(const mechanism::StageGeometry& stage, const contact::CycleForces& forces,
                                     const StageDesign& design);

/// One set of coefficients: nominal, or a sample of their ranges.
struct LossCoefficients {
  SleeveCurve sleeve;
  MixedCurve mixed;
  double needle = kNeedleFriction.nominal;
  double f0_factor = 1, f1_factor = 1;  ///< on the listed f0, f1 (0.6-1.6, 0.7-1.4)
  double seal_factor = kSealFactor.nominal;
  double drag_factor = kDragFactor.nominal;
  double wetted_share = kWettedShare.nominal;
};

struct OperatingPoint {
  double input_speed = 0;         ///< w_in > 0 [rad/s]
  double oil_temperature = 0;     ///< [K]
  double nu_40 = 0;               ///< of the oil (grease: base oil) [m2/s]
  double nu = 0;                  ///< at the oil temperature [m2/s]
  double density = 0;             ///< at the oil temperature [kg/m3]
  double pressure_viscosity = 0;  ///< alpha [1/Pa]
  double roughness = contact::kGroundRoughness.nominal;
};

/// Power lost at each place [W].
struct StageLosses {
  double ring_rollers = 0;
  double output_pins = 0;
  double eccentric_bearings = 0;
  double input_bearings = 0;
  double output_bearings = 0;
  double seals = 0;
  double oil_drag = 0;
  double churning = 0;
  double no_load = 0;  ///< part of the sum that stays without torque (M_0 of the bearings, seals, oil)

  [[nodiscard]] double total() const {
    return ring_rollers + output_pins + eccentric_bearings + input_bearings + output_bearings + seals + oil_drag +
           churning;
  }
  /// P_out/(P_out + total), 0 without output power.
  [[nodiscard]] double efficiency(double output_power) const { return output_power / (output_power + total()); }
};

/// Losses at an operating point. First order: forces without friction.
[[nodiscard]] StageLosses stage_losses(const StageLossModel& model, const OperatingPoint& point,
                                       const LossCoefficients& coefficients = {});

/// Share of the power of a driving load that arrives at the input: 1 - losses/power. Small or negative says only that
/// friction is large here and now: a reducer is no holding device.
[[nodiscard]] inline double back_driving_efficiency(double driving_power, double loss) {
  return 1 - loss / driving_power;
}

}  // namespace lobewise::losses
