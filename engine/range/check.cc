#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "data/motor_frames_iec.h"
#include "data/motor_frames_nema.h"
#include "engine/base/constants.h"
#include "engine/range/bearing.h"
#include "engine/range/range.h"

namespace lobewise::range {
namespace {

/// Free part of the circumference that turning rolling elements need, common practice, no source.
constexpr double kLeastGap = 0.005;

std::string millimetres(double metres) { return fmt::format("{:.6g} mm", metres * 1e3); }

/// Collects errors under one path.
class Checker {
 public:
  Checker(std::string path, Errors& errors) : path_(std::move(path)), errors_(errors) {}

  [[nodiscard]] Checker at(std::string_view member) const { return {path_of(member), errors_}; }
  [[nodiscard]] Checker at(std::string_view list, std::size_t index) const {
    return {fmt::format("{}[{}]", path_of(list), index), errors_};
  }
  [[nodiscard]] std::string path_of(std::string_view member) const {
    return path_.empty() ? std::string(member) : fmt::format("{}.{}", path_, member);
  }
  [[nodiscard]] const std::string& path() const { return path_; }

  void reject(std::string_view member, std::string offending, std::string message) {
    errors_.push_back({ErrorKind::data, path_of(member), std::move(offending), std::move(message), 0});
  }
  /// As `reject` unless `holds`. Conditions are written so that NaN fails.
  void need(bool holds, std::string_view member, double value, std::string message) {
    if (!holds) reject(member, millimetres(value), std::move(message));
  }
  void positive(std::string_view member, double value) {
    if (!(value > 0) || !std::isfinite(value))
      reject(member, fmt::format("{:.6g}", value), "must be greater than zero.");
  }
  /// Errors of a deeper layer, as errors of the data.
  void take(Errors found) {
    for (Error& error : found) {
      error.kind = ErrorKind::data;
      errors_.push_back(std::move(error));
    }
  }

 private:
  std::string path_;
  Errors& errors_;
};

void check_bearing(Checker at, const Bearing& bearing) {
  at.positive("pitch_diameter", bearing.pitch_diameter);
  if (auto rating = rolling_bearing(bearing, at.path()); !rating) return at.take(rating.errors());
  if (bearing.elements > 0 && bearing.element_diameter > 0) {
    const double taken = bearing.elements * std::asin(std::min(bearing.element_diameter / bearing.pitch_diameter, 1.0));
    if (!(taken <= kPi * (1 - kLeastGap)))
      at.reject("elements", std::to_string(bearing.elements),
                fmt::format("at most {} elements of {} turn on a pitch diameter of {}.",
                            strength::full_complement_count(bearing.element_diameter, bearing.pitch_diameter),
                            millimetres(bearing.element_diameter), millimetres(bearing.pitch_diameter)));
  }
  const double raceway = 2 * outer_raceway_radius(bearing);
  if (bearing.outside > 0)
    at.need(bearing.outside >= raceway, "outside", bearing.outside,
            fmt::format("must be at least the outer raceway, {}.", millimetres(raceway)));
  if (bearing.bore > 0)
    at.need(bearing.bore < bearing.pitch_diameter - bearing.element_diameter, "bore", bearing.bore,
            fmt::format("must be below the inner raceway, {}.",
                        millimetres(bearing.pitch_diameter - bearing.element_diameter)));
  if (bearing.width > 0)
    at.need(bearing.element_length <= bearing.width, "element_length", bearing.element_length,
            fmt::format("the rollers are longer than the bearing is wide, {}.", millimetres(bearing.width)));
}

/// A roller or sleeve of radius `outside` on a pin.
void check_carried(Checker& at, std::string_view member, Carried carried, double pin, double outside) {
  if (carried == Carried::fixed)
    at.need(pin == 0 || pin == outside, member, pin,
            fmt::format("a roller that is held fast has no pin inside it: 0 or {}.", millimetres(outside)));
  else
    at.need(pin > 0 && pin < outside, member, pin,
            fmt::format("the pin of a turning roller must be above zero and below {}.", millimetres(outside)));
}

void check_levers(Checker& at, const Stage& stage) {
  const auto& g = stage.geometry;
  at.need(stage.pin_lever_near >= g.width / 2, "pin_lever_near", stage.pin_lever_near,
          fmt::format("must be at least half the disc width, {}, or the disc runs into the flange.",
                      millimetres(g.width / 2)));
  const double spread = (g.discs - 1) * g.width;
  at.need(stage.pin_lever_far - stage.pin_lever_near >= spread * (1 - 1e-9), "pin_lever_far", stage.pin_lever_far,
          fmt::format("must be at least {}, or the discs overlap.", millimetres(stage.pin_lever_near + spread)));
  at.need(stage.input_span > stage.pin_lever_far - stage.pin_lever_near, "input_span", stage.input_span,
          fmt::format("the input bearings stand on either side of the discs: above {}.",
                      millimetres(stage.pin_lever_far - stage.pin_lever_near)));
}

void check_stage(Checker at, const Stage& stage) {
  const auto& g = stage.geometry;
  Errors geometry = mechanism::check_geometry(g, at.path_of("geometry"));
  const bool sound = geometry.empty();
  at.take(std::move(geometry));
  check_bearing(at.at("eccentric_bearing"), stage.eccentric_bearing);
  check_bearing(at.at("input_bearing"), stage.input_bearing);
  if (!sound) return;  // what follows compares with the geometry

  const Bearing& eccentric = stage.eccentric_bearing;
  const double raceway = std::max(outer_raceway_radius(eccentric), eccentric.outside / 2);
  at.take(mechanism::check_bore(g, raceway, at.path_of("eccentric_bearing")));
  const double inner =
      eccentric.bore > 0 ? eccentric.bore / 2 : (eccentric.pitch_diameter - eccentric.element_diameter) / 2;
  at.need(stage.input_shaft_diameter / 2 + g.eccentricity < inner, "input_shaft_diameter", stage.input_shaft_diameter,
          fmt::format("must be below {}, or the shaft stands out of its eccentric.",
                      millimetres(2 * (inner - g.eccentricity))));
  at.need(eccentric.element_length <= g.width, "eccentric_bearing.element_length", eccentric.element_length,
          fmt::format("the rollers are longer than the disc is wide, {}.", millimetres(g.width)));

  check_carried(at, "ring_pin_radius", stage.ring_rollers, stage.ring_pin_radius, g.roller_radius);
  check_carried(at, "output_pin_radius", stage.output_rollers, stage.output_pin_radius, g.pin_radius);
  at.positive("output_pin_radius", stage.output_pin_radius);
  check_levers(at, stage);
  at.positive("input_shaft_diameter", stage.input_shaft_diameter);
  at.positive("input_inertia", stage.input_inertia);
  at.positive("max_input_speed", stage.max_input_speed);
  at.positive("profile_roughness", stage.profile_roughness);
  at.positive("mass", stage.mass);
  at.positive("price", stage.price);
}

void check_output(Checker at, const OutputShaft& shaft) {
  at.positive("diameter", shaft.diameter);
  at.positive("length", shaft.length);
  at.positive("span", shaft.span);
  at.positive("overhang", shaft.overhang);
  at.positive("seal_diameter", shaft.seal_diameter);
  at.need(
      shaft.seat_diameter >= shaft.diameter, "seat_diameter", shaft.seat_diameter,
      fmt::format("must be at least the shaft end, {}, or the bearing cannot be fitted.", millimetres(shaft.diameter)));
  at.need(shaft.key_width < shaft.diameter, "key_width", shaft.key_width,
          fmt::format("must be below the shaft diameter, {}.", millimetres(shaft.diameter)));
  at.need(shaft.key_shaft_depth < shaft.key_height, "key_shaft_depth", shaft.key_shaft_depth,
          fmt::format("must be below the key height, {}, or the key drives no hub.", millimetres(shaft.key_height)));
  at.need(shaft.key_shaft_depth < shaft.diameter / 2, "key_shaft_depth", shaft.key_shaft_depth,
          fmt::format("must be below the shaft radius, {}.", millimetres(shaft.diameter / 2)));
  if (shaft.key_length > 0)
    at.need(shaft.key_length <= shaft.length && shaft.key_length > shaft.key_width, "key_length", shaft.key_length,
            fmt::format("must be above the key width, {}, and at most the shaft end, {}.", millimetres(shaft.key_width),
                        millimetres(shaft.length)));
  at.positive("tensile_strength", shaft.tensile_strength);
  if (!(shaft.yield_strength > 0 && shaft.yield_strength < shaft.tensile_strength))
    at.reject("yield_strength", fmt::format("{:.6g} MPa", shaft.yield_strength / 1e6),
              "must be above zero and below the tensile strength.");
  check_bearing(at.at("bearing_inside"), shaft.bearing_inside);
  check_bearing(at.at("bearing_outside"), shaft.bearing_outside);
  if (shaft.bearing_outside.bore > 0)
    at.need(shaft.bearing_outside.bore == shaft.seat_diameter, "bearing_outside.bore", shaft.bearing_outside.bore,
            fmt::format("must be the bearing seat, {}.", millimetres(shaft.seat_diameter)));
}

void check_housing(Checker at, const Housing& housing) {
  at.positive("diameter", housing.diameter);
  at.positive("length", housing.length);
  at.positive("area", housing.area);
  at.positive("emissivity", housing.emissivity);
  at.positive("oil_conductance", housing.oil_conductance);
  at.positive("oil_volume", housing.oil_volume);
  at.positive("mass", housing.mass);
}

/// Bolts that the range foresees: a thread that exists and goes through its hole.
void check_bolts(Checker at, const Dimensions& d) {
  const auto bolt = [&](const char* member, const std::optional<double>& thread, double hole) {
    if (!thread) return;
    if (!strength::stress_area(*thread))
      at.reject(member, millimetres(*thread), "a coarse metric thread from M5 to M48.");
    else
      at.need(*thread < hole, member, *thread, fmt::format("must be below its hole, {}.", millimetres(hole)));
  };
  bolt("foot_bolt", d.foot_bolt, d.foot_hole);
  bolt("flange_bolt", d.flange_bolt, d.flange_hole);
}

bool known_motor_frame(std::string_view name) {
  const auto has_name = [&](const auto& row) { return row.frame == name; };
  return std::any_of(data::kMotorFramesIec.begin(), data::kMotorFramesIec.end(), has_name) ||
         std::any_of(data::kMotorFramesNema.begin(), data::kMotorFramesNema.end(), has_name);
}

void check_frame(Checker at, const Frame& frame) {
  if (frame.stages.empty()) at.reject("stages", "", "a frame needs at least one stage.");
  for (std::size_t i = 0; i < frame.stages.size(); ++i) {
    Checker stage = at.at("stages", i);
    for (std::size_t j = 0; j < i; ++j)
      if (frame.stages[j].geometry.lobes == frame.stages[i].geometry.lobes)
        stage.reject("geometry.lobes", std::to_string(frame.stages[i].geometry.lobes),
                     fmt::format("stages[{}] has as many lobes already; frame and lobes name a stage.", j));
    check_stage(stage, frame.stages[i]);
  }
  check_output(at.at("output"), frame.output);
  check_housing(at.at("housing"), frame.housing);
  Checker dimensions = at.at("dimensions");
  dimensions.positive("length", frame.dimensions.length);
  if (frame.foot) dimensions.positive("shaft_height", frame.dimensions.shaft_height);
  if (frame.flange) dimensions.positive("flange_bolt_circle", frame.dimensions.flange_bolt_circle);
  check_bolts(dimensions, frame.dimensions);
  if (frame.lubricants.empty()) at.reject("lubricants", "", "at least one lubricant must be offered.");
  for (std::size_t i = 0; i < frame.lubricants.size(); ++i)
    at.at("lubricants", i).positive("viscosity_40", frame.lubricants[i].viscosity_40);
  at.positive("input_seal_diameter", frame.input_seal_diameter);
  for (std::size_t i = 0; i < frame.motor_frames.size(); ++i)
    if (!known_motor_frame(frame.motor_frames[i]))
      at.reject(fmt::format("motor_frames[{}]", i), frame.motor_frames[i],
                "not an IEC or NEMA motor frame that Lobewise knows.");
}

/// A pair names one stage by frame and lobes.
void check_reference(Checker& at, const Range& range, std::string_view frame_member, const std::string& name,
                     std::string_view lobes_member, int lobes) {
  const auto frame = std::find_if(range.frames.begin(), range.frames.end(),
                                  [&](const Frame& candidate) { return candidate.name == name; });
  if (frame == range.frames.end()) return at.reject(frame_member, name, "no frame of the range has this name.");
  const bool found = std::any_of(frame->stages.begin(), frame->stages.end(),
                                 [&](const Stage& stage) { return stage.geometry.lobes == lobes; });
  if (!found)
    at.reject(lobes_member, std::to_string(lobes), fmt::format("{} has no stage with as many lobes.", frame->name));
}

void check_pair(Checker at, const Range& range, const TwoStage& pair) {
  check_reference(at, range, "frame", pair.frame, "second_lobes", pair.second_lobes);
  check_reference(at, range, "first_frame", pair.first_frame, "first_lobes", pair.first_lobes);
  at.positive("price", pair.price);
}

}  // namespace

Errors check(const Range& range) {
  Errors errors;
  Checker at("", errors);
  if (range.name.empty()) at.reject("name", "", "the range needs a name.");
  if (range.currency.empty()) at.reject("currency", "", "prices need the word of their currency.");
  if (range.frames.empty()) at.reject("frames", "", "a range needs at least one frame.");
  for (std::size_t i = 0; i < range.frames.size(); ++i) {
    Checker frame = at.at("frames", i);
    if (range.frames[i].name.empty()) frame.reject("name", "", "the frame needs a name.");
    for (std::size_t j = 0; j < i; ++j)
      if (range.frames[j].name == range.frames[i].name)
        frame.reject("name", range.frames[i].name, fmt::format("frames[{}] has this name already.", j));
    check_frame(frame, range.frames[i]);
  }
  for (std::size_t i = 0; i < range.two_stage.size(); ++i) {
    const TwoStage& pair = range.two_stage[i];
    Checker here = at.at("two_stage", i);
    for (std::size_t j = 0; j < i; ++j) {
      const TwoStage& other = range.two_stage[j];
      if (other.frame == pair.frame && other.first_frame == pair.first_frame &&
          other.second_lobes == pair.second_lobes && other.first_lobes == pair.first_lobes)
        here.reject("frame", pair.frame, fmt::format("two_stage[{}] is the same unit.", j));
    }
    check_pair(here, range, pair);
  }
  return errors;
}

}  // namespace lobewise::range
