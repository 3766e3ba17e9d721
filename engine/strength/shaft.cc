#include "engine/strength/shaft.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/constants.h"
#include "engine/base/quantity.h"
#include "engine/strength/shaft_terms.h"

namespace lobewise::strength {
namespace {

double hollow(double diameter, double bore) {
  const double q = bore / diameter;
  return 1 - q * q * q * q;
}

double goodman_sum(const FatigueLoad& load, double S_e, double S_ut) {
  return equivalent_moment<double>(load.K_f, load.moment_amplitude, load.K_fs, load.torque_amplitude) / S_e +
         equivalent_moment<double>(load.K_f, load.moment_mean, load.K_fs, load.torque_mean) / S_ut;
}

}  // namespace

Reactions reactions(const ShaftLoad& load) {
  const double tilt = load.axial_force * load.axial_radius;
  Reactions out;
  out.at_B = (load.radial_force * load.position + tilt) / load.span;
  out.at_A = load.radial_force - out.at_B;
  if (load.position >= load.span) {
    out.moment_B = load.radial_force * (load.position - load.span) + tilt;
    out.moment_max = std::max(std::abs(out.moment_B), std::abs(tilt));
  } else {
    // Both sides of the force: the couple of the axial force makes the bending jump there.
    out.moment_max = std::max(std::abs(out.at_A * load.position), std::abs(out.at_B * (load.span - load.position)));
  }
  return out;
}

NominalStress nominal_stress(double bending_moment, double torque, double axial_force, double diameter, double bore) {
  const double cube = kPi * diameter * diameter * diameter * hollow(diameter, bore);
  return {32 * bending_moment / cube, 16 * torque / cube,
          4 * axial_force / (kPi * (diameter - bore) * (diameter + bore))};
}

double torsional_stiffness(double diameter, double length) {
  return 1 / torsional_compliance<double>(length, kShearModulus, diameter);
}

double von_mises(const NominalStress& stress) {
  return combined_stress<double>(stress.bending, stress.axial, stress.shear);
}

Result<double> endurance_limit(double tensile_strength, double diameter, double reliability) {
  Errors errors;
  const auto require = [&](bool holds, const char* path, double value, const char* message) {
    if (!holds) errors.push_back(input_error(path, format_number(value, 6), message));
  };
  require(tensile_strength >= 200e6 && tensile_strength <= 2000e6, "tensile_strength", tensile_strength,
          "must lie between 200 and 2000 MPa, the range of the surface factor for steel");
  require(diameter >= 2.79e-3 && diameter <= 0.254, "diameter", diameter,
          "must lie between 2.79 and 254 mm, the range of the size factor");
  double k_e = 1;
  if (reliability == 0.9) {
    k_e = kNinetyPercent;
  } else if (reliability == 0.95) {
    k_e = 0.868;
  } else if (reliability == 0.99) {
    k_e = 0.814;
  } else {
    require(reliability == 0.5, "reliability", reliability, "must be 0.5, 0.9, 0.95 or 0.99");
  }
  if (!errors.empty()) return errors;
  return endurance_of<double>(tensile_strength, diameter, k_e);
}

double goodman_safety(const FatigueLoad& load, double diameter, double S_e, double S_ut) {
  return kPi * diameter * diameter * diameter / (16 * goodman_sum(load, S_e, S_ut));
}

double endurance_needed(const FatigueLoad& load, double diameter, double S_ut) {
  const double unit = 16 / (kPi * diameter * diameter * diameter);
  const double mean = unit * equivalent_moment<double>(load.K_f, load.moment_mean, load.K_fs, load.torque_mean);
  if (mean >= S_ut) return std::numeric_limits<double>::infinity();
  return unit * equivalent_moment<double>(load.K_f, load.moment_amplitude, load.K_fs, load.torque_amplitude) /
         (1 - mean / S_ut);
}

double moment_for_safety(const FatigueLoad& load, double diameter, double S_e, double S_ut, double safety) {
  const double unit = 16 / (kPi * diameter * diameter * diameter);
  const double mean = unit * equivalent_moment<double>(load.K_f, load.moment_mean, load.K_fs, load.torque_mean);
  const double left = (1 / safety - mean / S_ut) * S_e / unit;
  const double torsion = std::sqrt(3.0) * load.K_fs * load.torque_amplitude;
  return left > torsion ? std::sqrt(left * left - torsion * torsion) / (2 * load.K_f) : 0;
}

double goodman_diameter(const FatigueLoad& load, double safety, double S_e, double S_ut) {
  return std::cbrt(16 * safety / kPi * goodman_sum(load, S_e, S_ut));
}

Bending shaft_bending(const ShaftLoad& load, double diameter, double bore, double modulus) {
  const double square = diameter * diameter;
  const double stiffness = modulus * kPi / 64 * square * square * hollow(diameter, bore);
  const double L = load.span;
  const double x = load.position;
  const double F = load.radial_force;
  if (x >= L) {
    const double a = x - L;
    const double M = load.axial_force * load.axial_radius;
    const double at_B = F * a + M;
    return {std::abs(at_B * L / (6 * stiffness)), std::abs(at_B * L / (3 * stiffness)),
            std::abs((F * a * a * (L + a) / 3 + M * a * (L / 3 + a / 2)) / stiffness)};
  }
  const double b = L - x;
  const double common = F * x * b / (6 * stiffness * L);
  return {std::abs(common * (L + b)), std::abs(common * (L + x)), std::abs(2 * common * x * b)};
}

double bearing_equivalent(double radial, double axial, double X, double Y, double e) {
  return axial > e * radial ? X * radial + Y * axial : radial;
}

}  // namespace lobewise::strength
