#include "engine/incumbent/rating.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "engine/base/constants.h"
#include "engine/incumbent/tooth_load.h"

namespace lobewise::incumbent {
namespace {

constexpr double kInch = 0.0254;
constexpr double kFootPerMinute = 0.3048 / 60;

/// Life factor as a line of points in log-log; case-hardened steel, ISO 6336-2 and -3, from memory.
struct LifePoint {
  double cycles, factor;
};
constexpr LifePoint kContactLife[] = {{1e5, 1.6}, {5e7, 1.0}, {1e10, 0.85}};
constexpr LifePoint kBendingLife[] = {{1e3, 2.5}, {3e6, 1.0}, {1e10, 0.85}};
/// A tooth that bends both ways stands this share of the pulsating limit (ISO 6336-5, from memory).
constexpr double kReversedBending = 0.7;
/// Teeth that stand for a ring's root in the form factor.
constexpr double kRingRootTeeth = 1000;

double life_factor(const LifePoint (&curve)[3], double cycles) {
  const double n = std::clamp(cycles, curve[0].cycles, curve[2].cycles);
  const int i = n <= curve[1].cycles ? 0 : 1;
  const double slope =
      std::log(curve[i + 1].factor / curve[i].factor) / std::log(curve[i + 1].cycles / curve[i].cycles);
  return curve[i].factor * std::pow(n / curve[i].cycles, slope);
}

/// Cycles at which the life factor has fallen to `factor`: the first point's cycles above the curve, infinity below it.
double life_cycles(const LifePoint (&curve)[3], double factor) {
  if (factor >= curve[0].factor) {
    return factor > curve[0].factor ? 0 : curve[0].cycles;
  }
  if (factor < curve[2].factor) {
    return std::numeric_limits<double>::infinity();
  }
  const int i = factor >= curve[1].factor ? 0 : 1;
  const double slope =
      std::log(curve[i + 1].factor / curve[i].factor) / std::log(curve[i + 1].cycles / curve[i].cycles);
  return curve[i].cycles * std::pow(factor / curve[i].factor, 1 / slope);
}

double cycles(double speed, double meshes, double service_time) { return speed / (2 * kPi) * service_time * meshes; }

/// Z_H: curvature of the flanks at the pitch point.
double zone_factor(const PairGeometry& g) {
  const double c = std::cos(g.pressure_angle);
  return std::sqrt(2 * std::cos(g.base_helix) * std::cos(g.working_angle) / (c * c * std::sin(g.working_angle)));
}

/// Z_eps: share of the load per length of contact line.
double contact_ratio_factor(const PairGeometry& g) {
  const double overlap = std::min(g.overlap_ratio, 1.0);
  return std::sqrt((4 - g.contact_ratio) / 3 * (1 - overlap) + overlap / g.contact_ratio);
}

/// Z_B: from the pitch point to the inner point of single contact of the pinion.
double single_contact_factor(const PairGeometry& g) {
  if (g.pair.internal) {
    return 1;
  }
  const double step = 2 * kPi;
  const double a = std::sqrt(g.ra1 * g.ra1 / (g.rb1 * g.rb1) - 1) - step / g.pair.pinion.teeth;
  const double b = std::sqrt(g.ra2 * g.ra2 / (g.rb2 * g.rb2) - 1) - (g.contact_ratio - 1) * step / g.pair.wheel.teeth;
  if (a <= 0 || b <= 0) {
    return 1;
  }
  const double m1 = std::max(1.0, std::tan(g.working_angle) / std::sqrt(a * b));
  return m1 - std::min(g.overlap_ratio, 1.0) * (m1 - 1);
}

double helix_factor_bending(const PairGeometry& g) {
  const double degrees = std::min(g.pair.helix * 180 / kPi, 30.0);
  return 1 - std::min(g.overlap_ratio, 1.0) * degrees / 120;
}

}  // namespace

ToothForces tooth_forces(double torque, double reference_radius, double normal_angle, double helix) {
  const double tangential = torque / reference_radius;
  return {tangential, tangential * std::tan(normal_angle) / std::cos(helix), tangential * std::tan(helix)};
}

double dynamic_factor(double pitch_line_speed, double quality) {
  const double b = 0.25 * std::pow(12 - quality, 2.0 / 3);
  const double a = 50 + 56 * (1 - b);
  return std::pow((a + std::sqrt(pitch_line_speed / kFootPerMinute)) / a, b);
}

double load_distribution_factor(double face_width, double pinion_diameter) {
  const double inches = face_width / kInch;
  const double slender = std::max(face_width / (10 * pinion_diameter), 0.05);
  const double proportion = slender - (inches <= 1 ? 0.025 : 0.0375 - 0.0125 * inches);
  const double alignment = 0.127 + 0.0158 * inches - 0.93e-4 * inches * inches;
  return 1 + proportion + alignment;
}

double lewis_stress(double tangential_force, double dynamic, double face_width, double module, double y) {
  return dynamic * tangential_force / (face_width * module * y);
}

double lewis_form_factor(double teeth) {
  struct Entry {
    double teeth, y;
  };
  static constexpr Entry kTable[] = {{12, 0.245}, {13, 0.261}, {14, 0.277}, {15, 0.290},  {16, 0.296},  {17, 0.303},
                                     {18, 0.309}, {19, 0.314}, {20, 0.322}, {21, 0.328},  {22, 0.331},  {24, 0.337},
                                     {26, 0.346}, {28, 0.353}, {30, 0.359}, {34, 0.371},  {38, 0.384},  {43, 0.397},
                                     {50, 0.409}, {60, 0.422}, {75, 0.435}, {100, 0.447}, {150, 0.460}, {300, 0.472}};
  constexpr double kRack = 0.485;
  if (teeth <= kTable[0].teeth) {
    return kTable[0].y;
  }
  for (std::size_t i = 1; i < std::size(kTable); ++i) {
    const Entry& low = kTable[i - 1];
    const Entry& high = kTable[i];
    if (teeth <= high.teeth) {
      const double share = (1 / low.teeth - 1 / teeth) / (1 / low.teeth - 1 / high.teeth);
      return low.y + share * (high.y - low.y);
    }
  }
  const Entry& last = kTable[std::size(kTable) - 1];
  return kRack + (last.y - kRack) * last.teeth / teeth;
}

RootFactors root_factors(const PairGeometry& g, bool wheel) {
  const Rack& rack = g.pair.rack;
  const Gear& gear = wheel ? g.pair.wheel : g.pair.pinion;
  const bool ring = wheel && g.pair.internal;
  const double beta_b = g.base_helix;
  const double alpha = rack.pressure_angle;
  const double teeth = ring ? kRingRootTeeth : gear.teeth;
  const double zn = teeth / (std::cos(beta_b) * std::cos(beta_b) * std::cos(g.pair.helix));
  const double eps_n = g.contact_ratio / (std::cos(beta_b) * std::cos(beta_b));
  // Everything below in normal modules.
  const double e =
      kPi / 4 - rack.dedendum * std::tan(alpha) - (1 - std::sin(alpha)) * rack.tip_radius / std::cos(alpha);
  const double big_g = rack.tip_radius - rack.dedendum + gear.shift;
  const double h = 2 / zn * (kPi / 2 - e) - kPi / 3;
  double theta = kPi / 6;
  for (int i = 0; i < 50; ++i) {
    theta = 2 * big_g / zn * std::tan(theta) - h;
  }
  const double chord = zn * std::sin(kPi / 3 - theta) + std::sqrt(3.0) * (big_g / std::cos(theta) - rack.tip_radius);
  const double c = std::cos(theta);
  const double fillet = rack.tip_radius + 2 * big_g * big_g / (c * (zn * c * c - 2 * big_g));
  const double dn = zn;
  const double dbn = dn * std::cos(alpha);
  const double dan = dn + 2 * (gear.addendum + gear.shift);
  const double tip = std::sqrt(dan * dan - dbn * dbn) / 2;
  const double along = tip - kPi * std::cos(alpha) * (eps_n - 1);
  const double den = 2 * std::sqrt(along * along + dbn * dbn / 4);
  const double alpha_en = std::acos(std::min(1.0, dbn / den));
  const double gamma = (kPi / 2 + 2 * std::tan(alpha) * gear.shift) / zn + involute(alpha) - involute(alpha_en);
  const double alpha_load = alpha_en - gamma;
  const double lever = 0.5 * ((std::cos(gamma) - std::sin(gamma) * std::tan(alpha_load)) * den -
                              zn * std::cos(kPi / 3 - theta) - big_g / c + rack.tip_radius);
  RootFactors factors;
  factors.form = 6 * lever * std::cos(alpha_load) / (chord * chord * std::cos(alpha));
  const double notch = chord / (2 * fillet);
  const double slender = chord / lever;
  factors.stress = (1.2 + 0.13 * slender) * std::pow(notch, 1 / (1.21 + 2.3 / slender));
  return factors;
}

PairRating rate_pair(const PairGeometry& g, const GearMaterial& material, const PairDuty& duty) {
  PairRating r;
  const double width = g.pair.face_width;
  const double sign = g.pair.internal ? -1 : 1;
  r.forces = tooth_forces(duty.pinion_torque, g.r1, g.pair.rack.pressure_angle, g.pair.helix);
  r.pitch_line_speed = duty.pinion_speed * g.rw1;
  r.dynamic = dynamic_factor(r.pitch_line_speed, duty.quality);
  r.distribution = load_distribution_factor(width, 2 * g.r1);
  const double factor = r.dynamic * r.distribution * duty.load_factor;
  const double elasticity =
      std::sqrt(contact_modulus(material.modulus, material.poisson, material.modulus, material.poisson) / kPi);
  r.contact_stress = single_contact_factor(g) * zone_factor(g) * elasticity * contact_ratio_factor(g) /
                     std::sqrt(std::cos(g.pair.helix)) *
                     std::sqrt(r.forces.tangential / (2 * g.r1 * width) * (g.ratio + sign) / g.ratio * factor);
  const double pinion_cycles = cycles(duty.pinion_speed, duty.pinion_meshes, duty.service_time);
  const double wheel_cycles = cycles(duty.pinion_speed / g.ratio, duty.wheel_meshes, duty.service_time);
  r.contact_allowable = material.contact_limit.nominal * life_factor(kContactLife, pinion_cycles);
  r.contact_safety = r.contact_allowable / r.contact_stress;
  const double nominal_root = r.forces.tangential / (width * g.pair.module) * helix_factor_bending(g) * factor;
  const RootFactors pinion = root_factors(g, false);
  const RootFactors wheel = root_factors(g, true);
  r.bending_stress_pinion = nominal_root * pinion.form * pinion.stress;
  r.bending_stress_wheel = nominal_root * wheel.form * wheel.stress;
  const double pinion_limit = material.bending_limit.nominal * (duty.pinion_reversed ? kReversedBending : 1);
  const double wheel_limit = material.bending_limit.nominal * (duty.wheel_reversed ? kReversedBending : 1);
  r.bending_allowable_pinion = pinion_limit * life_factor(kBendingLife, pinion_cycles);
  r.bending_allowable_wheel = wheel_limit * life_factor(kBendingLife, wheel_cycles);
  r.bending_safety = std::min(r.bending_allowable_pinion / r.bending_stress_pinion,
                              r.bending_allowable_wheel / r.bending_stress_wheel);
  const double per_second = cycles(duty.pinion_speed, duty.pinion_meshes, 1);
  const double wheel_per_second = cycles(duty.pinion_speed / g.ratio, duty.wheel_meshes, 1);
  r.contact_life = life_cycles(kContactLife, r.contact_stress / material.contact_limit.nominal) / per_second;
  r.bending_life = std::min(life_cycles(kBendingLife, r.bending_stress_pinion / pinion_limit) / per_second,
                            life_cycles(kBendingLife, r.bending_stress_wheel / wheel_limit) / wheel_per_second);
  const double static_contact = kContactLife[0].factor * material.contact_limit.nominal / r.contact_stress;
  r.static_contact_ratio = static_contact * static_contact;
  r.static_bending_ratio =
      kBendingLife[0].factor * std::min(pinion_limit / r.bending_stress_pinion, wheel_limit / r.bending_stress_wheel);
  return r;
}

Working rating_working(const PairGeometry& g, const GearMaterial& material, const PairDuty& duty) {
  const PairRating r = rate_pair(g, material, duty);
  const RootFactors root = root_factors(g, false);
  const double width = g.pair.face_width;
  Working w;
  w.push_back({"F_t",
               "tangential force at the reference circle",
               "F_t = T_1 / r_1",
               {{"T_1", "torque on the pinion", duty.pinion_torque, Quantity::torque},
                {"r_1", "reference radius", g.r1, Quantity::length}},
               r.forces.tangential,
               Quantity::force,
               "statics"});
  w.push_back({"eps_alpha",
               "contact ratio in the transverse plane",
               "eps_alpha = (approach + recess) / p_bt",
               {{"approach", "path before the pitch point", g.approach, Quantity::length},
                {"recess", "path behind it", g.recess, Quantity::length},
                {"p_bt", "base pitch", g.base_pitch, Quantity::length}},
               g.contact_ratio,
               Quantity::number,
               "derived, docs/theory/incumbent.md"});
  w.push_back({"K_v",
               "dynamic factor",
               "K_v = ((A + sqrt V) / A)^B, V in ft/min, B = 0.25 (12 - Q)^(2/3), A = 50 + 56 (1 - B)",
               {{"v", "pitch-line speed", r.pitch_line_speed, Quantity::speed},
                {"Q", "quality number", duty.quality, Quantity::number}},
               r.dynamic,
               Quantity::number,
               "from memory: AGMA 2001"});
  w.push_back({"K_m",
               "uneven load along the face",
               "K_m = 1 + C_pf + C_ma",
               {{"b", "face width", width, Quantity::length}, {"d_1", "pinion diameter", 2 * g.r1, Quantity::length}},
               r.distribution,
               Quantity::number,
               "from memory: AGMA 2001, commercial enclosed unit"});
  w.push_back({"sigma_H",
               "contact stress of the flanks",
               "sigma_H = Z_B Z_H Z_E Z_eps Z_beta sqrt(F_t / (d_1 b) (u ± 1) / u K_v K_m K)",
               {{"Z_B", "single contact", single_contact_factor(g), Quantity::number},
                {"Z_H", "zone", zone_factor(g), Quantity::number},
                {"Z_eps", "contact ratio", contact_ratio_factor(g), Quantity::number},
                {"Z_beta", "helix", 1 / std::sqrt(std::cos(g.pair.helix)), Quantity::number},
                {"F_t", "tangential force", r.forces.tangential, Quantity::force},
                {"u", "ratio of teeth", g.ratio, Quantity::number},
                {"K", "further load factor", duty.load_factor, Quantity::number}},
               r.contact_stress,
               Quantity::pressure,
               "from memory: ISO 6336-2"});
  w.push_back({"S_H",
               "safety against pitting, 1 % failures",
               "S_H = sigma_H lim Z_N / sigma_H",
               {{"sigma_H lim", "fatigue limit", material.contact_limit.nominal, Quantity::pressure},
                {"sigma_H lim Z_N", "allowable at the life asked for", r.contact_allowable, Quantity::pressure}},
               r.contact_safety,
               Quantity::number,
               material.contact_limit.source});
  w.push_back({"sigma_F",
               "bending stress of the pinion's root",
               "sigma_F = F_t / (b m_n) Y_F Y_S Y_beta K_v K_m K",
               {{"m_n", "normal module", g.pair.module, Quantity::length},
                {"Y_F", "form", root.form, Quantity::number},
                {"Y_S", "stress concentration", root.stress, Quantity::number},
                {"Y_beta", "helix", helix_factor_bending(g), Quantity::number}},
               r.bending_stress_pinion,
               Quantity::pressure,
               "from memory: ISO 6336-3 method B"});
  const double virtual_teeth = g.pair.pinion.teeth / std::pow(std::cos(g.pair.helix), 3);
  const double y = lewis_form_factor(virtual_teeth);
  w.push_back({"sigma_Lewis",
               "cross-check by hand: Lewis stress at the tooth tip, no stress concentration",
               "sigma = K_v F_t / (b m_n Y)",
               {{"z_v", "virtual teeth", virtual_teeth, Quantity::number}, {"Y", "Lewis form", y, Quantity::number}},
               lewis_stress(r.forces.tangential, r.dynamic, width, g.pair.module, y),
               Quantity::pressure,
               "from memory: Shigley, table 14-2"});
  w.push_back({"S_F",
               "safety against tooth breakage, the weaker gear, 1 % failures",
               "S_F = sigma_FE Y_N / sigma_F",
               {{"sigma_FE Y_N", "allowable of the pinion", r.bending_allowable_pinion, Quantity::pressure},
                {"sigma_F2", "bending stress of the wheel", r.bending_stress_wheel, Quantity::pressure}},
               r.bending_safety,
               Quantity::number,
               material.bending_limit.source});
  return w;
}

}  // namespace lobewise::incumbent
