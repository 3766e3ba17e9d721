#include "engine/incumbent/worm.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/base/constants.h"

namespace lobewise::incumbent {
namespace {

constexpr double kInch = 0.0254;
constexpr double kFoot = 0.3048;
constexpr double kPoundForce = 4.4482216152605;
/// Square root of the elasticity constant of steel on bronze; Niemann III, from memory.
constexpr double kElasticity = 147e3;  // sqrt(Pa): 147 sqrt(MPa)
/// Contact factor of cylindrical worms with d_m1 / a about 0.3 … 0.5; Niemann III, from memory.
constexpr Coefficient kContactFactor = {2.9, 2.5, 3.2, "from memory: Niemann, Maschinenelemente III"};
constexpr double kFrictionLow = 0.7;
constexpr double kFrictionHigh = 1.4;

double materials_factor(double centre_inches, double wheel_inches) {
  if (centre_inches <= 3) {
    return 720 + 10.37 * centre_inches * centre_inches * centre_inches;
  }
  return wheel_inches <= 8 ? 1000 : 1411.6518 - 455.8259 * std::log10(wheel_inches);
}

double ratio_factor(double ratio) {
  if (ratio <= 20) {
    return 0.02 * std::sqrt(std::max(0.0, -ratio * ratio + 40 * ratio - 76)) + 0.46;
  }
  if (ratio <= 76) {
    return 0.0107 * std::sqrt(-ratio * ratio + 56 * ratio + 5145);
  }
  return 1.1483 - 0.00658 * ratio;
}

double velocity_factor(double feet_per_minute) {
  if (feet_per_minute < 700) {
    return 0.659 * std::exp(-0.0011 * feet_per_minute);
  }
  if (feet_per_minute < 3000) {
    return 13.31 * std::pow(feet_per_minute, -0.571);
  }
  return 65.52 * std::pow(feet_per_minute, -0.774);
}

}  // namespace

Result<WormGeometry> worm_geometry(const WormPair& pair) {
  Errors errors;
  if (pair.starts < 1 || pair.starts > 8) {
    errors.push_back(input_error("starts", std::to_string(pair.starts), "A worm has 1 to 8 starts."));
  }
  if (pair.wheel_teeth < 20) {
    errors.push_back(
        input_error("wheel_teeth", std::to_string(pair.wheel_teeth), "A worm wheel has at least 20 teeth."));
  }
  if (!(pair.centre_distance >= 0.02 && pair.centre_distance <= 0.6)) {
    errors.push_back(input_error("centre_distance", std::to_string(pair.centre_distance),
                                 "The centre distance lies between 20 and 600 mm."));
  }
  if (!(pair.diameter_quotient >= 6 && pair.diameter_quotient <= 20)) {
    errors.push_back(input_error("diameter_quotient", std::to_string(pair.diameter_quotient),
                                 "Worm diameter over module lies between 6 and 20."));
  }
  if (!errors.empty()) {
    return errors;
  }
  WormGeometry g;
  g.pair = pair;
  g.ratio = static_cast<double>(pair.wheel_teeth) / pair.starts;
  g.module = 2 * pair.centre_distance / (pair.diameter_quotient + pair.wheel_teeth);
  g.worm_diameter = pair.diameter_quotient * g.module;
  g.wheel_diameter = pair.wheel_teeth * g.module;
  g.lead_angle = lead_angle(pair.starts, g.module, g.worm_diameter);
  g.face_width = 0.67 * g.worm_diameter;
  return g;
}

double lead_angle(int starts, double axial_module, double worm_diameter) {
  return std::atan(starts * axial_module / worm_diameter);
}

double worm_efficiency(double lead, double normal_angle, double friction) {
  const double c = std::cos(normal_angle);
  return (c - friction * std::tan(lead)) / (c + friction / std::tan(lead));
}

double worm_reverse_efficiency(double lead, double normal_angle, double friction) {
  const double c = std::cos(normal_angle);
  return (c - friction / std::tan(lead)) / (c + friction * std::tan(lead));
}

Coefficient worm_friction(double sliding_speed) {
  const double v = sliding_speed / kFoot * 60;
  double mu = 0.15;
  if (v > 10) {
    mu = 0.103 * std::exp(-0.110 * std::pow(v, 0.450)) + 0.012;
  } else if (v > 0) {
    mu = 0.124 * std::exp(-0.074 * std::pow(v, 0.645));
  }
  return {mu, kFrictionLow * mu, kFrictionHigh * mu, "from memory: AGMA 6034; range common practice, no source"};
}

WormRating rate_worm(const WormGeometry& g, double wheel_torque, double worm_speed) {
  WormRating r;
  r.sliding_speed = worm_speed * g.worm_diameter / 2 / std::cos(g.lead_angle);
  r.friction = worm_friction(r.sliding_speed);
  const double angle = g.pair.normal_angle;
  r.efficiency = worm_efficiency(g.lead_angle, angle, r.friction.nominal);
  r.reverse_efficiency = worm_reverse_efficiency(g.lead_angle, angle, r.friction.nominal);
  const double wheel_inches = g.wheel_diameter / kInch;
  const double force = materials_factor(g.pair.centre_distance / kInch, wheel_inches) * std::pow(wheel_inches, 0.8) *
                       (g.face_width / kInch) * ratio_factor(g.ratio) * velocity_factor(r.sliding_speed / kFoot * 60) *
                       kPoundForce;
  r.allowable_torque = force * g.wheel_diameter / 2;
  r.torque_safety = r.allowable_torque / wheel_torque;
  r.contact_stress =
      kElasticity * kContactFactor.nominal * std::sqrt(wheel_torque / std::pow(g.pair.centre_distance, 3));
  return r;
}

Working worm_working(const WormGeometry& g, double wheel_torque, double worm_speed) {
  const WormRating r = rate_worm(g, wheel_torque, worm_speed);
  Working w;
  w.push_back({"gamma",
               "lead angle",
               "tan gamma = z1 / q",
               {{"z1", "starts", static_cast<double>(g.pair.starts), Quantity::number},
                {"q", "worm diameter over module", g.pair.diameter_quotient, Quantity::number}},
               g.lead_angle,
               Quantity::angle,
               "derived, geometry"});
  w.push_back({"v_s",
               "sliding speed",
               "v_s = w_1 d_m1 / (2 cos gamma)",
               {{"w_1", "worm speed", worm_speed, Quantity::angular_speed},
                {"d_m1", "worm diameter", g.worm_diameter, Quantity::length}},
               r.sliding_speed,
               Quantity::speed,
               "derived, geometry"});
  w.push_back({"mu",
               "friction of steel on bronze",
               "mu = 0.103 exp(-0.110 V^0.450) + 0.012, V in ft/min",
               {{"v_s", "sliding speed", r.sliding_speed, Quantity::speed}},
               r.friction.nominal,
               Quantity::number,
               r.friction.source});
  w.push_back({"eta",
               "efficiency of the teeth, worm driving",
               "eta = (cos alpha_n - mu tan gamma) / (cos alpha_n + mu / tan gamma)",
               {{"mu", "friction", r.friction.nominal, Quantity::number},
                {"gamma", "lead angle", g.lead_angle, Quantity::angle}},
               r.efficiency,
               Quantity::share,
               "derived, statics of the wedge"});
  w.push_back({"T_2 allowable",
               "torque the wheel's bronze stands for 25 000 h",
               "T_2 = C_s D^0.8 F_e C_m C_v D / 2 (lbf, in)",
               {{"D", "wheel diameter", g.wheel_diameter, Quantity::length},
                {"F_e", "effective face", g.face_width, Quantity::length}},
               r.allowable_torque,
               Quantity::torque,
               "from memory: AGMA 6034"});
  w.push_back({"sigma_H",
               "contact stress of the wheel",
               "sigma_H = Z_E Z_rho sqrt(T_2 / a^3)",
               {{"Z_rho", "contact factor", kContactFactor.nominal, Quantity::number},
                {"T_2", "torque on the wheel", wheel_torque, Quantity::torque},
                {"a", "centre distance", g.pair.centre_distance, Quantity::length}},
               r.contact_stress,
               Quantity::pressure,
               kContactFactor.source});
  return w;
}

}  // namespace lobewise::incumbent
