#include "engine/strength/shaft_overhung.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/constants.h"

namespace lobewise::strength {

double overhung_force(double torque, double diameter, double factor) { return 2 * torque / diameter * factor; }

const char* name(OverhungLimit limit) {
  switch (limit) {
    case OverhungLimit::life_A:
      return "life of bearing A";
    case OverhungLimit::life_B:
      return "life of bearing B";
    case OverhungLimit::static_A:
      return "static rating of bearing A";
    case OverhungLimit::static_B:
      return "static rating of bearing B";
    case OverhungLimit::shaft_B:
      return "fatigue of the shaft at bearing B";
  }
  return "";
}

AllowableForce allowable_overhung(const OverhungShaft& shaft, double position) {
  const double tilt = shaft.axial_force * shaft.axial_radius;
  const double millions = shaft.speed / (2 * kPi) * 3600 * shaft.hours / 1e6;
  const double share = std::pow(millions, -1 / shaft.life_exponent);
  const double share_B = position / shaft.span;  // of the force that B carries
  const double share_A = 1 - share_B;
  AllowableForce least{position, std::numeric_limits<double>::infinity(), OverhungLimit::life_B};
  const auto consider = [&](double force, OverhungLimit limit) {
    if (force < least.force) {
      least.force = std::max(force, 0.0);
      least.limit = limit;
    }
  };
  // R_B = share_B F + tilt/span; R_A = share_A F - tilt/span: a force within |R| <= R_max.
  const auto at_B = [&](double R_max) { return (R_max - tilt / shaft.span) / share_B; };
  const auto at_A = [&](double R_max) {
    const double pushed = R_max + tilt / shaft.span;
    const double pulled = R_max - tilt / shaft.span;
    if (share_A == 0) return pulled < 0 ? 0.0 : std::numeric_limits<double>::infinity();
    return share_A > 0 ? (pulled < 0 ? 0.0 : pushed / share_A) : pulled / -share_A;
  };
  consider(at_B(shaft.C_B * share), OverhungLimit::life_B);
  consider(at_A(shaft.C_A * share), OverhungLimit::life_A);
  consider(at_B(shaft.C0_B / shaft.static_safety), OverhungLimit::static_B);
  consider(at_A(shaft.C0_A / shaft.static_safety), OverhungLimit::static_A);
  const double arm = position - shaft.span;
  const double unit = 16 / (kPi * shaft.diameter_B * shaft.diameter_B * shaft.diameter_B);
  const double torsion = std::sqrt(3.0) * unit * shaft.K_fs * shaft.torque_mean;
  const double moment = (1 / shaft.safety - torsion / shaft.S_ut) * shaft.S_e / (2 * unit * shaft.K_f);
  const double left = moment - (arm >= 0 ? tilt : 0.0);
  if (arm > 0) {
    consider(left / arm, OverhungLimit::shaft_B);
  } else if (left < 0) {
    consider(0, OverhungLimit::shaft_B);
  }
  return least;
}

}  // namespace lobewise::strength
