#pragma once
// A maker's range as data: frames (sizes), the stages each can hold, and the two-stage pairs. Every dimension that a
// finding needs stands here; what a range leaves out, the finding that needs it cannot judge. SI throughout.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/constants.h"
#include "engine/contact/film.h"
#include "engine/mechanism/stage_geometry.h"
#include "engine/range/material.h"
#include "engine/strength/axial_pair.h"
#include "engine/strength/bolts.h"
#include "engine/tolerance/manufacture.h"

namespace lobewise::range {

/// How a roller or a sleeve is carried on its pin.
enum class Carried {
  fixed,   ///< the roller cannot turn: it slides on the lobe
  sleeve,  ///< turns on a plain pin
  needle,  ///< turns on needle rollers
};

enum class BearingKind { cylindrical, full_complement, needle, deep_groove, tapered, angular_ball };

/// A rolling bearing. Capacities are stated, or computed from the rolling elements by ISO 281 and ISO 76.
struct Bearing {
  BearingKind kind = BearingKind::cylindrical;
  int elements = 0;                        ///< rolling elements in a row; 0 when only capacities are known
  double element_diameter = 0;             ///< [m]
  double element_length = 0;               ///< effective length of a roller, chamfers off; 0 for balls [m]
  double pitch_diameter = 0;               ///< of the rolling elements [m]
  double bore = 0;                         ///< [m]
  double outside = 0;                      ///< [m]
  double width = 0;                        ///< [m]
  std::optional<double> dynamic_capacity;  ///< C [N]
  std::optional<double> static_capacity;   ///< C_0 [N]
  std::optional<double> axial_e;           ///< e of ISO 281: from this F_a / F_r on the axial load counts
  std::optional<double> axial_Y;           ///< Y of ISO 281 for F_a / F_r > e

  friend bool operator==(const Bearing&, const Bearing&) = default;
};

/// One reduction stage of a frame.
struct Stage {
  mechanism::StageGeometry geometry;
  std::optional<Material> ring_material;  ///< of the ring that holds the rollers; cast iron taken when not said
  Carried ring_rollers = Carried::needle;
  double ring_pin_radius = 0;  ///< pin inside a turning ring roller [m]; 0 when fixed
  Carried output_rollers = Carried::needle;
  double output_pin_radius = 0;     ///< core of the output pin inside its sleeve [m]
  double pin_lever_near = 0;        ///< from the flange face to the middle of the near disc [m]
  double pin_lever_far = 0;         ///< from the flange face to the middle of the far disc [m]
  bool pins_guided = false;         ///< the pins are held at both ends by a supporting ring
  Bearing eccentric_bearing;        ///< one per disc, its outer raceway in the bore of the disc
  Bearing input_bearing;            ///< two of them carry the input shaft, one on either side of the discs
  double input_span = 0;            ///< between their middles [m]
  double input_shaft_diameter = 0;  ///< [m]
  double input_inertia = 0;         ///< of input shaft, eccentrics and the discs going round on them [kg m2]
  double max_input_speed = 0;       ///< [rad/s]
  double profile_roughness = contact::kGroundRoughness.nominal;  ///< composite rms roughness of lobe and roller [m]
  std::optional<tolerance::Manufacture> manufacture;             ///< how exactly it is made; assumed when not said
  double mass = 0;                                               ///< of discs, rollers, pins and eccentric [kg]
  double price = 0;                                              ///< of the unit with this stage, without motor [money]

  friend bool operator==(const Stage&, const Stage&) = default;
};

/// Linear expansion of the ring of a stage [1/K].
[[nodiscard]] inline Coefficient ring_expansion(const Stage& stage) {
  return stage.ring_material ? expansion(*stage.ring_material) : kUnknownRing;
}

/// Output shaft with the seat of the bearing next to the load, and its key.
struct OutputShaft {
  double diameter = 0;          ///< of the shaft end [m]
  double length = 0;            ///< of the shaft end [m]
  double seat_diameter = 0;     ///< at the bearing next to the load [m]
  double shoulder_radius = 0;   ///< fillet there [m]
  double key_width = 0;         ///< b [m]
  double key_height = 0;        ///< h [m]
  double key_shaft_depth = 0;   ///< t1 [m]
  double key_length = 0;        ///< overall, round ends [m]
  double tensile_strength = 0;  ///< [Pa]
  double yield_strength = 0;    ///< [Pa]
  Bearing bearing_inside;       ///< A, away from the load
  Bearing bearing_outside;      ///< B, next to the load
  double span = 0;              ///< between the points at which A and B carry [m]
  /// Of A and B where their contacts are inclined; absent: the direction of an axial force counts as the worse one.
  std::optional<strength::Arrangement> arrangement;
  double overhang = 0;       ///< B to the shoulder where the shaft end begins [m]
  double seal_diameter = 0;  ///< [m]
};

/// Housing as a body that gives off heat.
struct Housing {
  double diameter = 0;            ///< of the equivalent cylinder [m]
  double length = 0;              ///< [m]
  double area = 0;                ///< outer area without fins [m2]
  double emissivity = 0.9;        ///< painted
  double fin_factor = 1;          ///< on convection
  double oil_conductance = 0;     ///< oil to housing [W/K]
  double flange_conductance = 0;  ///< to what it stands on [W/K]
  double oil_volume = 0;          ///< or grease [m3]
  double mass = 0;                ///< of the whole unit without motor [kg]
};

struct Dimensions {
  double shaft_height = 0;        ///< foot to shaft centre [m]
  double foot_holes_across = 0;   ///< [m]
  double foot_holes_along = 0;    ///< [m]
  double foot_hole = 0;           ///< diameter [m]
  double shoulder_to_hole = 0;    ///< shaft shoulder to the first foot hole [m]
  double flange_bolt_circle = 0;  ///< [m]
  double flange_spigot = 0;       ///< [m]
  double flange_outside = 0;      ///< [m]
  int flange_holes = 0;
  double flange_hole = 0;                         ///< diameter [m]
  std::optional<double> foot_bolt, flange_bolt;   ///< thread of the bolts foreseen [m]
  std::optional<strength::BoltClass> bolt_class;  ///< of both; without it they cannot be judged
  double length = 0;                              ///< shoulder of the output shaft to the motor face [m]
  double width = 0;                               ///< [m]
  double height = 0;                              ///< [m]
};

enum class LubricantKind { oil, grease };
enum class BaseOil { mineral, pao, pag };

struct Lubricant {
  LubricantKind kind = LubricantKind::oil;
  BaseOil base = BaseOil::mineral;
  double viscosity_40 = 0;                ///< of the (base) oil at 40 degC [m2/s]
  std::optional<double> viscosity_index;  ///< default by base oil
  bool food_grade = false;                ///< registered for incidental contact
  /// Of an oil its pour point (ISO 3016), of a grease its lower temperature of use; by kind and grade when left out
  /// [K].
  std::optional<double> pour_point = {};
};

/// How bearings above the oil level are lubricated when the shaft stands upright and the fill is oil.
enum class UprightLubrication {
  grease,   ///< the upper bearings are packed with grease, the oil stands over the discs
  pump,     ///< a pump feeds them
  flooded,  ///< filled to the top
};

struct Frame {
  std::string name;
  std::vector<Stage> stages;
  OutputShaft output;
  Housing housing;
  Dimensions dimensions;
  std::vector<Lubricant> lubricants;  ///< offered, the usual one first
  bool foot = true;
  bool flange = true;
  bool vertical = true;                                   ///< may stand with the output shaft upright
  std::optional<UprightLubrication> upright_lubrication;  ///< nobody knows when absent
  double input_seal_diameter = 0;                         ///< [m]
  std::vector<std::string> motor_frames;                  ///< IEC motor frames that fit
  std::optional<double> sound_level;  ///< measured A-weighted level at 1 m, dB; absent when nobody measured it
};

/// A first stage of a smaller frame in front of a frame.
struct TwoStage {
  std::string frame;  ///< with the second stage and the output shaft
  int second_lobes = 0;
  std::string first_frame;
  int first_lobes = 0;
  double price = 0;         ///< of the whole unit [money]
  double extra_length = 0;  ///< against the single-stage unit [m]
  double extra_mass = 0;    ///< [kg]
};

struct Range {
  std::string name;
  std::string version;
  std::string note;      ///< what it is; the demo range says that it is invented
  std::string currency;  ///< word shown behind prices
  std::vector<Frame> frames;
  std::vector<TwoStage> two_stage;
};

/// Contradictions of a range, every one at once with its path (`frames[2].stages[0].geometry.lobes`): names twice or
/// missing, geometry that cannot exist, a bore that cuts the output holes, rolling elements that do not fit, a bearing
/// without any way to its capacity, pins and sleeves that do not fit into each other, discs that overlap, a key that
/// does not fit its shaft, sizes, masses and prices that are not positive, motor frames nobody knows, pairs that name
/// no frame or stage. Errors are of kind data. A field's own limits are checked when a file is read
/// (`model::describe`).
[[nodiscard]] Errors check(const Range& range);

/// Temperatures of ring and disc at which a unit must keep its play [K]: cold, and in a warm-up, when the disc is this
/// much warmer than its ring. Common practice, no source.
inline constexpr double kColdUnit = kZeroCelsius - 20, kWarmRing = kZeroCelsius + 60, kWarmerDisc = 20;

/// What a sound range holds and an engineer should know before it is used, as errors that refuse nothing: stages that
/// keep no play between lobes and rollers, as drawn, cold or in a warm-up. The finding on clearance judges each on its
/// job.
[[nodiscard]] Errors warnings(const Range& range);

}  // namespace lobewise::range
