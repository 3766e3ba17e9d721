#include "engine/incumbent/worm.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"

namespace lobewise::incumbent {
namespace {

using namespace formula;

constexpr double kInch = 0.0254;
constexpr double kFootPerMinute = 0.3048 / 60;
constexpr double kPoundForce = 4.4482216152605;
/// Square root of the elasticity constant of steel on bronze; Niemann III, from memory.
constexpr double kElasticity = 147e3;  // sqrt(Pa): 147 sqrt(MPa)
/// Contact factor of cylindrical worms with d_m1 / a about 0.3 … 0.5; Niemann III, from memory.
constexpr Coefficient kContactFactor = {2.9, 2.5, 3.2, "from memory: Niemann, Maschinenelemente III"};
constexpr const char* kFriction = "from memory: AGMA 6034; range common practice, no source";
constexpr const char* kStrength = "from memory: AGMA 6034";
constexpr double kFrictionLow = 0.7;
constexpr double kFrictionHigh = 1.4;

// The factors of AGMA 6034 (from memory) over what it counts in inches and feet a minute.

template <class X>
X materials_factor(const X& centre_distance, const X& wheel_diameter) {
  const X inches = centre_distance / kInch, wheel = wheel_diameter / kInch;
  return choose(
      less_or_equal(inches, 3.0), [&] { return 720.0 + 10.37 * pow(inches, 3.0); },
      [&] {
        return choose(
            less_or_equal(wheel, 8.0), [] { return X(1000.0); }, [&] { return 1411.6518 - 455.8259 * lg(wheel); });
      });
}

template <class X>
X ratio_factor(const X& ratio) {
  return choose(
      less_or_equal(ratio, 20.0), [&] { return 0.02 * sqrt(max(0.0, 40.0 * ratio - pow(ratio, 2.0) - 76.0)) + 0.46; },
      [&] {
        return choose(
            less_or_equal(ratio, 76.0), [&] { return 0.0107 * sqrt(56.0 * ratio - pow(ratio, 2.0) + 5145.0); },
            [&] { return 1.1483 - 0.00658 * ratio; });
      });
}

template <class X>
X velocity_factor(const X& sliding_speed) {
  const X v = sliding_speed / kFootPerMinute;
  return choose(
      less(v, 700.0), [&] { return 0.659 * exp(-0.0011 * v); },
      [&] {
        return choose(
            less(v, 3000.0), [&] { return 13.31 * pow(v, -0.571); }, [&] { return 65.52 * pow(v, -0.774); });
      });
}

/// Steel on bronze over the sliding speed.
template <class X>
X friction_at(const X& sliding_speed) {
  const X v = sliding_speed / kFootPerMinute;
  return choose(
      less(10.0, v), [&] { return 0.103 * exp(-0.110 * pow(v, 0.450)) + 0.012; },
      [&] {
        return choose(
            less(0.0, v), [&] { return 0.124 * exp(-0.074 * pow(v, 0.645)); }, [] { return X(0.15); });
      });
}

template <class X>
X driving_efficiency(const X& lead, const X& normal_angle, const X& friction) {
  const X c = cos(normal_angle);
  return (c - friction * tan(lead)) / (c + friction / tan(lead));
}

/// What a pair does at a duty, each figure from those before it.
template <class X>
struct Figures {
  X sliding_speed, friction, efficiency, allowable_torque, contact_stress;
};

template <class X>
Figures<X> figures(Working& w, const WormGeometry& g, double wheel_torque, double worm_speed) {
  const X starts = as<X>("z_1", "starts of the worm", g.pair.starts),
          quotient = as<X>("q", "worm diameter over module", g.pair.diameter_quotient);
  const X lead = record(w, "gamma", "lead angle", Quantity::angle, atan(starts / quotient), "derived, geometry");
  const X worm = as<X>("d_m1", "worm diameter", g.worm_diameter, Quantity::length);
  const X sliding = record(w, "v_s", "sliding speed", Quantity::speed,
                           as<X>("w_1", "worm speed", worm_speed, Quantity::angular_speed) * worm / 2.0 / cos(lead),
                           "derived, geometry");
  const X friction = record(w, "mu", "friction of steel on bronze", Quantity::number, friction_at(sliding), kFriction);
  const X efficiency =
      record(w, "eta_w", "efficiency of the teeth, worm driving", Quantity::share,
             driving_efficiency(lead, as<X>("alpha_n", "normal pressure angle", g.pair.normal_angle, Quantity::angle),
                                friction),
             "derived, statics of the wedge");
  const X wheel = as<X>("D", "wheel diameter", g.wheel_diameter, Quantity::length),
          face = as<X>("F_e", "effective face", g.face_width, Quantity::length),
          centre = as<X>("a", "centre distance", g.pair.centre_distance, Quantity::length);
  const X ratio = record(w, "u", "ratio of teeth", Quantity::number,
                         as<X>("z_2", "teeth of the wheel", g.pair.wheel_teeth) / starts, "derived, counted");
  const X material =
      record(w, "C_s", "factor of the bronze", Quantity::number, materials_factor(centre, wheel), kStrength);
  const X by_ratio = record(w, "C_m", "factor of the ratio", Quantity::number, ratio_factor(ratio), kStrength);
  const X by_speed =
      record(w, "C_v", "factor of the sliding speed", Quantity::number, velocity_factor(sliding), kStrength);
  const X allowable = record(
      w, "T_2a", "torque the wheel's bronze stands for 25 000 h", Quantity::torque,
      kPoundForce * material * pow(wheel / kInch, 0.8) * (face / kInch) * by_ratio * by_speed * wheel / 2.0, kStrength);
  const X stress =
      record(w, "sigma_H", "contact stress of the wheel", Quantity::pressure,
             as<X>("Z_E", "steel on bronze, root of the elasticity (sqrt(Pa))", kElasticity) *
                 as<X>("Z_rho", "contact factor", kContactFactor.nominal) *
                 sqrt(as<X>("T_2", "torque on the wheel", wheel_torque, Quantity::torque) / pow(centre, 3.0)),
             kContactFactor.source);
  return {sliding, friction, efficiency, allowable, stress};
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
  return driving_efficiency(lead, normal_angle, friction);
}

double worm_reverse_efficiency(double lead, double normal_angle, double friction) {
  const double c = std::cos(normal_angle);
  return (c - friction / std::tan(lead)) / (c + friction * std::tan(lead));
}

Coefficient worm_friction(double sliding_speed) {
  const double mu = friction_at(sliding_speed);
  return {mu, kFrictionLow * mu, kFrictionHigh * mu, kFriction};
}

WormRating rate_worm(const WormGeometry& g, double wheel_torque, double worm_speed) {
  Working none;
  const Figures<double> f = figures<double>(none, g, wheel_torque, worm_speed);
  WormRating r;
  r.sliding_speed = f.sliding_speed;
  r.friction = {f.friction, kFrictionLow * f.friction, kFrictionHigh * f.friction, kFriction};
  r.efficiency = f.efficiency;
  r.reverse_efficiency = worm_reverse_efficiency(g.lead_angle, g.pair.normal_angle, f.friction);
  r.allowable_torque = f.allowable_torque;
  r.torque_safety = r.allowable_torque / wheel_torque;
  r.contact_stress = f.contact_stress;
  return r;
}

Working worm_working(const WormGeometry& g, double wheel_torque, double worm_speed) {
  Working w;
  static_cast<void>(figures<Term>(w, g, wheel_torque, worm_speed));
  return w;
}

}  // namespace lobewise::incumbent
