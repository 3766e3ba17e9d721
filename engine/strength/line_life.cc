#include "engine/strength/line_life.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"

namespace lobewise::strength {
namespace {

constexpr double kMm = 1e3;  // mm in a metre
constexpr double kInfinite = std::numeric_limits<double>::infinity();

double power4(double x) { return x * x * x * x; }
double power45(double x) { return power4(x) * std::sqrt(x); }

double own_load_life(double mean) { return mean > 0 ? std::pow(mean, -8.0 / 9.0) : kInfinite; }
double all_loads_life(double mean) { return mean > 0 ? 1 / mean : kInfinite; }

// Q_c = factor * (sum rho)^(-35/27): what all points of one track share.
double capacity_without_curvature(const LineTrack& t) {
  return kLineCapacityConstant * t.material * std::pow(2.0, 35.0 / 27.0 - 0.25) * std::pow(kPi, 2.0 / 9.0) *
         std::pow(t.length * kMm, 7.0 / 9.0) * std::pow(t.track_length * kMm, -2.0 / 9.0) *
         std::pow(t.passes_per_revolution, -0.25);
}
double curvature_factor(double curvature_sum) { return std::pow(curvature_sum / kMm, -35.0 / 27.0); }

// Ring roller held fast. Its contact point stands at angle g from the direction to the centre, tan g = K sin psi/(1 - K
// cos psi); each point of the arc 0..asin K is met at two phases psi on the one side, at their mirror images on the
// other.
double fixed_side_life(const mechanism::StageGeometry& stage, std::span<const double> flank, double material,
                       int direction) {
  const auto half = static_cast<std::ptrdiff_t>(flank.size() / 2);
  const auto middle = flank.begin() + half;
  if (std::none_of(direction > 0 ? flank.begin() : middle, direction > 0 ? middle : flank.end(),
                   [](double force) { return force > 0; }))
    return kInfinite;
  const mechanism::Profile profile(stage);
  constexpr int kPoints = 360;
  const double K = stage.shortening(), arc = std::asin(K);
  const double factor = capacity_without_curvature({0, stage.width, stage.roller_radius * arc, 1, material});
  const double size = static_cast<double>(flank.size());
  const auto severity = [&](double phase) {
    // Linear between the samples, which stand in the middle of their cells; `direction` chooses the flank.
    double psi = direction > 0 ? phase : 2 * kPi - phase;
    double place = psi / (2 * kPi) * size - 0.5;
    if (place < 0) place += size;
    const double whole = std::floor(place);
    const std::size_t i = static_cast<std::size_t>(whole) % flank.size();
    const double force = flank[i] + (place - whole) * (flank[(i + 1) % flank.size()] - flank[i]);
    const double rho = 1 / stage.roller_radius + profile.curvature(psi / stage.lobes);
    return power4(force / (factor * curvature_factor(rho)));
  };
  double sum = 0;
  for (int i = 0; i < kPoints; ++i) {
    const double g = arc * (i + 0.5) / kPoints;
    const double outer = std::asin(std::sin(g) / K);
    const double both = severity(outer - g) + severity(kPi - outer - g);
    sum += std::pow(both, 9.0 / 8.0);
  }
  return own_load_life(sum / kPoints);
}

PinLife pin_life(const mechanism::StageGeometry& stage, double mean4, double mean45, double material) {
  const double rw = stage.pin_radius, rh = stage.hole_radius();
  const double u = mechanism::eccentric_bearing_speed(stage), rho = 1 / rw - 1 / rh;
  const double hole = line_capacity({rho, stage.width, 2 * kPi * rh, u, material});
  const double sleeve = line_capacity({rho, stage.width, 2 * kPi * rw, rh / rw * u, material});
  return {own_load_life(mean45 / power45(hole)), all_loads_life(mean4 / power4(sleeve))};
}

}  // namespace

double line_capacity(const LineTrack& track) {
  return capacity_without_curvature(track) * curvature_factor(track.curvature_sum);
}

double fixed_load_track_life(std::span<const double> loads, std::span<const double> capacities) {
  double sum = 0;
  for (std::size_t i = 0; i < loads.size(); ++i) sum += power45(loads[i] / capacities[i]);
  return own_load_life(sum / static_cast<double>(loads.size()));
}

double mixed_load_track_life(std::span<const double> loads, std::span<const double> capacities) {
  double sum = 0;
  for (std::size_t i = 0; i < loads.size(); ++i) sum += power4(loads[i] / capacities[i]);
  return all_loads_life(sum / static_cast<double>(loads.size()));
}

double contact_limit_ratio(double pressure, double contamination) {
  const double ratio = kStaticPressure / pressure;
  return contamination * ratio * ratio / kStaticOverFatigueLimit;
}

double static_safety(double pressure) {
  const double ratio = kStaticPressure / pressure;
  return ratio * ratio;
}

LobeLife lobe_life(const mechanism::StageGeometry& stage, std::span<const double> flank, double material) {
  const mechanism::Profile profile(stage);
  const double N = stage.lobes, r = stage.roller_radius;
  const std::size_t n = flank.size();
  const double step = 2 * kPi / static_cast<double>(n);
  double speed_sum = 0, sum4 = 0, sum45 = 0;
  for (std::size_t j = 0; j < n; ++j) {
    const double t = step * (static_cast<double>(j) + 0.5) / N;
    const double speed = mechanism::norm(profile.point_derivative(t));  // |p'|: length of flank per parameter
    speed_sum += speed;
    if (flank[j] <= 0) continue;
    const double q = flank[j] / curvature_factor(1 / r + profile.curvature(t));
    const double q4 = power4(q) * speed;
    sum4 += q4;
    sum45 += q4 * std::sqrt(q);
  }
  LobeLife life;
  life.profile_length = 2 * kPi * speed_sum / static_cast<double>(n);
  life.passes_disc = stage.rollers() / N;
  const double circumference = 2 * kPi * r;
  const double disc = capacity_without_curvature({0, stage.width, life.profile_length, life.passes_disc, material});
  const double roller =
      capacity_without_curvature({0, stage.width, circumference, life.profile_length / (N * circumference), material});
  life.disc = own_load_life(sum45 / speed_sum / power45(disc));
  life.roller_free = all_loads_life(sum4 / speed_sum / power4(roller));
  return life;
}

double fixed_roller_life(const mechanism::StageGeometry& stage, std::span<const double> flank, double material) {
  // One side of the roller per torque direction; both count should both be loaded.
  const double damage = std::pow(fixed_side_life(stage, flank, material, 1), -kWeibullLine) +
                        std::pow(fixed_side_life(stage, flank, material, -1), -kWeibullLine);
  return std::pow(damage, -1 / kWeibullLine);
}

PinLife output_pin_life(const mechanism::StageGeometry& stage, std::span<const double> pins, double material) {
  double sum4 = 0, sum45 = 0;
  for (const double Q : pins) {
    sum4 += power4(Q);
    sum45 += power45(Q);
  }
  const double n = static_cast<double>(pins.size());
  return pin_life(stage, sum4 / n, sum45 / n, material);
}

RigidPinLife rigid_output_pin_life(const mechanism::StageGeometry& stage, double torque, double material) {
  const double Q = 4 * torque / (stage.pins * stage.pin_circle_radius);
  // Mean over a turn of max(sin, 0)^a: Gamma((a+1)/2) / (2 sqrt(pi) Gamma(a/2 + 1)).
  const double mean45 = std::tgamma(2.75) / (2 * std::sqrt(kPi) * std::tgamma(3.25));
  return {Q, pin_life(stage, 3.0 / 16.0 * power4(Q), mean45 * power45(Q), material)};
}

}  // namespace lobewise::strength
