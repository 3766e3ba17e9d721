#pragma once
// The smallest pair of standard module and whole teeth that carries a duty: how a stage of the unit in service is
// rebuilt when nobody knows its teeth.

#include <optional>

#include "engine/incumbent/rating.h"
#include "engine/incumbent/worm.h"

namespace lobewise::incumbent {

/// Safety a designed pair reaches at the design torque for the service time: textbook minimum values, common practice,
/// no source.
inline constexpr double kDesignContactSafety = 1.0;
inline constexpr double kDesignBendingSafety = 1.4;

struct StageDemand {
  double pinion_torque = 0;  ///< N m at the design torque
  double pinion_speed = 0;   ///< rad/s
  double ratio = 1;          ///< wanted
  double service_time = 0;
  GearMaterial material = kCaseCarburised;
};

/// Helical pair, helix near 15 degrees, module of ISO 54, shift +0.3/-0.3 where the wheel has teeth enough.
/// @param centre_distance  when given the pair must have it (in-line units): the helix then follows, 8 … 22 degrees
/// @returns the pair of least gear volume, nothing when no standard module carries the duty
[[nodiscard]] std::optional<PairGeometry> design_helical(const StageDemand& demand,
                                                         std::optional<double> centre_distance);

/// Spiral bevel pair as its virtual cylindrical pair (Tredgold): z_v = z / cos delta rounded, mean normal module,
/// 35 degrees spiral, 85 % of the face bears. ISO 10300 in outline, from memory.
struct BevelDesign {
  PairGeometry virtual_pair;
  int pinion_teeth = 0, wheel_teeth = 0;                            ///< real ones
  double mean_diameter_1 = 0, mean_diameter_2 = 0, face_width = 0;  ///< m
};
[[nodiscard]] std::optional<BevelDesign> design_bevel(const StageDemand& demand);
/// The duty seen by the virtual pair for a torque on the real pinion.
[[nodiscard]] PairDuty bevel_duty(const BevelDesign& design, double pinion_torque, double pinion_speed,
                                  double service_time);

/// Simple planetary stage: sun drives, ring fixed, carrier out, spur teeth, i = 1 + z_r / z_s.
struct PlanetaryDesign {
  PairGeometry sun_planet;
  PairGeometry planet_ring;
  int planets = 3;
};
[[nodiscard]] std::optional<PlanetaryDesign> design_planetary(const StageDemand& demand);
[[nodiscard]] PairDuty sun_duty(const PlanetaryDesign& design, double sun_torque, double sun_speed,
                                double service_time);
[[nodiscard]] PairDuty ring_duty(const PlanetaryDesign& design, double sun_torque, double sun_speed,
                                 double service_time);

/// Worm pair, q = 10, as few starts as leave the wheel 28 teeth (up to 6), centre distance of the R20 series.
/// @param demand  its pinion torque is ignored @param wheel_torque  at the design torque [N m]
[[nodiscard]] std::optional<WormGeometry> design_worm(const StageDemand& demand, double wheel_torque);

}  // namespace lobewise::incumbent
