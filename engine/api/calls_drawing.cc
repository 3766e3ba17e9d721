// What drawings, models and check sheets of a build need: dimensions, disc outlines, excitation orders.

#include <algorithm>
#include <cmath>

#include "data/motor_flanges_iec.h"
#include "data/motor_frames_iec.h"
#include "data/motor_frames_nema.h"
#include "engine/api/build_input.h"
#include "engine/api/calls.h"
#include "engine/api/main_job.h"
#include "engine/base/constants.h"
#include "engine/drive/motor_choice.h"
#include "engine/enquiry/enquiry.h"
#include "engine/mechanism/profile.h"
#include "engine/motion/excitation.h"
#include "engine/range/bearing.h"
#include "engine/result/job.h"

namespace lobewise::api {
namespace {

constexpr double kMillimetre = 1e-3;
constexpr double kInch = 25.4e-3;
/// Fields of an input beside `build` and `range`; unknown ones are errors.
template <class Read>
Errors read_others(const Json& input, Read read) {
  Json others = input;
  others.erase("build");
  others.erase("range");
  Arguments arguments(others);
  read(arguments);
  return arguments.finish();
}

Json schema_with(const std::function<void(Arguments&)>& read) {
  Arguments arguments = Arguments::describing();
  read(arguments);
  Json schema = arguments.schema();
  schema["properties"]["build"] = schema_of(model::describe<enquiry::BuildChoice>());
  schema["properties"]["range"] = {{"type", "object"}};
  return schema;
}

Json unit_json(const range::Dimensions& d) {
  return Json{{"shaft_height", d.shaft_height},
              {"foot_holes_across", d.foot_holes_across},
              {"foot_holes_along", d.foot_holes_along},
              {"foot_hole", d.foot_hole},
              {"shoulder_to_hole", d.shoulder_to_hole},
              {"flange_bolt_circle", d.flange_bolt_circle},
              {"flange_spigot", d.flange_spigot},
              {"flange_outside", d.flange_outside},
              {"flange_holes", d.flange_holes},
              {"flange_hole", d.flange_hole},
              {"width", d.width},
              {"height", d.height}};
}

Json shaft_json(const range::OutputShaft& shaft) {
  return Json{{"diameter", shaft.diameter},
              {"length", shaft.length},
              {"key_width", shaft.key_width},
              {"key_height", shaft.key_height},
              {"key_shaft_depth", shaft.key_shaft_depth},
              {"key_length", shaft.key_length},
              {"seat_diameter", shaft.seat_diameter},
              {"overhang", shaft.overhang}};
}

Json motor_outline(const std::string& frame, double height, double shaft, double end, std::string source) {
  return Json{
      {"frame", frame},
      {"shaft_height", height},
      {"shaft_diameter", shaft},
      {"shaft_length", end},
      {"outline_diameter", drive::kMotorWidthOverHeight.nominal * height},
      {"outline_length", drive::kMotorLengthOverHeight.nominal * height},
      {"source", std::move(source) + "; width and length typical, from memory: the motor's own drawing decides"}};
}

/// Standard frame by its designation; null when the tables do not hold it.
Json motor_json(const std::string& frame, int poles) {
  for (const data::MotorFramesIecRow& row : data::kMotorFramesIec) {
    if (row.frame != frame) continue;
    const bool two = poles == 2;
    Json json = motor_outline(frame, row.h_mm * kMillimetre, (two ? row.d_2p_mm : row.d_4to8p_mm) * kMillimetre,
                              (two ? row.e_2p_mm : row.e_4to8p_mm) * kMillimetre,
                              "IEC 60072-1 / EN 50347 (" + std::string(row.status) + ")");
    for (const data::MotorFlangesIecRow& flange : data::kMotorFlangesIec)
      if (flange.flange == row.flange_b5)
        json["flange"] = {{"name", std::string(flange.flange)},
                          {"bolt_circle", flange.m_bolt_circle_mm * kMillimetre},
                          {"spigot", flange.n_spigot_j6_mm * kMillimetre},
                          {"outside", flange.p_outer_mm * kMillimetre}};
    return json;
  }
  for (const data::MotorFramesNemaRow& row : data::kMotorFramesNema)
    if (row.kind == "foot" && row.frame == frame && row.d_in && row.u_shaft_dia_in && row.nw_shaft_len_in)
      return motor_outline(frame, *row.d_in * kInch, *row.u_shaft_dia_in * kInch, *row.nw_shaft_len_in * kInch,
                           "NEMA MG 1 clause 4.4.1 (" + std::string(row.status) + ")");
  return nullptr;
}

struct DrawingChoice {
  std::string mounting;  ///< empty: on feet where the frame has them
  std::string motor_frame;
  int poles = 4;
  void read(Arguments& in) {
    mounting = in.text_or("mounting", "", {"foot", "flange"});
    std::vector<std::string_view> frames;
    for (const data::MotorFramesIecRow& row : data::kMotorFramesIec) frames.push_back(row.frame);
    for (const data::MotorFramesNemaRow& row : data::kMotorFramesNema)
      if (row.kind == "foot") frames.push_back(row.frame);
    motor_frame = in.text_or("motor_frame", "", frames);
    poles = static_cast<int>(in.number_or("poles", Quantity::number, 4, {2, 12}));
  }
};

Result<Json> dimensions(const Json& input) {
  std::optional<range::Range> own;
  const Result<drive::Build> build = named_build(input, own);
  if (!build) return build.errors();
  DrawingChoice choice;
  const Errors errors = read_others(input, [&](Arguments& in) { choice.read(in); });
  if (!errors.empty()) return errors;
  const range::Frame& frame = build->frame();
  if (choice.mounting.empty()) choice.mounting = frame.foot ? "foot" : "flange";
  if (choice.mounting == "foot" ? !frame.foot : !frame.flange)
    return input_error("mounting", choice.mounting, frame.name + " is not made with it");
  Json bodies = Json::array();
  const double length = frame.dimensions.length;
  bodies.push_back({{"from", std::max(0.0, length - frame.housing.length)},
                    {"to", length},
                    {"diameter", frame.housing.diameter},
                    {"frame", frame.name}});
  if (build->pair != nullptr)
    bodies.push_back({{"from", length},
                      {"to", build->length()},
                      {"diameter", build->stages.front().frame->housing.diameter},
                      {"frame", build->stages.front().frame->name}});
  Json out{{"build", write(result::of(*build))},
           {"build_name", build->name()},
           {"mounting", choice.mounting},
           {"length", build->length()},
           {"mass", build->mass()},
           {"unit", unit_json(frame.dimensions)},
           {"shaft", shaft_json(frame.output)},
           {"hub_diameter", std::min(frame.housing.diameter, frame.output.bearing_outside.outside * 1.2)},
           {"bodies", std::move(bodies)}};
  if (!choice.motor_frame.empty()) out["motor"] = motor_json(choice.motor_frame, choice.poles);
  return out;
}

struct OutlineChoice {
  int points_per_lobe = 24;
  double clearance = 0;
  void read(Arguments& in) {
    points_per_lobe = static_cast<int>(in.number_or("points_per_lobe", Quantity::number, 24, {8, 400}));
    clearance = in.number_or("clearance", Quantity::length, 0, kNotNegative);
  }
};

Result<Json> mechanism_outline(const Json& input) {
  std::optional<range::Range> own;
  const Result<drive::Build> build = named_build(input, own);
  if (!build) return build.errors();
  OutlineChoice choice;
  const Errors errors = read_others(input, [&](Arguments& in) { choice.read(in); });
  if (!errors.empty()) return errors;
  Json stages = Json::array();
  for (const drive::StageRef& ref : build->stages) {
    // A profile cut with a larger roller is the parallel curve: every point moves in by the clearance.
    mechanism::StageGeometry g = ref.stage->geometry;
    g.roller_offset += choice.clearance;
    const Errors impossible = mechanism::check_geometry(g, "clearance");
    if (!impossible.empty()) return impossible;
    Json outline = Json::array();
    const int points = choice.points_per_lobe + choice.points_per_lobe % 2;
    for (const mechanism::Vec2& p : mechanism::outline(g, points)) outline.push_back(Json::array({p.x, p.y}));
    stages.push_back({{"frame", ref.frame->name}, {"geometry", geometry_json(*ref.stage)}, {"outline", outline}});
  }
  return Json{{"build_name", build->name()}, {"ratio", build->ratio()}, {"stages", std::move(stages)}};
}

/// Adds one line of the table of orders; `turns` are revolutions of the part's own reference per motor revolution.
void add_order(Json& rows, const std::string& what, double order, double motor_speed, const char* sum) {
  const double frequency = order * motor_speed / (2 * kPi);
  rows.push_back({{"name", what},
                  {"order", order},
                  {"frequency", write(result::amount(frequency, Quantity::frequency))},
                  {"sum", sum}});
}

void add_bearing_orders(Json& rows, const std::string& name, const range::Bearing& bearing, double turns,
                        double motor_speed) {
  if (bearing.elements < 1 || bearing.element_diameter <= 0 || bearing.pitch_diameter <= bearing.element_diameter)
    return;
  const motion::BearingRhythm rhythm = motion::bearing_rhythm(bearing.elements, bearing.element_diameter,
                                                              bearing.pitch_diameter, range::contact_angle(bearing));
  add_order(rows, name + ": cage", rhythm.cage * turns, motor_speed, "damage");
  add_order(rows, name + ": outer ring", rhythm.outer * turns, motor_speed, "damage");
  add_order(rows, name + ": inner ring", rhythm.inner * turns, motor_speed, "damage");
  add_order(rows, name + ": rolling element", rhythm.rolling_element * turns, motor_speed, "damage");
}

void read_speed(Arguments& in, double& speed) { speed = in.number("input_speed", Quantity::angular_speed, kPositive); }

Result<Json> excitations(const Json& input) {
  std::optional<range::Range> own;
  const Result<drive::Build> build = named_build(input, own);
  if (!build) return build.errors();
  double speed = 0;
  const Errors errors = read_others(input, [&](Arguments& in) { read_speed(in, speed); });
  if (!errors.empty()) return errors;
  constexpr const char* kSums[] = {"single", "adds", "cancels"};
  Json stages = Json::array();
  double turns = 1;  // of this stage's input per motor revolution
  for (const drive::StageRef& ref : build->stages) {
    const range::Stage& stage = *ref.stage;
    const mechanism::StageGeometry& g = stage.geometry;
    const double eccentric = turns * g.rollers() / g.lobes;
    Json rows = Json::array();
    for (const motion::Excitation& x :
         motion::stage_excitations({g.lobes, g.pins, g.discs, motion::Fixed::ring}, speed * turns))
      add_order(rows, x.name, x.order * turns, speed, kSums[static_cast<std::size_t>(x.sum)]);
    add_bearing_orders(rows, "input bearing", stage.input_bearing, turns, speed);
    add_bearing_orders(rows, "eccentric bearing", stage.eccentric_bearing, eccentric, speed);
    turns /= g.lobes;
    if (&ref == &build->stages.back())
      add_bearing_orders(rows, "output bearing", build->frame().output.bearing_outside, turns, speed);
    stages.push_back({{"frame", ref.frame->name}, {"lobes", g.lobes}, {"orders", std::move(rows)}});
  }
  return Json{{"build_name", build->name()}, {"stages", std::move(stages)}};
}

}  // namespace

void add_drawing_calls(Registry& registry) {
  registry.add(Call{"dimensions", "Dimensions of a build for a drawing: bodies, feet or flange, shaft end, motor.",
                    dimensions, [] { return schema_with([](Arguments& in) { DrawingChoice().read(in); }); }});
  registry.add(Call{"mechanism_outline", "Outline of the disc of every stage, moved in by a clearance if wanted.",
                    mechanism_outline, [] { return schema_with([](Arguments& in) { OutlineChoice().read(in); }); }});
  registry.add(Call{"excitations", "Orders and frequencies that the parts of a build can show in a vibration spectrum.",
                    excitations, [] {
                      return schema_with([](Arguments& in) {
                        double speed = 0;
                        read_speed(in, speed);
                      });
                    }});
}

}  // namespace lobewise::api
