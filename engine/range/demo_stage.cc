#include "engine/range/demo_stage.h"

#include <algorithm>
#include <cmath>

#include "engine/contact/cycle_forces.h"
#include "engine/range/bearing.h"
#include "engine/range/demo_rules.h"

namespace lobewise::range::demo {
namespace {

Bearing eccentric_bearing(const FlangeRule& rule, double bore_radius, double R, double width, bool caged) {
  Bearing bearing;
  bearing.kind = caged ? BearingKind::cylindrical : BearingKind::full_complement;
  bearing.element_diameter = rounded(rule.bearing_roller * R, 500);
  bearing.pitch_diameter = rounded(2 * bore_radius - bearing.element_diameter, 500);
  bearing.element_length = std::min(rounded(kBearingRollerLength * width, 500), width);
  const int most = strength::full_complement_count(bearing.element_diameter, bearing.pitch_diameter);
  bearing.elements = caged ? static_cast<int>(kCagedShare * most) : most;
  bearing.width = width;
  return bearing;
}

Carried carried_by(double radius) {
  if ((1 - kNeedlePin) * radius >= kNeedleRing) return Carried::needle;
  return (1 - kSleevePin) * radius >= kSleeveRing ? Carried::sleeve : Carried::fixed;
}

/// Shaft, eccentrics and the discs that go round on them; mass of the moving parts, rollers and pins.
void add_masses(Stage& stage) {
  const auto& g = stage.geometry;
  const double R = g.pitch_radius;
  const Bearing& bearing = stage.eccentric_bearing;
  const double eccentric = (bearing.pitch_diameter - bearing.element_diameter) / 2;
  const double bore = outer_raceway_radius(bearing);
  const double disc =
      kSteel * g.width * (disc_area(R - g.roller_radius) - g.pins * disc_area(g.hole_radius()) - disc_area(bore));
  const double shaft = kSteel * disc_area(stage.input_shaft_diameter / 2) * 1.5 * stage.input_span;
  const double cam = kSteel * disc_area(eccentric) * g.width;
  const double rollers = kSteel * g.rollers() * disc_area(g.roller_radius) * g.discs * g.width;
  const double pins = kSteel * g.pins * disc_area(g.pin_radius) * (stage.pin_lever_far + g.width);
  const double elements = kSteel * bearing.elements * disc_area(bearing.element_diameter / 2) * bearing.element_length;
  stage.mass = rounded(g.discs * (disc + cam + elements) + shaft + rollers + pins, 10000);
  const double inertia = shaft * square(stage.input_shaft_diameter / 2) / 2 +
                         g.discs * (cam * square(eccentric) / 2 + (cam + disc) * square(g.eccentricity));
  stage.input_inertia = std::round(inertia * 1e8) / 1e8;
}

}  // namespace

Bearing bearing_of(BearingKind kind, const BearingSize& size) {
  struct Fill {
    double diameter, length, share;  ///< over section, over width, of the circumference
  };
  const Fill fill = kind == BearingKind::tapered ? Fill{0.235, 0.62, 0.88} : Fill{0.28, 0.58, 0.83};
  Bearing bearing;
  bearing.kind = kind;
  bearing.bore = mm(size.bore);
  bearing.outside = mm(size.outside);
  bearing.width = mm(size.width);
  bearing.pitch_diameter = mm((size.bore + size.outside) / 2);
  bearing.element_diameter = rounded(fill.diameter * (bearing.outside - bearing.bore), 500);
  bearing.element_length = rounded(fill.length * bearing.width, 500);
  bearing.elements = static_cast<int>(fill.share * kPi * bearing.pitch_diameter / bearing.element_diameter);
  if (kind == BearingKind::tapered) {
    bearing.axial_e = 0.4;  // alpha = 14.9 deg
    bearing.axial_Y = 1.5;  // 0.4 cot(alpha)
  }
  return bearing;
}

double eccentricity_of(int lobes, double R) { return rounded(shortening(lobes + 1) * R / (lobes + 1), 10); }
double roller_radius_of(int lobes, double R) {
  return rounded(std::min(kRollerRoom * std::sin(kPi / (lobes + 1)), kRollerMost) * R, 50);
}

Flange make_flange(const FlangeRule& rule, double R) {
  Flange flange;
  flange.rule = rule;
  const double e = eccentricity_of(rule.largest_eccentricity_at, R);
  const double root = R - e - roller_radius_of(rule.largest_eccentricity_at, R);
  flange.bore_radius = rounded(rule.bore * R, 500);
  const double hole_from = flange.bore_radius + kBoreWall * R;
  const double hole_radius = (root - kRimWall * R - hole_from) / 2;
  flange.pin_circle_radius = rounded(hole_from + hole_radius, 500);
  flange.pin_radius = rounded(hole_radius - e, 250);
  flange.pins = 4;  // even, so that both discs see the same pattern
  while (flange.pin_circle_radius * std::sin(kPi / (flange.pins + 2)) >= hole_radius + kHoleWall / 2 * R)
    flange.pins += 2;
  return flange;
}

Stage make_stage(int ring_diameter, const Flange& flange, int lobes) {
  Stage stage;
  auto& g = stage.geometry;
  const double R = mm(ring_diameter) / 2;
  g.lobes = lobes;
  g.pitch_radius = R;
  g.roller_radius = roller_radius_of(lobes, R);
  g.eccentricity = eccentricity_of(lobes, R);
  g.width = rounded(kDiscWidth * R, 500);
  g.pins = flange.pins;
  g.pin_circle_radius = flange.pin_circle_radius;
  g.pin_radius = flange.pin_radius;
  const auto clearance = [&](const ClearanceRule& rule) { return rule.least + rule.per_radius * R; };
  g.hole_clearance = rounded(clearance(kHoleGap), 1);
  const double narrowest = std::sqrt(1 - square(g.shortening()));
  g.radius_offset = -rounded((clearance(kTipGap) - clearance(kFlankGap)) / (1 - narrowest), 1);
  g.roller_offset = rounded(clearance(kFlankGap) + g.radius_offset * narrowest, 1);
  g.radius_offset -= rounded(expansion(Material::steel).nominal * kCutForWarmerDisc * R, 1);
  stage.ring_material = Material::ductile_iron;
  tolerance::Manufacture& made = stage.manufacture.emplace();
  made.pitch_radius = rounded(clearance(kPitchRadius), 1);
  made.roller_position = rounded(clearance(kRollerPlace), 1);
  made.hole_position = made.pin_position = rounded(clearance(kPinPlace), 1);
  made.roller_radius = kRollerRadius;
  made.roller_radius_batch = kRollerRadiusBatch;
  made.profile_form = kProfileForm;
  made.profile_batch = kProfileBatch;
  made.hole_radius = kHoleRadius;
  made.hole_radius_batch = kHoleRadiusBatch;
  made.pin_radius = kPinRadius;
  made.pin_radius_batch = kPinRadiusBatch;

  stage.ring_rollers = carried_by(g.roller_radius);
  if (stage.ring_rollers != Carried::fixed)
    stage.ring_pin_radius =
        rounded((stage.ring_rollers == Carried::needle ? kNeedlePin : kSleevePin) * g.roller_radius, 50);
  const bool needles = (1 - kOutputNeedlePin) * g.pin_radius >= kNeedleRing;
  stage.output_rollers = needles ? Carried::needle : Carried::sleeve;
  stage.output_pin_radius = rounded((needles ? kOutputNeedlePin : kOutputSleevePin) * g.pin_radius, 250);
  stage.pins_guided = true;
  const double web = rounded_up(kWeb * g.width, 500);
  stage.pin_lever_near = rounded(mm(1) + web / 2 + g.width / 2, 250);
  stage.pin_lever_far = rounded(stage.pin_lever_near + (g.discs - 1) * (g.width + web), 250);

  const bool caged = ring_diameter > kLargestFullComplement;
  stage.eccentric_bearing = eccentric_bearing(flange.rule, flange.bore_radius, R, g.width, caged);
  stage.max_input_speed =
      std::min(kFastestInput, (caged ? kSpeedIndexCaged : kSpeedIndexFull) / stage.eccentric_bearing.pitch_diameter);
  const double rpm = std::floor(stage.max_input_speed * 60 / (2 * kPi) / 50 + 1e-9) * 50;
  stage.max_input_speed = rpm * 2 * kPi / 60;

  stage.input_shaft_diameter = rounded(kInputShaft * R, 500);
  const BearingSize input =
      bearing_up_to(ring_diameter > kLargestLightInput ? Series::three : Series::two, stage.input_shaft_diameter * 1e3);
  stage.input_bearing = bearing_of(BearingKind::cylindrical, input);
  stage.input_span =
      rounded_up((g.discs - 1) * (g.width + web) + g.width + mm(input.width) + mm(4) + 2 * kInputRoom * R, 500);
  add_masses(stage);
  return stage;
}

double design_torque(const Stage& stage) {
  const auto& g = stage.geometry;
  const auto bearing = rolling_bearing(stage.eccentric_bearing);
  const double turns = kDesignSpeed / (2 * kPi) * 3600 * kDesignHours * g.rollers() / g.lobes;
  const double load = bearing->rating.C * std::pow(1e6 / turns, 1 / strength::kRollerExponent);
  const auto cycle = contact::equal_stiffness_cycle(g, 1, 1);
  return g.discs * load / strength::equivalent_load(cycle.bearing);
}

}  // namespace lobewise::range::demo
