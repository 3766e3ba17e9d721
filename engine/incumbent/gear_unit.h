#pragma once
// The geared unit in service: what a visitor read on it, and where that is not enough a set of gears designed to the
// same duty by a textbook method, so that it can stand beside the candidate on the same axes.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/constants.h"
#include "engine/base/result.h"
#include "engine/base/working.h"
#include "engine/incumbent/rating.h"
#include "engine/incumbent/stage_design.h"
#include "engine/incumbent/worm.h"

namespace lobewise::incumbent {

enum class UnitKind { helical_in_line, parallel_shaft, bevel_helical, worm, planetary, belt_and_gear, cycloidal };
[[nodiscard]] const char* name(UnitKind kind);

/// What a visitor can read or ask. Everything but the kind may be unknown.
struct UnitInService {
  UnitKind kind = UnitKind::helical_in_line;
  std::optional<double> ratio;           ///< whole unit, belt included, 1.2 … 1000
  std::optional<double> rated_torque;    ///< nameplate, at the output, N m
  std::optional<double> rated_power;     ///< nameplate, W
  std::optional<int> stages;             ///< gear stages, belt not counted, 1 … 3
  std::optional<double> belt_ratio;      ///< of the belt in front, 1 … 6; whatever the kind, said means there is one
  std::optional<double> belt_pulley;     ///< diameter of the belt pulley on the unit's input shaft, m
  std::optional<double> oil_viscosity;   ///< kinematic, at working temperature, m2/s
  std::optional<double> mass;            ///< nameplate, kg
  std::optional<bool> through_hardened;  ///< older soft gears instead of case-carburised and ground ones
};

/// A part of the running time at the output shaft.
struct DutyPart {
  double time_share = 1;
  double torque = 0;  ///< N m, >= 0
  double speed = 0;   ///< rad/s, > 0
};

/// What stands around both units.
struct Surroundings {
  double air_speed = 1.5;  ///< over the housing, m/s
  double altitude = 0;     ///< m
  bool sun = false;
};

/// The duty both units serve.
struct UnitDuty {
  double output_torque = 0;     ///< working torque T2, N m, > 0
  double output_speed = 0;      ///< rad/s, > 0
  double input_speed = 0;       ///< motor speed, rad/s, > output_speed
  double service_factor = 1.4;  ///< the unit is chosen for T2 times this when the nameplate is unknown, 1 … 4
  double service_time = 25000 * 3600.0;  ///< life asked for, s
  double ambient = 293.15;               ///< K
  double peak_ratio = 2;                 ///< worst momentary torque over T2 (start, jam), >= 1
  std::vector<DutyPart> parts;           ///< for life and temperature, shares add up to 1; T2 all the time when empty
  double running_share = 1;              ///< of an intermittent cycle
  Surroundings around;
};

enum class StageKind { helical, bevel, worm, planetary, belt };
[[nodiscard]] const char* name(StageKind kind);

/// One stage as designed, from input to output.
struct UnitStage {
  StageKind kind = StageKind::helical;
  double ratio = 1;
  double input_torque = 0;           ///< working torque on its driving shaft, N m (losses neglected)
  double input_speed = 0;            ///< rad/s
  std::optional<PairGeometry> pair;  ///< helical; bevel: the virtual cylindrical pair; planetary: sun and planet
  std::optional<BevelDesign> bevel;
  std::optional<PlanetaryDesign> planetary;
  std::optional<WormGeometry> worm;
  /// At the working torque.
  std::optional<PairRating> rating;
  std::optional<PairRating> ring_rating;
  std::optional<WormRating> worm_rating;
  double mean_pairs = 0;  ///< tooth pairs in contact on average (planetary: all sun meshes together; worm: estimate)
  double contact_stress = 0;             ///< Pa
  std::optional<double> bending_stress;  ///< highest root stress, Pa; not given for worm and belt
  double peak_contact_stress = 0;        ///< at the peak torque, Pa
  std::optional<double> peak_bending_stress;
  std::optional<double> static_ratio;  ///< torque may rise momentarily by this over T2; not given for worm and belt
  double tooth_loss = 0;               ///< share of the stage's power lost in teeth or belt at the working load
};

/// Losses of the whole unit, as parts of the input power at the working load.
struct UnitLosses {
  Coefficient teeth;  ///< gears and belt
  Coefficient bearings;
  Coefficient idle;  ///< oil drag and seals, independent of the load, as part of the rated input power
  double belt = 0;   ///< of `teeth`, what a belt in front loses: its heat stays out of the oil
};

/// How the oil temperature was found: what is lost leaves through the wall.
struct HeatBalance {
  double loss = 0;             ///< mean of the duty, W
  double wall = 0;             ///< temperature of the housing, K
  double to_air = 0;           ///< convection with its ribs, W/K
  double area = 0;             ///< m2
  double base = 0;             ///< to what it stands on, W/K
  double sun = 0;              ///< W
  double emissivity = 0;       ///< of the wall
  double oil_conductance = 0;  ///< oil to wall, W/K
};

struct GearUnit {
  UnitKind kind = UnitKind::helical_in_line;
  double ratio = 1;                                 ///< as designed from whole tooth numbers
  double design_torque = 0;                         ///< at the output, N m
  std::optional<double> plate_torque, plate_power;  ///< which said so, N m or W; neither: the duty did
  GearMaterial material;                            ///< of its involute gears
  std::vector<UnitStage> stages;                    ///< input to output, belt first
  double contact_stress = 0;                        ///< highest of all stages at the working torque, Pa
  std::optional<double> bending_stress;
  double fewest_pairs = 0;             ///< mean tooth pairs in contact in the stage that has fewest
  std::optional<double> static_ratio;  ///< smallest momentary torque limit over T2
  UnitLosses losses;
  Coefficient efficiency;  ///< at the working load
  /// Worm units with the output driving: running, and at rest. <= 0: does not run back at that friction; vibration
  /// lowers friction, so this never stands in for a brake.
  std::optional<double> reverse_efficiency, reverse_efficiency_at_rest;
  std::optional<double> belt_pull;  ///< pull of the belt on the unit's input shaft, N, when the pulley is known
  double loss_power = 0;            ///< W at the working load, nominal
  double output_power = 0;          ///< W
  Coefficient oil_temperature;      ///< K, settled on the duty
  std::optional<HeatBalance> heat;  ///< behind an estimated oil temperature
  Coefficient mass;                 ///< kg without motor
  double length = 0, width = 0, height = 0;  ///< housing, m, estimate
  double output_shaft_diameter = 0;          ///< m, estimate
  /// Time to 1 % pitting or breakage of the weakest involute stage at the working torque, s; infinity beyond the end of
  /// the life curve; not given for worm units.
  std::optional<double> life;
  std::vector<Assumption> assumptions;

  /// Its gears are known or designed; of a cycloidal unit only losses, size and heat are.
  [[nodiscard]] bool geared() const { return !stages.empty(); }
  [[nodiscard]] bool belt_in_front() const { return geared() && stages.front().kind == StageKind::belt; }
};

/// Designs (or rebuilds) the unit in service to a duty.
/// Method: T_design = nameplate torque, else nameplate power at the output speed, else T2 f_s; stages and their ratios
/// by kind; every pair is the smallest of standard module, whole teeth and 15 degrees helix that reaches S_H >= 1.0 and
/// S_F >= 1.4 at T_design for the service time (ISO 6336-type, rating.h), worms AGMA 6034. In-line units keep both
/// centre distances equal. Then everything is evaluated at T2, life and temperature on the duty's parts. A cycloidal
/// unit: cycloidal_unit.h. Errors: duty or nameplate outside the stated ranges; a duty that no unit of that plate can
/// serve (more than three times its torque, or hotter than kHottest); ratio out of reach of the kind; no gear set of
/// standard modules.
[[nodiscard]] Result<GearUnit> gear_unit(const UnitInService& unit, const UnitDuty& duty);

/// Pull on a shaft from belt tensions over the force that turns it: (k + 1) / (k - 1) for k = tight over slack tension
/// > 1. Statics.
[[nodiscard]] double belt_pull_factor(double tension_ratio);

/// Efficiency at a part of the working load: idle losses stay, the others follow the load.
/// @param load_share  output torque over T2, >= 0, same speed.  @returns 0 at no load
[[nodiscard]] double efficiency_at(const GearUnit& unit, double load_share);

/// Power lost at a part of the working load, W.
[[nodiscard]] double loss_power_at(const GearUnit& unit, double load_share);

/// No unit settles above this: what would is a plate, a load or a place that was misread, K. Common practice, no
/// source: mineral oil ends long before.
inline constexpr double kHottest = kZeroCelsius + 200;

/// Steps behind losses, temperature and mass of the unit.
[[nodiscard]] Working unit_working(const GearUnit& unit, const UnitDuty& duty);

}  // namespace lobewise::incumbent
