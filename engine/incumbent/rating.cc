#include "engine/incumbent/rating.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/incumbent/tooth_load.h"

namespace lobewise::incumbent {
namespace {

using namespace formula;

constexpr const char* kFlanks = "from memory: ISO 6336-2";
constexpr const char* kRoot = "from memory: ISO 6336-3 method B";
constexpr const char* kAgmaFactors = "from memory: AGMA 2001";
constexpr const char* kLifeFactors = "from memory: ISO 6336-2 and -3, case-hardened steel";
constexpr const char* kLewis = "from memory: Shigley, table 14-2";

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

template <class X>
X life_factor(const LifePoint (&curve)[3], const X& cycles) {
  const X n = min(max(cycles, curve[0].cycles), curve[2].cycles);
  const auto piece = [&](const LifePoint& from, const LifePoint& to) {
    return from.factor * pow(n / from.cycles, ln(X(to.factor) / from.factor) / ln(X(to.cycles) / from.cycles));
  };
  return choose(
      less_or_equal(n, curve[1].cycles), [&] { return piece(curve[0], curve[1]); },
      [&] { return piece(curve[1], curve[2]); });
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

template <class X>
X dynamics(const X& pitch_line_speed, const X& quality) {
  const X b =
      named("B", "exponent of the dynamic factor", Quantity::number, 0.25 * pow(12.0 - quality, 2.0 / 3), kAgmaFactors);
  const X a = named("A", "speed factor of the dynamic factor", Quantity::number, 50.0 + 56.0 * (1.0 - b), kAgmaFactors);
  return pow((a + sqrt(pitch_line_speed / kFootPerMinute)) / a, b);
}

template <class X>
X distribution(const X& face_width, const X& pinion_diameter) {
  const X inches = face_width / kInch;
  const X slender = max(face_width / (10.0 * pinion_diameter), 0.05);
  const X proportion = named(
      "C_pf", "what a wide pinion adds", Quantity::number,
      slender - choose(
                    less_or_equal(inches, 1.0), [] { return X(0.025); }, [&] { return 0.0375 - 0.0125 * inches; }),
      kAgmaFactors);
  const X alignment = named("C_ma", "what shafts and housing add", Quantity::number,
                            0.127 + 0.0158 * inches - 0.93e-4 * pow(inches, 2.0), kAgmaFactors);
  return 1.0 + proportion + alignment;
}

template <class X>
X lewis_form(const X& teeth) {
  struct Entry {
    double teeth, y;
  };
  static constexpr Entry kTable[] = {{12, 0.245}, {13, 0.261}, {14, 0.277}, {15, 0.290},  {16, 0.296},  {17, 0.303},
                                     {18, 0.309}, {19, 0.314}, {20, 0.322}, {21, 0.328},  {22, 0.331},  {24, 0.337},
                                     {26, 0.346}, {28, 0.353}, {30, 0.359}, {34, 0.371},  {38, 0.384},  {43, 0.397},
                                     {50, 0.409}, {60, 0.422}, {75, 0.435}, {100, 0.447}, {150, 0.460}, {300, 0.472}};
  constexpr double kRack = 0.485;
  const auto* const end = std::end(kTable);
  const auto* const above =
      std::find_if(std::begin(kTable), end, [&](const Entry& row) { return value(teeth) <= row.teeth; });
  if (above == std::begin(kTable)) return as<X>("Y_1", "the table's first row", above->y);
  const Entry& low = *std::prev(above);
  const X z_1 = as<X>("z_1", "row of the table below", low.teeth), y_1 = as<X>("Y_1", "its form factor", low.y);
  if (above == end) {
    const X rack = as<X>("Y_r", "form factor of a rack", kRack);
    return rack + (y_1 - rack) * z_1 / teeth;
  }
  const X z_2 = as<X>("z_2", "row of the table above", above->teeth);
  return lerp(y_1, as<X>("Y_2", "its form factor", above->y), (1.0 / z_1 - 1.0 / teeth) / (1.0 / z_1 - 1.0 / z_2));
}

/// What the pair's geometry gives to both gears' formulas.
template <class X>
struct Shape {
  explicit Shape(const PairGeometry& g)
      : helix(as<X>("beta", "helix angle", g.pair.helix, Quantity::angle)),
        base_helix(as<X>("beta_b", "helix angle at the base cylinder", g.base_helix, Quantity::angle)),
        normal_angle(as<X>("alpha_n", "normal pressure angle", g.pair.rack.pressure_angle, Quantity::angle)),
        transverse_angle(as<X>("alpha_t", "transverse pressure angle", g.pressure_angle, Quantity::angle)),
        working_angle(as<X>("alpha_wt", "working pressure angle", g.working_angle, Quantity::angle)),
        overlap(as<X>("eps_beta", "overlap ratio", g.overlap_ratio)),
        pinion_teeth(as<X>("z_p", "teeth of the pinion", g.pair.pinion.teeth)),
        wheel_teeth(as<X>("z_w", "teeth of the wheel", g.pair.wheel.teeth)) {}
  X helix, base_helix, normal_angle, transverse_angle, working_angle, overlap, pinion_teeth, wheel_teeth;
};

/// Z_H: curvature of the flanks at the pitch point.
template <class X>
X zone_factor(const Shape<X>& s) {
  return sqrt(2.0 * cos(s.base_helix) * cos(s.working_angle) /
              (pow(cos(s.transverse_angle), 2.0) * sin(s.working_angle)));
}

/// Z_eps: share of the load per length of contact line.
template <class X>
X contact_ratio_factor(const Shape<X>& s, const X& contact_ratio) {
  const X overlap = min(s.overlap, 1.0);
  return sqrt((4.0 - contact_ratio) / 3.0 * (1.0 - overlap) + overlap / contact_ratio);
}

/// Z_B: from the pitch point to the inner point of single contact of the pinion.
template <class X>
X single_contact_factor(const PairGeometry& g, const Shape<X>& s, const X& contact_ratio) {
  if (g.pair.internal) return X(1.0);
  const auto length = [](const char* tip, const char* base, const char* meaning, double ra, double rb) {
    return sqrt(pow(as<X>(tip, meaning, ra, Quantity::length), 2.0) /
                    pow(as<X>(base, "base radius", rb, Quantity::length), 2.0) -
                1.0);
  };
  const X a =
      named("M_1", "tangent of the pinion's flank at the inner point of single contact", Quantity::number,
            length("r_a1", "r_b1", "tip radius of the pinion", g.ra1, g.rb1) - 2.0 * pi<X>() / s.pinion_teeth, kFlanks);
  const X b = named("M_2", "tangent of the wheel's flank there", Quantity::number,
                    length("r_a2", "r_b2", "tip radius of the wheel", g.ra2, g.rb2) -
                        (contact_ratio - 1.0) * 2.0 * pi<X>() / s.wheel_teeth,
                    kFlanks);
  return choose(
      less_or_equal(min(a, b), 0.0), [] { return X(1.0); },
      [&] {
        const X m = max(1.0, tan(s.working_angle) / sqrt(a * b));
        return m - min(s.overlap, 1.0) * (m - 1.0);
      });
}

template <class X>
X helix_factor_bending(const Shape<X>& s) {
  return 1.0 - min(s.overlap, 1.0) * min(s.helix * 180.0 / pi<X>(), 30.0) / 120.0;
}

template <class X>
struct Root {
  X form, stress;
};

/// Y_F and Y_S of ISO 6336-3 method B; lengths in normal modules.
template <class X>
Root<X> root_of(Working& w, const PairGeometry& g, const Shape<X>& s, const X& contact_ratio, bool wheel) {
  const Rack& rack = g.pair.rack;
  const Gear& gear = wheel ? g.pair.wheel : g.pair.pinion;
  const bool ring = wheel && g.pair.internal;
  const auto note = [&](const char* symbol, const char* meaning, const X& result,
                        Quantity quantity = Quantity::number) {
    if constexpr (std::is_same_v<X, Term>)
      return record(w, fmt::format("{}_{}", symbol, wheel ? 2 : 1).c_str(), meaning, quantity, result, kRoot);
    else
      return result;
  };
  const X dedendum = as<X>("h_fP", "dedendum of the rack over the module", rack.dedendum),
          tip_radius = as<X>("rho_fP", "tip radius of the rack over the module", rack.tip_radius),
          shift = as<X>(wheel ? "x_2" : "x_1", "profile shift", gear.shift),
          addendum = as<X>(wheel ? "h_aP2" : "h_aP1", "addendum over the module", gear.addendum);
  const X teeth = ring ? as<X>("z_r", "teeth that stand for a ring's root", kRingRootTeeth)
                       : (wheel ? s.wheel_teeth : s.pinion_teeth);
  const X& alpha = s.normal_angle;
  const X zn = note("z_n", "virtual teeth", teeth / (pow(cos(s.base_helix), 2.0) * cos(s.helix)));
  const X eps_n = note("eps_n", "contact ratio of the virtual pair", contact_ratio / pow(cos(s.base_helix), 2.0));
  const X e = note("E", "half the rack's tip land at its round",
                   pi<X>() / 4.0 - dedendum * tan(alpha) - (1.0 - sin(alpha)) * tip_radius / cos(alpha));
  const X big_g = note("G", "place of the centre of that round", tip_radius - dedendum + shift);
  const X h = note("H", "angle of the root", 2.0 / zn * (pi<X>() / 2.0 - e) - pi<X>() / 3.0);
  // Newton: the root is simple, 2 G/z_n is far below cos^2 of the angle.
  const double slope = 2 * value(big_g) / value(zn);
  double angle = kPi / 6;
  for (int i = 0; i < 20; ++i) {
    const double tangent = std::tan(angle);
    const double step = (slope * tangent - value(h) - angle) / (slope * (1 + tangent * tangent) - 1);
    angle -= step;
    if (std::abs(step) < 1e-14) break;
  }
  const X theta =
      as<X>(wheel ? "theta_2" : "theta_1", "where the 30 degree tangent touches the root", angle, Quantity::angle);
  if constexpr (std::is_same_v<X, Term>)
    record_solved(w, wheel ? "theta_2" : "theta_1", "where the 30 degree tangent touches the root", Quantity::angle,
                  angle, theta - (2.0 * big_g / zn * tan(theta) - h), 1e-9, kRoot);
  const X chord = note("s_Fn", "chord of the root over the module",
                       zn * sin(pi<X>() / 3.0 - theta) + sqrt(X(3.0)) * (big_g / cos(theta) - tip_radius));
  const X fillet = note("rho_F", "radius of the fillet over the module",
                        tip_radius + 2.0 * pow(big_g, 2.0) / (cos(theta) * (zn * pow(cos(theta), 2.0) - 2.0 * big_g)));
  const X base = note("d_bn", "base diameter of the virtual gear", zn * cos(alpha));
  const X tip = note("l_a", "from the base tangent to the tip",
                     sqrt(pow(zn + 2.0 * (addendum + shift), 2.0) - pow(base, 2.0)) / 2.0);
  const X den = note("d_en", "diameter of the outer point of single contact",
                     2.0 * sqrt(pow(tip - pi<X>() * cos(alpha) * (eps_n - 1.0), 2.0) + pow(base, 2.0) / 4.0));
  const X alpha_en = note("alpha_en", "pressure angle there", acos(min(1.0, base / den)), Quantity::angle);
  const X gamma =
      note("gamma_e", "half the tooth's angle there",
           (pi<X>() / 2.0 + 2.0 * tan(alpha) * shift) / zn + (tan(alpha) - alpha) - (tan(alpha_en) - alpha_en),
           Quantity::angle);
  const X load = note("alpha_Fen", "angle of the load", alpha_en - gamma, Quantity::angle);
  const X lever = note("h_Fe", "lever of the load over the module",
                       0.5 * ((cos(gamma) - sin(gamma) * tan(load)) * den - zn * cos(pi<X>() / 3.0 - theta) -
                              big_g / cos(theta) + tip_radius));
  const X form = note("Y_F", "form factor", 6.0 * lever * cos(load) / (pow(chord, 2.0) * cos(alpha)));
  const X stress = note("Y_S", "stress concentration",
                        (1.2 + 0.13 * chord / lever) * pow(chord / (2.0 * fillet), 1.0 / (1.21 + 2.3 * lever / chord)));
  return {form, stress};
}

/// Lewis stress at the tooth tip of the pinion.
template <class X>
X tooth_tip_stress(Working& w, const Shape<X>& s, const X& tangential, const X& dynamic, const X& width,
                   const X& module) {
  const X teeth = record(w, "z_v", "virtual teeth of the pinion", Quantity::number,
                         s.pinion_teeth / pow(cos(s.helix), 3.0), "derived, geometry");
  const X form = record(w, "Y", "Lewis form", Quantity::number, lewis_form(teeth), kLewis);
  return dynamic * tangential / (width * module * form);
}

/// Bending and pitting of a pair, each figure from those before it.
template <class X>
struct Figures {
  X tangential, pitch_line_speed, dynamic, distribution, contact_stress, contact_allowable, contact_safety;
  X bending_stress_pinion, bending_stress_wheel, bending_allowable_pinion, bending_allowable_wheel, bending_safety;
};

template <class X>
Figures<X> figures(Working& w, const PairGeometry& g, const GearMaterial& material, const PairDuty& duty) {
  const Shape<X> s(g);
  const X torque = as<X>("T_1", "torque on the pinion", duty.pinion_torque, Quantity::torque),
          speed = as<X>("w_1", "speed of the pinion", duty.pinion_speed, Quantity::angular_speed),
          radius = as<X>("r_1", "reference radius of the pinion", g.r1, Quantity::length),
          width = as<X>("b", "face width", g.pair.face_width, Quantity::length),
          module = as<X>("m_n", "normal module", g.pair.module, Quantity::length),
          further = as<X>("K", "further load factor", duty.load_factor);
  const X tangential =
      record(w, "F_t", "tangential force at the reference circle", Quantity::force, torque / radius, "statics");
  const X contact_ratio = record(w, "eps_alpha", "contact ratio in the transverse plane", Quantity::number,
                                 (as<X>("g_f", "path of contact before the pitch point", g.approach, Quantity::length) +
                                  as<X>("g_a", "path behind it", g.recess, Quantity::length)) /
                                     as<X>("p_bt", "base pitch", g.base_pitch, Quantity::length),
                                 "derived, docs/theory/incumbent.md");
  const X ratio =
      record(w, "u", "ratio of teeth", Quantity::number, s.wheel_teeth / s.pinion_teeth, "derived, counted");
  const X line =
      record(w, "v", "pitch-line speed", Quantity::speed,
             speed * as<X>("r_w1", "working pitch radius of the pinion", g.rw1, Quantity::length), "statics");
  const X dynamic = record(w, "K_v", "dynamic factor", Quantity::number,
                           dynamics(line, as<X>("Q", "quality number", duty.quality)), kAgmaFactors);
  const X uneven = record(w, "K_m", "uneven load along the face", Quantity::number, distribution(width, 2.0 * radius),
                          "from memory: AGMA 2001, commercial enclosed unit");
  const X modulus = as<X>("E", "Young's modulus", material.modulus, Quantity::pressure),
          poisson = as<X>("nu", "Poisson's ratio", material.poisson);
  const X z_b =
      record(w, "Z_B", "single contact", Quantity::number, single_contact_factor(g, s, contact_ratio), kFlanks);
  const X z_h = record(w, "Z_H", "zone", Quantity::number, zone_factor(s), kFlanks);
  const X z_e = record(w, "Z_E", "elasticity (sqrt(Pa))", Quantity::number,
                       sqrt(modulus / (2.0 * (1.0 - pow(poisson, 2.0))) / pi<X>()), kFlanks);
  const X z_eps =
      record(w, "Z_eps", "contact ratio", Quantity::number, contact_ratio_factor(s, contact_ratio), kFlanks);
  const X z_beta = record(w, "Z_beta", "helix", Quantity::number, 1.0 / sqrt(cos(s.helix)), kFlanks);
  const X contact = record(w, "sigma_H", "contact stress of the flanks", Quantity::pressure,
                           z_b * z_h * z_e * z_eps * z_beta *
                               sqrt(tangential / (2.0 * radius * width) *
                                    (g.pair.internal ? ratio - 1.0 : ratio + 1.0) / ratio * dynamic * uneven * further),
                           kFlanks);
  const X life = as<X>("t", "service time", duty.service_time, Quantity::duration),
          pinion_meshes = as<X>("k_1", "loads of a pinion tooth a turn", duty.pinion_meshes),
          wheel_meshes = as<X>("k_2", "loads of a wheel tooth a turn", duty.wheel_meshes);
  const X pinion_cycles = record(w, "N_1", "loads of a pinion tooth", Quantity::number,
                                 speed / (2.0 * pi<X>()) * life * pinion_meshes, "derived, counted");
  const X wheel_cycles = record(w, "N_2", "loads of a wheel tooth", Quantity::number,
                                speed / ratio / (2.0 * pi<X>()) * life * wheel_meshes, "derived, counted");
  const X contact_life = record(w, "Z_N", "life factor of the flanks", Quantity::number,
                                life_factor(kContactLife, pinion_cycles), kLifeFactors);
  const X contact_allowable =
      record(w, "sigma_HP", "contact stress that the flanks stand for the life asked for", Quantity::pressure,
             as<X>("sigma_Hlim", "fatigue limit of the flanks", material.contact_limit.nominal, Quantity::pressure) *
                 contact_life,
             material.contact_limit.source);
  const X contact_safety = record(w, "S_H", "safety against pitting, 1 % failures", Quantity::number,
                                  contact_allowable / contact, material.contact_limit.source);
  const X y_beta = record(w, "Y_beta", "helix, of the root", Quantity::number, helix_factor_bending(s), kRoot);
  const Root<X> pinion = root_of(w, g, s, contact_ratio, false), wheel = root_of(w, g, s, contact_ratio, true);
  const X nominal = record(w, "sigma_F0", "nominal stress of both roots", Quantity::pressure,
                           tangential / (width * module) * y_beta * dynamic * uneven * further, kRoot);
  const X stress_pinion = record(w, "sigma_F", "bending stress of the pinion's root", Quantity::pressure,
                                 nominal * pinion.form * pinion.stress, kRoot);
  const X stress_wheel = record(w, "sigma_F2", "bending stress of the wheel's root", Quantity::pressure,
                                nominal * wheel.form * wheel.stress, kRoot);
  record(w, "sigma_Lewis", "cross-check by hand: Lewis stress at the tooth tip, no stress concentration",
         Quantity::pressure, tooth_tip_stress<X>(w, s, tangential, dynamic, width, module), kLewis);
  const X limit = as<X>("sigma_FE", "fatigue limit of the root", material.bending_limit.nominal, Quantity::pressure);
  const auto allowable = [&](const char* symbol, const char* meaning, const char* factor, const char* words,
                             bool reversed, const X& cycles) {
    const X of_life = record(w, factor, words, Quantity::number, life_factor(kBendingLife, cycles), kLifeFactors);
    const X both_ways = as<X>("k_r", "share of the limit for a tooth that bends both ways", kReversedBending);
    return record(w, symbol, meaning, Quantity::pressure, reversed ? limit * both_ways * of_life : limit * of_life,
                  material.bending_limit.source);
  };
  const X allowable_pinion = allowable("sigma_FP1", "bending stress that the pinion stands", "Y_N1",
                                       "life factor of the pinion's root", duty.pinion_reversed, pinion_cycles);
  const X allowable_wheel = allowable("sigma_FP2", "bending stress that the wheel stands", "Y_N2",
                                      "life factor of the wheel's root", duty.wheel_reversed, wheel_cycles);
  const X bending_safety =
      record(w, "S_F", "safety against tooth breakage, the weaker gear, 1 % failures", Quantity::number,
             min(allowable_pinion / stress_pinion, allowable_wheel / stress_wheel), material.bending_limit.source);
  return {tangential,     line,          dynamic,      uneven,           contact,         contact_allowable,
          contact_safety, stress_pinion, stress_wheel, allowable_pinion, allowable_wheel, bending_safety};
}

}  // namespace

ToothForces tooth_forces(double torque, double reference_radius, double normal_angle, double helix) {
  const double tangential = torque / reference_radius;
  return {tangential, tangential * std::tan(normal_angle) / std::cos(helix), tangential * std::tan(helix)};
}

double dynamic_factor(double pitch_line_speed, double quality) { return dynamics(pitch_line_speed, quality); }

double load_distribution_factor(double face_width, double pinion_diameter) {
  return distribution(face_width, pinion_diameter);
}

double lewis_stress(double tangential_force, double dynamic, double face_width, double module, double y) {
  return dynamic * tangential_force / (face_width * module * y);
}

double lewis_form_factor(double teeth) { return lewis_form(teeth); }

RootFactors root_factors(const PairGeometry& g, bool wheel) {
  Working none;
  const Root<double> root = root_of(none, g, Shape<double>(g), g.contact_ratio, wheel);
  return {root.form, root.stress};
}

PairRating rate_pair(const PairGeometry& g, const GearMaterial& material, const PairDuty& duty) {
  Working none;
  const Figures<double> f = figures<double>(none, g, material, duty);
  PairRating r;
  r.forces = tooth_forces(duty.pinion_torque, g.r1, g.pair.rack.pressure_angle, g.pair.helix);
  r.pitch_line_speed = f.pitch_line_speed;
  r.dynamic = f.dynamic;
  r.distribution = f.distribution;
  r.contact_stress = f.contact_stress;
  r.contact_allowable = f.contact_allowable;
  r.contact_safety = f.contact_safety;
  r.bending_stress_pinion = f.bending_stress_pinion;
  r.bending_stress_wheel = f.bending_stress_wheel;
  r.bending_allowable_pinion = f.bending_allowable_pinion;
  r.bending_allowable_wheel = f.bending_allowable_wheel;
  r.bending_safety = f.bending_safety;
  const double pinion_limit = material.bending_limit.nominal * (duty.pinion_reversed ? kReversedBending : 1);
  const double wheel_limit = material.bending_limit.nominal * (duty.wheel_reversed ? kReversedBending : 1);
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
  Working w;
  static_cast<void>(figures<Term>(w, g, material, duty));
  return w;
}

}  // namespace lobewise::incumbent
