#include "engine/strength/bearing_life.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "engine/base/constants.h"
#include "engine/strength/life_factor.h"
#include "engine/strength/system_life.h"

namespace lobewise::strength {
namespace {

constexpr double kMm = 1e3;  // mm in a metre
constexpr double kInfinite = std::numeric_limits<double>::infinity();

Error no_factor(double kappa) {
  return model_error("kappa", std::to_string(kappa),
                     "Below a viscosity ratio of 0.1 the fatigue model gives no life factor; wear decides.");
}

}  // namespace

double basic_life(double C, double P, double exponent) { return P > 0 ? 1e6 * std::pow(C / P, exponent) : kInfinite; }

double life_hours(double revolutions, double speed) { return revolutions / (speed / (2 * kPi)) / 3600; }

double equivalent_load(std::span<const double> forces, std::span<const double> weights, double exponent) {
  // Scaled by the largest force so that neither end of the double range is reached.
  const double scale = *std::max_element(forces.begin(), forces.end());
  if (scale <= 0) return 0;
  double sum = 0, total = 0;
  for (std::size_t i = 0; i < forces.size(); ++i) {
    const double w = weights.empty() ? 1.0 : weights[i];
    sum += w * std::pow(forces[i] / scale, exponent);
    total += w;
  }
  return scale * std::pow(sum / total, 1 / exponent);
}

DutyEquivalent duty_equivalent(std::span<const double> loads, std::span<const double> speeds,
                               std::span<const double> time_shares, double exponent) {
  const double scale = *std::max_element(loads.begin(), loads.end());
  double sum = 0, speed = 0;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const double turns = time_shares[i] * speeds[i];
    if (scale > 0) sum += turns * std::pow(loads[i] / scale, exponent);
    speed += turns;
  }
  return {scale * std::pow(sum / speed, 1 / exponent), speed};
}

double spectrum_life(std::span<const double> time_shares, std::span<const double> lives) {
  double damage = 0;
  for (std::size_t i = 0; i < lives.size(); ++i) damage += time_shares[i] / lives[i];
  return 1 / damage;
}

double roller_fc(double roller_diameter, double pitch_diameter, double contact_angle) {
  const double g = roller_diameter * std::cos(contact_angle) / pitch_diameter;
  const double rings = 1 + std::pow(1.04 * std::pow((1 - g) / (1 + g), 143.0 / 108.0), 4.5);
  return 207.9 * kRollerReduction * std::pow(g, 2.0 / 9.0) * std::pow(1 - g, 29.0 / 27.0) / std::pow(1 + g, 0.25) *
         std::pow(rings, -2.0 / 9.0);
}

BearingRating roller_rating(const RollerBearingGeometry& b) {
  const double length = b.rows * b.roller_length * kMm * std::cos(b.contact_angle);
  const double diameter = b.roller_diameter * kMm;
  const double g = b.roller_diameter * std::cos(b.contact_angle) / b.pitch_diameter;
  BearingRating rating;
  rating.C = b.material * roller_fc(b.roller_diameter, b.pitch_diameter, b.contact_angle) *
             std::pow(length, 7.0 / 9.0) * std::pow(b.rollers, 0.75) * std::pow(diameter, 29.0 / 27.0);
  rating.C_0 = 44 * (1 - g) * b.rollers * length * diameter;
  rating.C_u = rating.C_0 / kStaticOverFatigueLimit;
  if (b.pitch_diameter > 0.1) rating.C_u *= std::pow(0.1 / b.pitch_diameter, 0.3);
  return rating;
}

int full_complement_count(double roller_diameter, double pitch_diameter) {
  const double pitch = std::asin(roller_diameter / pitch_diameter) / kPi;  // share of the turn that one roller takes
  return static_cast<int>(std::floor(0.995 / pitch));
}

double reliability_factor(double reliability) { return life_share(reliability, kWeibullModified, kLeastLifeModified); }

Result<double> life_factor_roller(double kappa, double limit_ratio) {
  if (!(kappa >= kKappaMin)) return no_factor(kappa);
  return roller_life_factor(kappa, limit_ratio);
}

LifeFactor life_factor(RollingElement element, double kappa, double limit_ratio) {
  if (!(kappa >= kKappaMin)) return {kLifeFactorBound, true};
  return {
      element == RollingElement::ball ? ball_life_factor(kappa, limit_ratio) : roller_life_factor(kappa, limit_ratio),
      false};
}

BearingLife bearing_life(const RollingBearing& bearing, double P, double speed, const LifeConditions& conditions) {
  const BearingRating& rating = bearing.rating;
  const double p = bearing.element == RollingElement::ball ? kBallExponent : kRollerExponent;
  BearingLife life;
  life.basic_hours = life_hours(basic_life(rating.C, P, p), speed);
  // Without load the ratio would be infinite; any large one says the same.
  life.factor = life_factor(bearing.element, conditions.kappa, P > 0 ? conditions.contamination * rating.C_u / P : 1e6);
  life.modified_hours = reliability_factor(conditions.reliability) * life.factor.value * life.basic_hours;
  life.overloaded = P > kLoadRatioMax * rating.C;
  return life;
}

}  // namespace lobewise::strength
