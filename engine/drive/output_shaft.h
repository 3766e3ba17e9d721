#pragma once
// The output shaft: what its two bearings and its sections carry under a radial force, and the largest such force.

#include <vector>

#include "engine/drive/drive.h"
#include "engine/drive/duty_bearing.h"
#include "engine/strength/shaft.h"

namespace lobewise::drive {

/// Loads of both bearings in one moment [N].
struct OutputLoads {
  double radial_inside = 0, radial_outside = 0;
  double axial_inside = 0, axial_outside = 0;
  double inside = 0, outside = 0;                ///< equivalent dynamic loads P
  double static_inside = 0, static_outside = 0;  ///< equivalent static loads P_0
};
/// @param radial         [N] >= 0
/// @param position       of the radial force from the outside bearing towards the load [m] >= 0
/// @param towards_inside axial force from outside that the inside bearing must hold, negative: the outside bearing
/// Inclined contacts (tapered, angular ball) induce thrust in each other (strength/axial_pair.h); an axial force that
/// no inclined contact holds goes to the outside bearing, or to the one that has an axial factor.
[[nodiscard]] OutputLoads output_loads(const range::OutputShaft& shaft, double radial, double position,
                                       double towards_inside);

/// Endurance limit of the shaft at a diameter, for a reliability of 0.5 or 0.9 [Pa].
[[nodiscard]] double endurance(const range::OutputShaft& shaft, double diameter, double reliability = 0.9);
/// Torque amplitude of unlimited number that does to the shaft there what the torque cycles of its service life do: of
/// starts and reversals, or as a log counted them [N m].
/// @param life  [s]
[[nodiscard]] double torque_amplitude(const Drive& drive, double diameter, double life);

/// A notched section of the shaft.
struct ShaftSection {
  const char* id;
  const char* label;
  double diameter = 0;  ///< [m]
  double lever = 0;     ///< of the radial force about it [m]
  double K_f = 1, K_fs = 1;
  double endurance = 0, median_endurance = 0;    ///< S_e of 90 % and of half of the shafts [Pa]
  double tensile_strength = 0;                   ///< [Pa]
  double torque_mean = 0, torque_amplitude = 0;  ///< [N m]
  [[nodiscard]] strength::FatigueLoad load(double radial) const;
  /// Endurance limit that just stands it: sigma_a/(1 - sigma_m/S_ut) [Pa]; infinite where the mean alone breaks it.
  [[nodiscard]] double endurance_needed(double radial) const;
  /// ln of the share of shafts that stand it.
  [[nodiscard]] double log_standing(double radial) const;
  [[nodiscard]] double safety(double radial) const;
};

/// What limits the radial force.
enum class ForceLimit { unit_life, inside_static, outside_static, seat, end, slope };
[[nodiscard]] const char* words(ForceLimit limit);

struct AllowedForce {
  double force = 0;  ///< [N]
  ForceLimit limit = ForceLimit::unit_life;
  double by_life = 0;      ///< what the life of the unit alone would allow, no more than `by_strength` [N]
  double by_strength = 0;  ///< what static rating, shaft and slope alone would allow [N]
  ForceLimit strength_limit = ForceLimit::seat;
};

/// [h]; infinite without load.
struct OutputLives {
  double inside = 0, outside = 0;
};

/// Output shaft on a duty, ready to be asked for many forces.
class OutputDuty {
 public:
  /// @param position  of the radial force from the outside bearing [m]
  /// @param life      asked for [s]; torque cycles are counted over it
  OutputDuty(const Drive& drive, double nu, double e_C, const Coefficients& c, double position, double life);

  /// In block `block`, the axial force in its worse direction.
  [[nodiscard]] OutputLoads loads(std::size_t block, double radial) const;
  /// At full load.
  [[nodiscard]] OutputLoads full_loads(double radial) const;
  /// Modified life of each bearing, 90 %, under a force that is `radial` at full load.
  [[nodiscard]] OutputLives lives(double radial) const;
  /// ln of the share of units whose output bearings and shaft reach `hours` under a force that is `radial` at full load
  /// and follows the torque [N].
  [[nodiscard]] double log_reliability(double radial, double hours) const;

  /// Largest force at full load with which a share of whole units reaches `hours`, within what static rating, shaft and
  /// slope allow.
  /// @param log_rest  ln of the share in which every part that the force does not load reaches it
  [[nodiscard]] AllowedForce allowed(double share, double hours, double log_rest) const;

  [[nodiscard]] const DutyBearing& inside() const { return inside_; }
  [[nodiscard]] const DutyBearing& outside() const { return outside_; }
  [[nodiscard]] const ShaftSection& seat() const { return seat_; }
  [[nodiscard]] const ShaftSection& end() const { return end_; }

 private:
  struct Damage {
    double inside = 0, outside = 0;  ///< [1/h]
  };
  [[nodiscard]] Damage damage(double radial, double towards_inside) const;
  [[nodiscard]] double hazard(double radial, double hours, double towards_inside) const;
  [[nodiscard]] double worse_direction(double radial) const;
  /// ln of the share of shafts that stand it.
  [[nodiscard]] double log_standing(double radial) const;

  const range::OutputShaft& shaft_;
  DutyBearing inside_, outside_;
  std::vector<double> torque_shares_;   ///< of the blocks, over full load
  std::vector<double> towards_inside_;  ///< axial force on the inside bearing, one for each direction that may be [N]
  double position_ = 0;
  ShaftSection seat_, end_;
};

/// Weibull law of a bearing's modified life.
[[nodiscard]] double modified_hazard(double damage, double hours);

}  // namespace lobewise::drive
