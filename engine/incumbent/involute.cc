#include "engine/incumbent/involute.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/base/constants.h"

namespace lobewise::incumbent {
namespace {

constexpr int kMinTeeth = 6;
constexpr double kMaxHelix = 0.8;
/// Undercut up to this share of the module is let pass: it stays outside the path of contact, and 17 teeth of 20
/// degrees (17.1 by the formula) are the customary limit. Common practice, no source.
constexpr double kUndercutTolerance = 0.02;

/// Length on the line of action from the tangent point of the base circle to the tip circle.
double tip_length(double tip_radius, double base_radius) {
  return std::sqrt(tip_radius * tip_radius - base_radius * base_radius);
}

void check_gear(const Gear& gear, const std::string& path, Errors& errors) {
  if (gear.teeth < kMinTeeth) {
    errors.push_back(input_error(path + ".teeth", std::to_string(gear.teeth), "A gear needs at least 6 teeth."));
  }
  if (!(gear.addendum > 0.2 && gear.addendum < 2.5)) {
    errors.push_back(input_error(path + ".addendum", std::to_string(gear.addendum),
                                 "The addendum is a multiple of the module between 0.2 and 2.5."));
  }
  if (!(std::abs(gear.shift) <= 2)) {
    errors.push_back(
        input_error(path + ".shift", std::to_string(gear.shift), "The profile shift lies between -2 and 2 modules."));
  }
}

Errors check_input(const GearPair& pair) {
  Errors errors;
  check_gear(pair.pinion, "pinion", errors);
  check_gear(pair.wheel, "wheel", errors);
  if (!(pair.module > 0)) {
    errors.push_back(input_error("module", std::to_string(pair.module), "The module must be positive."));
  }
  if (!(pair.face_width > 0)) {
    errors.push_back(input_error("face_width", std::to_string(pair.face_width), "The face width must be positive."));
  }
  if (!(pair.helix >= 0 && pair.helix <= kMaxHelix)) {
    errors.push_back(
        input_error("helix", std::to_string(pair.helix), "The helix angle lies between 0 and 0.8 rad (45 degrees)."));
  }
  if (!(pair.rack.pressure_angle > 0.2 && pair.rack.pressure_angle < 0.5)) {
    errors.push_back(input_error("rack.pressure_angle", std::to_string(pair.rack.pressure_angle),
                                 "The pressure angle lies between 0.2 and 0.5 rad."));
  }
  if (pair.internal && (pair.pinion.shift != 0 || pair.wheel.shift != 0)) {
    errors.push_back(model_error("shift", "", "Internal pairs are modelled without profile shift."));
  }
  if (pair.internal && pair.wheel.teeth <= pair.pinion.teeth) {
    errors.push_back(
        input_error("wheel.teeth", std::to_string(pair.wheel.teeth), "A ring has more teeth than its pinion."));
  }
  return errors;
}

/// The rack tip cuts below the base circle's tangent point: the involute is lost near the root.
bool undercut(const PairGeometry& g, const Gear& gear, double reference_radius) {
  const double m = g.pair.module;
  const double alpha = g.pressure_angle;
  const double depth = m * (g.pair.rack.dedendum - g.pair.rack.tip_radius * (1 - std::sin(alpha)) - gear.shift);
  return depth > reference_radius * std::sin(alpha) * std::sin(alpha) + kUndercutTolerance * m;
}

}  // namespace

double involute(double alpha) { return std::tan(alpha) - alpha; }

double inverse_involute(double value) {
  double alpha = std::cbrt(3 * value);
  if (alpha > 1) {
    alpha = std::atan(value + 1);
  }
  for (int i = 0; i < 30; ++i) {
    const double t = std::tan(alpha);
    const double step = t == 0 ? 0 : (t - alpha - value) / (t * t);
    alpha -= step;
    if (std::abs(step) < 1e-15) {
      break;
    }
  }
  return alpha;
}

Result<PairGeometry> pair_geometry(const GearPair& pair) {
  if (Errors errors = check_input(pair); !errors.empty()) {
    return errors;
  }
  PairGeometry g;
  g.pair = pair;
  const double z1 = pair.pinion.teeth;
  const double z2 = pair.wheel.teeth;
  const double m = pair.module;
  const double sign = pair.internal ? -1 : 1;
  g.ratio = z2 / z1;
  g.transverse_module = m / std::cos(pair.helix);
  g.pressure_angle = std::atan(std::tan(pair.rack.pressure_angle) / std::cos(pair.helix));
  g.base_helix = std::asin(std::sin(pair.helix) * std::cos(pair.rack.pressure_angle));
  const double shifted = involute(g.pressure_angle) + 2 * std::tan(pair.rack.pressure_angle) *
                                                          (pair.pinion.shift + sign * pair.wheel.shift) /
                                                          (z1 + sign * z2);
  if (!(shifted > 0)) {
    return model_error("shift", std::to_string(pair.pinion.shift + pair.wheel.shift),
                       "So much negative profile shift leaves no working pressure angle.");
  }
  g.working_angle = shifted == involute(g.pressure_angle) ? g.pressure_angle : inverse_involute(shifted);
  g.r1 = z1 * g.transverse_module / 2;
  g.r2 = z2 * g.transverse_module / 2;
  g.rb1 = g.r1 * std::cos(g.pressure_angle);
  g.rb2 = g.r2 * std::cos(g.pressure_angle);
  g.rw1 = g.rb1 / std::cos(g.working_angle);
  g.rw2 = g.rb2 / std::cos(g.working_angle);
  g.centre_distance = g.rw2 + sign * g.rw1;
  g.ra1 = g.r1 + m * (pair.pinion.addendum + pair.pinion.shift);
  g.ra2 = g.r2 + sign * m * (pair.wheel.addendum + pair.wheel.shift);
  if (g.ra2 <= g.rb2) {
    return model_error("wheel.addendum", std::to_string(pair.wheel.addendum),
                       "The tip of the wheel lies inside its base circle, where no involute exists.");
  }
  g.base_pitch = kPi * g.transverse_module * std::cos(g.pressure_angle);
  const double sine = std::sin(g.working_angle);
  g.approach = sign * (tip_length(g.ra2, g.rb2) - g.rw2 * sine);
  g.recess = tip_length(g.ra1, g.rb1) - g.rw1 * sine;
  g.contact_ratio = g.path() / g.base_pitch;
  g.overlap_ratio = pair.face_width * std::sin(pair.helix) / (kPi * m);
  if (g.approach > g.rw1 * sine || (!pair.internal && g.recess > g.rw2 * sine)) {
    return model_error("teeth", std::to_string(pair.pinion.teeth),
                       "The tip of one gear would touch the other below its base circle (interference).");
  }
  if (undercut(g, pair.pinion, g.r1)) {
    return model_error("pinion.teeth", std::to_string(pair.pinion.teeth),
                       "The pinion would be undercut: more teeth or more positive profile shift is needed.");
  }
  if (g.contact_ratio < 1) {
    return model_error("addendum", std::to_string(g.contact_ratio),
                       "The contact ratio in the transverse plane is below 1, so the teeth would lose contact.");
  }
  return g;
}

Curvature curvature_at(const PairGeometry& geometry, double g) {
  const double sine = std::sin(geometry.working_angle);
  Curvature c;
  c.pinion = geometry.rw1 * sine + g;
  if (geometry.pair.internal) {
    c.wheel = geometry.rw2 * sine + g;
    c.relative = c.pinion * c.wheel / (c.wheel - c.pinion);
  } else {
    c.wheel = geometry.rw2 * sine - g;
    c.relative = c.pinion * c.wheel / (c.wheel + c.pinion);
  }
  return c;
}

double sliding_speed(const PairGeometry& geometry, double g, double pinion_speed) {
  const double wheel_speed = pinion_speed / geometry.ratio;
  return std::abs(g * (geometry.pair.internal ? pinion_speed - wheel_speed : pinion_speed + wheel_speed));
}

double contact_angle(const PairGeometry& geometry) { return geometry.path() / geometry.rb1; }

double half_tooth_angle(const PairGeometry& geometry, bool wheel, double radius) {
  const Gear& gear = wheel ? geometry.pair.wheel : geometry.pair.pinion;
  const double base = wheel ? geometry.rb2 : geometry.rb1;
  const double at_reference =
      (kPi / 2 + 2 * gear.shift * std::tan(geometry.pair.rack.pressure_angle)) / static_cast<double>(gear.teeth);
  const double alpha = std::acos(std::min(1.0, base / radius));
  const double external = at_reference + involute(geometry.pressure_angle) - involute(alpha);
  return wheel && geometry.pair.internal ? kPi / gear.teeth - external : external;
}

namespace {

struct Polar {
  double radius = 0, angle = 0;
};

/// Lower half of an external tooth: from the space centre (angle -pi/z) to the tip.
std::vector<Polar> external_half(const PairGeometry& g, bool wheel, int points) {
  const Gear& gear = wheel ? g.pair.wheel : g.pair.pinion;
  const double m = g.pair.module;
  const double alpha = g.pressure_angle;
  const double r = wheel ? g.r2 : g.r1;
  const double base = wheel ? g.rb2 : g.rb1;
  const double tip = wheel ? g.ra2 : g.ra1;
  const double rho = g.pair.rack.tip_radius * m;
  const double centre_depth = g.pair.rack.dedendum * m - rho;
  // Half width of the rack tooth at the centre of its tip circle, and depth of that centre below the pitch circle.
  const double half_width = kPi * g.transverse_module / 4 - centre_depth * std::tan(alpha) - rho / std::cos(alpha);
  const double depth = centre_depth - gear.shift * m;
  const double space = kPi / gear.teeth;
  std::vector<Polar> half;
  half.push_back({r - depth - rho, -space});
  // The point the tip circle cuts lies where the line from the pitch point through its centre leaves the circle.
  for (int i = 0; i <= points; ++i) {
    const double across = depth / std::tan(alpha) * i / points;
    const double length = std::hypot(across, depth);
    const double stretch = length > 0 ? 1 + rho / length : 1;
    const double x = across * stretch;
    const double y = r - depth * stretch;
    const double from_space = std::atan2(x, y) + (half_width - across) / r;
    half.push_back({std::hypot(x, y), from_space - space});
  }
  const double start = std::max(half.back().radius, base);
  for (int i = 1; i <= points; ++i) {
    const double radius = start + (tip - start) * i / points;
    half.push_back({radius, -half_tooth_angle(g, wheel, radius)});
  }
  half.push_back({tip, 0});
  return half;
}

std::vector<Polar> internal_half(const PairGeometry& g, int points) {
  const double root = g.r2 + g.pair.rack.dedendum * g.pair.module;
  const double space = kPi / g.pair.wheel.teeth;
  std::vector<Polar> half;
  half.push_back({root, -space});
  for (int i = 0; i <= points; ++i) {
    const double radius = root + (g.ra2 - root) * i / points;
    half.push_back({radius, -half_tooth_angle(g, true, radius)});
  }
  half.push_back({g.ra2, 0});
  return half;
}

}  // namespace

std::vector<Point> tooth_outline(const PairGeometry& geometry, bool wheel, int points) {
  const int n = std::max(points, 4);
  const std::vector<Polar> half =
      wheel && geometry.pair.internal ? internal_half(geometry, n) : external_half(geometry, wheel, n);
  std::vector<Point> outline;
  outline.reserve(2 * half.size());
  for (const Polar& p : half) {
    outline.push_back({p.radius * std::cos(p.angle), p.radius * std::sin(p.angle)});
  }
  for (auto p = half.rbegin() + 1; p != half.rend(); ++p) {
    outline.push_back({p->radius * std::cos(p->angle), -p->radius * std::sin(p->angle)});
  }
  return outline;
}

}  // namespace lobewise::incumbent
