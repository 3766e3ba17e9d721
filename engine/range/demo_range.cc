#include "engine/range/demo_range.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "data/motor_frames_iec.h"
#include "engine/range/demo_rules.h"
#include "engine/range/demo_stage.h"
#include "engine/range/standard_parts.h"

namespace lobewise::range {
namespace {

using namespace demo;

/// Longest key over the length of the shaft end.
constexpr double kKeyShare = 0.95;

/// Pressure on the hub's keyway of a shaft end with its standard key.
double key_pressure(const ShaftEnd& end, double torque) {
  const auto key = parallel_key(end.diameter);
  const double length = mm(key_length(kKeyShare * end.length) - key->width);
  return 2 * torque / (mm(end.diameter) * mm(key->height - key->shaft_depth) * length);
}

/// Smallest shaft end for a torque.
ShaftEnd shaft_end_for(double torque) {
  const auto ends = shaft_ends();
  const auto carries = [&](const ShaftEnd& end) {
    return 16 * torque / (kPi * std::pow(mm(end.diameter), 3)) <= kShaftTorsion &&
           key_pressure(end, torque) <= kKeyPressure;
  };
  const auto found = std::find_if(ends.begin(), ends.end(), carries);
  return found == ends.end() ? ends.back() : *found;
}

OutputShaft make_output(double R, double torque) {
  OutputShaft shaft;
  const ShaftEnd end = shaft_end_for(torque);
  shaft.diameter = mm(end.diameter);
  shaft.length = mm(end.length);
  const Key key = parallel_key(end.diameter).value();
  shaft.key_width = mm(key.width);
  shaft.key_height = mm(key.height);
  shaft.key_shaft_depth = mm(key.shaft_depth);
  shaft.key_length = mm(key_length(kKeyShare * end.length));
  shaft.tensile_strength = kTensileStrength;
  shaft.yield_strength = kYieldStrength;
  // The next bearing leaves a shoulder of at least 2.5 mm in height for what sits on the shaft end.
  const BearingSize outside = bearing_from(Series::two, end.diameter + 5);
  shaft.seat_diameter = mm(outside.bore);
  shaft.shoulder_radius = rounded(mm(0.6) + 0.01 * shaft.seat_diameter, 100);
  shaft.bearing_outside = bearing_of(BearingKind::tapered, outside);
  shaft.bearing_inside = shaft.bearing_outside;
  shaft.arrangement = strength::Arrangement::back_to_back;
  shaft.span = rounded(0.9 * R + mm(outside.width), 1000);
  shaft.overhang = rounded(0.12 * R + mm(outside.width / 2 + 10), 1000);
  shaft.seal_diameter = shaft.seat_diameter;
  return shaft;
}

Housing make_housing(double R) {
  Housing housing;
  housing.diameter = rounded(2.6 * R + mm(22), 1000);
  housing.length = rounded(2.5 * R + mm(20), 1000);
  // One end stands against the machine or its motor and gives off heat over half its face.
  housing.area =
      std::round(1e4 * (kPi * housing.diameter * housing.length + 1.5 * disc_area(housing.diameter / 2))) / 1e4;
  housing.fin_factor = R < mm(80) ? 1.2 : 1.4;
  housing.oil_conductance = std::round(140 * housing.area);  // 200 W/(m2 K) on 0.7 of the wall wetted, common practice
  housing.flange_conductance = std::round(180 * housing.area) / 10;
  housing.oil_volume = rounded(0.16 * disc_area(housing.diameter / 2) * housing.length * 1e3, 50000) / 1e3;
  return housing;
}

Dimensions make_dimensions(double R, const Housing& housing, const OutputShaft& output) {
  Dimensions d;
  d.shaft_height = mm(shaft_height(housing.diameter * 1e3 / 2 + 5));
  d.foot_holes_across = rounded(1.75 * d.shaft_height, 5000);
  d.foot_holes_along = rounded(0.62 * housing.length, 5000);
  d.foot_hole = rounded(mm(7) + 0.07 * R, 1000);
  d.shoulder_to_hole = rounded(output.overhang, 5000);
  d.flange_spigot = rounded(1.05 * housing.diameter, 5000);
  d.flange_bolt_circle = rounded(1.2 * housing.diameter, 5000);
  d.flange_outside = rounded(1.36 * housing.diameter, 5000);
  d.flange_holes = R < mm(80) ? 4 : 8;
  d.flange_hole = d.foot_hole;
  d.foot_bolt = d.flange_bolt = mm(thread_for_hole(d.foot_hole * 1e3 + 1e-6));
  d.bolt_class = strength::BoltClass::c10_9;
  d.length = rounded(housing.length + output.overhang, 1000);
  d.width = rounded(std::max(housing.diameter, d.foot_holes_across + 3 * d.foot_hole), 1000);
  d.height = rounded_up(d.shaft_height + housing.diameter / 2, 1000);
  return d;
}

std::vector<Lubricant> lubricants_of(bool small) {
  // Invented fills; what they still flow at is of the order usual for their kind (data/lubricants.csv).
  const auto celsius = [](double degrees) { return kZeroCelsius + degrees; };
  const Lubricant grease{LubricantKind::grease, BaseOil::mineral, 220e-6, std::nullopt, false, celsius(-20)};
  const Lubricant mineral{LubricantKind::oil, BaseOil::mineral, 220e-6, std::nullopt, false, celsius(-18)};
  const Lubricant synthetic{LubricantKind::oil, BaseOil::pao, 220e-6, std::nullopt, false, celsius(-42)};
  const Lubricant food{LubricantKind::oil, BaseOil::pao, 220e-6, std::nullopt, true, celsius(-36)};
  if (small) return {grease, mineral, synthetic, food};
  return {mineral, synthetic, food};
}

/// Motors whose shaft height is half to 1.3 of the unit's: the adapter neither dwarfs nor is dwarfed.
std::vector<std::string> motor_frames_for(double height) {
  std::vector<std::string> frames;
  for (const auto& row : data::kMotorFramesIec)
    if (mm(row.h_mm) >= 0.5 * height && mm(row.h_mm) <= 1.3 * height) frames.emplace_back(row.frame);
  return frames;
}

/// Price law, credits: what every unit costs to handle, iron and steel by mass, and work on every roller.
double price_of(double mass, int rollers) { return std::round(60 + 14 * std::pow(mass, 0.88) + 1.2 * rollers); }

/// Frame with the torque its other ratios reach at the design duty (those below 17 reach less).
struct Sized {
  Frame frame;
  double torque_low = 0, torque_other = 0;
};

/// Housing walls, the ring round the rollers, the output flange [kg].
double castings(const Frame& frame, const Flange& flange) {
  const double R = frame.stages.front().geometry.pitch_radius;
  const double walls = kIron * frame.housing.area * (mm(6) + 0.05 * R);
  const double ring = kIron * (disc_area(frame.housing.diameter / 2) - disc_area(R)) * frame.stages.front().input_span;
  const double output = kSteel * disc_area(flange.pin_circle_radius + 1.5 * flange.pin_radius) * 0.25 * R;
  return walls + ring + output;
}

Sized make_frame(int ring_diameter) {
  const double R = mm(ring_diameter) / 2;
  const Flange low = make_flange(kLowRatios, R);
  const Flange other = make_flange(kOtherRatios, R);
  Sized sized;
  Frame& frame = sized.frame;
  frame.name = fmt::format("ring-{}", ring_diameter);
  for (const int lobes : kLobes) {
    if (eccentricity_of(lobes, R) < kLeastEccentricity || roller_radius_of(lobes, R) < kLeastRollerRadius) break;
    frame.stages.push_back(
        make_stage(ring_diameter, lobes < kOtherRatios.largest_eccentricity_at ? low : other, lobes));
  }
  const auto stage_of = [&](int lobes) {
    return *std::find_if(frame.stages.begin(), frame.stages.end(),
                         [&](const Stage& stage) { return stage.geometry.lobes == lobes; });
  };
  sized.torque_low = design_torque(stage_of(kLowRatios.largest_eccentricity_at));
  sized.torque_other = design_torque(stage_of(kOtherRatios.largest_eccentricity_at));
  frame.output = make_output(R, sized.torque_other);
  frame.housing = make_housing(R);
  const double shaft = kSteel * disc_area(frame.output.seat_diameter / 2) *
                       (frame.output.length + frame.output.overhang + frame.output.span);
  frame.housing.mass = rounded(frame.stages.front().mass + shaft + castings(frame, other), 100000);
  frame.dimensions = make_dimensions(R, frame.housing, frame.output);
  frame.lubricants = lubricants_of(ring_diameter <= 132);
  frame.upright_lubrication = UprightLubrication::grease;
  frame.input_seal_diameter = frame.stages.front().input_shaft_diameter;
  frame.motor_frames = motor_frames_for(frame.dimensions.shaft_height);
  for (Stage& stage : frame.stages) stage.price = price_of(frame.housing.mass, stage.geometry.rollers());
  return sized;
}

// ---- Two stages ----

struct Ratio {
  int first, second;
};
bool has_stage(const Frame& frame, int lobes) {
  return std::any_of(frame.stages.begin(), frame.stages.end(),
                     [&](const Stage& stage) { return stage.geometry.lobes == lobes; });
}

/// For every total that is aimed at the product nearest to it of a first ratio and a higher one of the frame: the
/// second stage has the higher ratio, so that the first may be small. One product may be the nearest to two terms.
std::vector<Ratio> totals_of(const Frame& frame) {
  std::vector<Ratio> totals;
  for (const double term : kTotalTerms) {
    const auto off = [&](Ratio ratio) { return std::abs(ratio.first * ratio.second / term - 1); };
    Ratio nearest{0, 0};
    for (const int first : kFirstLobes)
      for (const Stage& stage : frame.stages) {
        const Ratio ratio{first, stage.geometry.lobes};
        if (ratio.first < ratio.second && off(ratio) < off(nearest)) nearest = ratio;
      }
    const bool again =
        !totals.empty() && totals.back().first == nearest.first && totals.back().second == nearest.second;
    if (off(nearest) <= kTotalOff && !again) totals.push_back(nearest);
  }
  return totals;
}

/// The smallest frame whose first stage carries what the second asks of it.
std::optional<TwoStage> make_pair(const std::vector<Sized>& frames, std::size_t second, Ratio ratio) {
  const Frame& frame = frames[second].frame;
  const double needed = kFirstStageReserve * frames[second].torque_other / (ratio.second * kSecondStageEfficiency);
  for (std::size_t i = 0; i <= second; ++i) {
    const Frame& first = frames[i].frame;
    const bool low = ratio.first < kOtherRatios.largest_eccentricity_at;
    if ((low ? frames[i].torque_low : frames[i].torque_other) < needed || !has_stage(first, ratio.first)) continue;
    const auto stage = std::find_if(first.stages.begin(), first.stages.end(),
                                    [&](const Stage& candidate) { return candidate.geometry.lobes == ratio.first; });
    TwoStage pair;
    pair.frame = frame.name;
    pair.second_lobes = ratio.second;
    pair.first_frame = first.name;
    pair.first_lobes = ratio.first;
    pair.extra_length = rounded(stage->input_span + 0.3 * stage->geometry.pitch_radius, 1000);
    // The ring housing of the first stage is about a third of its unit.
    pair.extra_mass = rounded(stage->mass + first.housing.mass / 3, 100000);
    pair.price = std::round(price_of(frame.housing.mass + pair.extra_mass, ratio.first + ratio.second + 2));
    return pair;
  }
  return std::nullopt;
}

}  // namespace

Range make_demo_range() {
  Range range;
  range.name = "Demo range";
  range.version = std::string("2");  // moved in: g++ 12 warns wrongly of a one-letter literal
  range.note =
      "An invented range. No such reducers are made; every figure is derived from plain proportions by a generator, so "
      "that Lobewise has something to calculate with. Ring and output rollers run on needles wherever they are large "
      "enough; the smallest frames have plain sleeves, to show what needles are worth. Put your own range in its "
      "place.";
  range.currency = "credits";
  std::vector<Sized> frames;
  for (const int ring_diameter : kRingDiameters) frames.push_back(make_frame(ring_diameter));
  for (std::size_t second = 0; second < frames.size(); ++second)
    for (const Ratio ratio : totals_of(frames[second].frame))
      if (auto pair = make_pair(frames, second, ratio)) range.two_stage.push_back(std::move(*pair));
  for (Sized& sized : frames) range.frames.push_back(std::move(sized.frame));
  return range;
}

const Range& demo_range() {
  static const Range range = make_demo_range();
  return range;
}

}  // namespace lobewise::range
