#include "engine/mechanism/stage_geometry.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/mechanism/profile.h"

namespace lobewise::mechanism {
namespace {

/// Complete elliptic integral of the second kind E(m), 0 <= m < 1, by the arithmetic-geometric mean
/// (Abramowitz & Stegun 17.6.4, from memory; tested against the series and against case files).
double elliptic_e(double m) {
  double a = 1;
  double g = std::sqrt(1 - m);
  double c = std::sqrt(m);
  double sum = m / 2;
  for (double weight = 1; c > 1e-16 && weight < 1e6; weight *= 2) {
    c = (a - g) / 2;
    const double mean = (a + g) / 2;
    g = std::sqrt(a * g);
    a = mean;
    sum += weight * c * c;
  }
  return kPi / (2 * a) * (1 - sum);
}

/// (1/4) closed integral of |p|^2 cross(p, p') dt. The integrand repeats with every lobe and is smooth, so that the
/// trapezoid rule converges exponentially; the number of points follows the width of the peak at the root, which
/// narrows as K' -> 1.
double polar_inertia(const Profile& profile) {
  const int points = std::clamp(static_cast<int>(60 / (1 - profile.shortening())), 256, 100000);
  const double step = 2 * kPi / profile.lobes() / points;
  double sum = 0;
  for (int i = 0; i < points; ++i) {
    const Vec2 p = profile.point(i * step);
    sum += dot(p, p) * cross(p, profile.point_derivative(i * step));
  }
  return sum * step * profile.lobes() / 4;
}

std::string millimetres(double metres) { return fmt::format("{:.6g} mm", metres * 1e3); }

class Checker {
 public:
  explicit Checker(std::string_view path) : path_(path) {}
  Errors take() { return std::move(errors_); }
  [[nodiscard]] bool clean() const { return errors_.empty(); }

  void reject(const char* member, std::string offending, std::string message) {
    errors_.push_back(input_error(fmt::format("{}{}{}", path_, path_.empty() ? "" : ".", member), std::move(offending),
                                  std::move(message)));
  }
  void positive(const char* member, double value) {
    if (!(value > 0) || !std::isfinite(value))
      reject(member, millimetres(value), "must be a length greater than zero.");
  }
  void finite(const char* member, double value) {
    if (!std::isfinite(value)) reject(member, millimetres(value), "must be a finite length.");
  }
  void at_least(const char* member, int value, int least, const char* why) {
    if (value < least) reject(member, std::to_string(value), fmt::format("must be at least {}: {}.", least, why));
  }

 private:
  std::string_view path_;
  Errors errors_;
};

}  // namespace

double roller_radius_limit(const StageGeometry& stage) {
  const double R = stage.cut_pitch_radius();
  const double Z = stage.rollers();
  const double K = stage.eccentricity * Z / R;
  const double u = (K * K * (2 * Z - 1) - (Z - 2)) / (K * (Z + 1));
  if (std::abs(u) <= 1) return R * std::sqrt(27 * (1 - K * K) * (Z - 1) / ((Z + 1) * (Z + 1) * (Z + 1)));
  const double root = (1 - K * Z) / ((1 - K) * (1 - K) * R);
  const double tip = (1 + K * Z) / ((1 + K) * (1 + K) * R);
  return 1 / std::max(root, tip);
}

ProfileFigures profile_figures(const StageGeometry& stage) {
  const Profile profile(stage);
  const double R = profile.radius();
  const double r = profile.roller_radius();
  const double K = profile.shortening();
  const double e = profile.eccentricity();
  ProfileFigures figures;
  figures.roller_radius_limit = roller_radius_limit(stage);
  figures.trace_length = 4 * R * (1 + K) * elliptic_e(4 * K / ((1 + K) * (1 + K)));
  figures.area = kPi * (R * R + profile.rollers() * e * e) - r * figures.trace_length + kPi * r * r;
  figures.polar_inertia = polar_inertia(profile);
  figures.tip_curvature = profile.curvature(kPi / profile.lobes());
  figures.root_curvature = profile.curvature(0);
  figures.max_curvature = 1 / (figures.roller_radius_limit - r);
  return figures;
}

Errors check_geometry(const StageGeometry& stage, std::string_view path) {
  Checker check(path);
  check.at_least("lobes", stage.lobes, 2, "one lobe makes no disc that meshes");
  check.at_least("discs", stage.discs, 1, "a stage has a disc");
  check.at_least("pins", stage.pins, 3, "fewer output pins leave crank angles at which none can carry torque");
  check.positive("pitch_radius", stage.pitch_radius);
  check.positive("roller_radius", stage.roller_radius);
  check.positive("eccentricity", stage.eccentricity);
  check.positive("width", stage.width);
  check.positive("pin_circle_radius", stage.pin_circle_radius);
  check.positive("pin_radius", stage.pin_radius);
  check.finite("roller_offset", stage.roller_offset);
  check.finite("radius_offset", stage.radius_offset);
  if (!(stage.hole_clearance >= 0) || !std::isfinite(stage.hole_clearance))
    check.reject("hole_clearance", millimetres(stage.hole_clearance),
                 "must be zero or more: a tighter hole jams on its pin.");
  if (!(stage.flank_relief >= 0) || !(stage.flank_relief < kPi / (2 * std::max(stage.lobes, 1))))
    check.reject("flank_relief", fmt::format("{:.6g} rad", stage.flank_relief),
                 fmt::format("must be zero or more and below a quarter of a lobe, {:.6g} rad.",
                             kPi / (2 * std::max(stage.lobes, 1))));
  if (!check.clean()) return check.take();

  const double R = stage.cut_pitch_radius();
  const double r = stage.cut_roller_radius();
  const double Z = stage.rollers();
  if (!(R > 0)) check.reject("radius_offset", millimetres(stage.radius_offset), "must leave a positive pitch radius.");
  if (!(r > 0)) check.reject("roller_offset", millimetres(stage.roller_offset), "must leave a positive roller radius.");
  if (!check.clean()) return check.take();

  const double least_radius = std::min(R, stage.pitch_radius);
  if (stage.eccentricity * Z >= least_radius) {
    check.reject("eccentricity", millimetres(stage.eccentricity),
                 fmt::format("must be below pitch radius / rollers = {} (shortening below 1), or the lobes get loops.",
                             millimetres(least_radius / Z)));
    return check.take();
  }
  const double overlap_limit = stage.pitch_radius * std::sin(kPi / Z);
  if (stage.roller_radius >= overlap_limit)
    check.reject("roller_radius", millimetres(stage.roller_radius),
                 fmt::format("must be below {}, or neighbouring ring rollers overlap.", millimetres(overlap_limit)));
  const double undercut_limit = roller_radius_limit(stage);
  if (r >= undercut_limit)
    check.reject("roller_radius", millimetres(r),
                 fmt::format("must be below {}, or the lobes are undercut.", millimetres(undercut_limit)));

  const double hole = stage.hole_radius();
  const double pitch_limit = stage.pin_circle_radius * std::sin(kPi / stage.pins);
  const double root_radius = R - stage.eccentricity - r;
  if (hole >= pitch_limit)
    check.reject("pins", std::to_string(stage.pins),
                 fmt::format("the output holes cut each other: their radius {} must be below {}.", millimetres(hole),
                             millimetres(pitch_limit)));
  if (stage.pin_circle_radius + hole >= root_radius)
    check.reject(
        "pin_circle_radius", millimetres(stage.pin_circle_radius),
        fmt::format("must be below {}, or the output holes cut the lobe roots.", millimetres(root_radius - hole)));
  if (stage.pin_circle_radius <= hole)
    check.reject(
        "pin_circle_radius", millimetres(stage.pin_circle_radius),
        fmt::format("must be above the hole radius {}, or the output holes cut the centre.", millimetres(hole)));
  return check.take();
}

Errors check_bore(const StageGeometry& stage, double bore_radius, std::string_view path) {
  Errors errors;
  const double limit = stage.pin_circle_radius - stage.hole_radius();
  if (!(bore_radius > 0) || !(bore_radius < limit))
    errors.push_back(input_error(
        std::string(path), millimetres(bore_radius),
        fmt::format("must be above zero and below {}, or the bore cuts the output holes.", millimetres(limit))));
  return errors;
}

}  // namespace lobewise::mechanism
