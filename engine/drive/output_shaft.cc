#include "engine/drive/output_shaft.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/constants.h"
#include "engine/base/root.h"
#include "engine/strength/axial_pair.h"
#include "engine/strength/fatigue_scatter.h"
#include "engine/strength/system_life.h"
#include "engine/strength/torque_cycles.h"

namespace lobewise::drive {
namespace {

constexpr double kHour = 3600;
constexpr double kInfinite = std::numeric_limits<double>::infinity();

/// Axial factors of a bearing; X and Y count where F_a/F_r > e.
struct AxialFactors {
  bool inclined = false;  ///< a radial force induces thrust in it
  double Y = 0;           ///< 0: holds no axial force
  double X = 1;
  double X_0 = 1, Y_0 = 0;
};

AxialFactors factors_of(const range::Bearing& bearing) {
  using range::BearingKind;
  AxialFactors f;
  f.Y = bearing.axial_Y.value_or(0);
  if (!(f.Y > 0)) return f;
  f.inclined = bearing.kind == BearingKind::tapered || bearing.kind == BearingKind::angular_ball;
  switch (bearing.kind) {
    case BearingKind::deep_groove:
      f.X = 0.56;
      f.X_0 = 0.6;  // ISO 76 (from memory)
      f.Y_0 = 0.5;
      break;
    case BearingKind::angular_ball:
      f.X = 0.4;
      f.X_0 = 0.5;
      f.Y_0 = 0.46;  // contact angle 15 degrees, the largest (ISO 76, from memory)
      break;
    default:
      f.X = 0.4;
      f.X_0 = strength::kStaticX;
      f.Y_0 = strength::kStaticYOverY * f.Y;
  }
  return f;
}

/// The axial force as the inside bearing sees it, in every direction that it may have. From A inside to B outside is
/// out of the unit.
std::vector<double> axial_directions(const Drive& drive) {
  const double force = drive.requirement.axial_force;
  if (!(force > 0)) return {0};
  const std::optional<strength::Arrangement> arrangement = drive.build.frame().output.arrangement;
  const std::optional<enquiry::AxialDirection> direction = drive.requirement.axial_direction;
  if (!arrangement || !direction) return {force, -force};
  return {strength::towards_A(*arrangement, *direction == enquiry::AxialDirection::out_of_unit ? force : -force)};
}

/// ln(0.9): one hazard.
const double kLogNine = std::log(0.9);

}  // namespace

OutputLoads output_loads(const range::OutputShaft& shaft, double radial, double position, double towards_inside) {
  const AxialFactors inside = factors_of(shaft.bearing_inside), outside = factors_of(shaft.bearing_outside);
  OutputLoads out;
  out.radial_inside = radial * position / shaft.span;
  out.radial_outside = radial * (shaft.span + position) / shaft.span;
  const double induced_inside = inside.inclined ? strength::induced_thrust(out.radial_inside, inside.Y) : 0;
  const double induced_outside = outside.inclined ? strength::induced_thrust(out.radial_outside, outside.Y) : 0;
  if (inside.inclined && outside.inclined) {
    out.axial_inside = strength::pair_axial(induced_inside, induced_outside, towards_inside);
    out.axial_outside = strength::pair_axial(induced_outside, induced_inside, -towards_inside);
  } else {
    const double external = std::abs(towards_inside);
    const bool at_inside = outside.Y == 0 && inside.Y > 0;
    out.axial_inside = std::max(induced_inside, at_inside ? external : 0);
    out.axial_outside = std::max(induced_outside, at_inside ? 0 : external);
  }
  out.inside = strength::equivalent_load_of(out.radial_inside, out.axial_inside, inside.X, inside.Y);
  out.outside = strength::equivalent_load_of(out.radial_outside, out.axial_outside, outside.X, outside.Y);
  out.static_inside = strength::equivalent_load_of(out.radial_inside, out.axial_inside, inside.X_0, inside.Y_0);
  out.static_outside = strength::equivalent_load_of(out.radial_outside, out.axial_outside, outside.X_0, outside.Y_0);
  return out;
}

double endurance(const range::OutputShaft& shaft, double diameter, double reliability) {
  // The size factor is tabulated between 2.79 mm and 254 mm; a larger shaft takes its end value, a larger tensile
  // strength the 700 MPa cap that the formula itself has.
  const double d = std::clamp(diameter, 2.79e-3, 0.254);
  const Result<double> limit =
      strength::endurance_limit(std::clamp(shaft.tensile_strength, 200e6, 2000e6), d, reliability);
  return limit ? *limit : 0.1 * shaft.tensile_strength;
}

double torque_amplitude(const Drive& drive, double diameter, double life) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  std::vector<strength::TorqueCycles> cycles;
  for (const demand::Cycle& cycle : drive.requirement.spectrum.cycles)
    cycles.push_back({cycle.range / 2, cycle.count * life / kHour});
  return strength::equivalent_amplitude(cycles,
                                        strength::woehler_exponent(shaft.tensile_strength, endurance(shaft, diameter)));
}

strength::FatigueLoad ShaftSection::load(double radial) const {
  strength::FatigueLoad load;
  load.moment_amplitude = radial * lever;
  load.torque_mean = torque_mean;
  load.torque_amplitude = torque_amplitude;
  load.K_f = K_f;
  load.K_fs = K_fs;
  return load;
}

double ShaftSection::safety(double radial) const {
  return strength::goodman_safety(load(radial), diameter, endurance, tensile_strength);
}

double ShaftSection::endurance_needed(double radial) const {
  return strength::endurance_needed(load(radial), diameter, tensile_strength);
}

double ShaftSection::log_standing(double radial) const {
  const double needed = endurance_needed(radial);
  if (needed <= 0) return 0;
  if (std::isinf(needed)) return -kInfinite;
  return strength::log_standing(strength::fatigue_score(
      median_endurance, needed, strength::fatigue_scatter(strength::FatiguePart::shaft).deviation));
}

const char* words(ForceLimit limit) {
  switch (limit) {
    case ForceLimit::unit_life:
      return "life that the asked share of units must reach";
    case ForceLimit::inside_static:
      return "static rating of the inside bearing";
    case ForceLimit::outside_static:
      return "static rating of the outside bearing";
    case ForceLimit::seat:
      return "fatigue safety of the shaft at the outside bearing";
    case ForceLimit::end:
      return "fatigue safety of the keyed shaft end";
    case ForceLimit::slope:
      break;
  }
  return "slope of the shaft in the outside bearing";
}

double modified_hazard(double damage, double hours) {
  const strength::SystemPart part{1 / damage, strength::kWeibullModified, 1, strength::kLeastLifeModified};
  return damage > 0 ? strength::system_hazard(hours, {&part, 1}) : 0;
}

OutputDuty::OutputDuty(const Drive& drive, double nu, double e_C, const Coefficients& c, double position, double life)
    : shaft_(drive.build.frame().output),
      inside_(drive.output_inside, e_C, nu, c),
      outside_(drive.output_outside, e_C, nu, c),
      towards_inside_(axial_directions(drive)),
      position_(position) {
  const enquiry::Requirement& r = drive.requirement;
  for (const enquiry::Block& block : r.duty) {
    const double speed = drive.running(block, c).speed;
    inside_.add(block.time_share, speed);
    outside_.add(block.time_share, speed);
    torque_shares_.push_back(r.torque > 0 ? block.torque / r.torque : 1);
  }
  const auto section = [&](const char* id, const char* label, double diameter, double lever, double K_f, double K_fs) {
    ShaftSection s{id, label, diameter, lever, K_f, K_fs};
    s.endurance = endurance(shaft_, diameter);
    s.median_endurance = endurance(shaft_, diameter, 0.5);
    s.tensile_strength = shaft_.tensile_strength;
    const double torque = r.torque * c.torque_factor;
    (r.reversing ? s.torque_amplitude : s.torque_mean) = torque;
    s.torque_amplitude = std::max(s.torque_amplitude, drive::torque_amplitude(drive, diameter, life) * c.torque_factor);
    return s;
  };
  seat_ = section("seat", "shaft at the outside bearing", shaft_.seat_diameter, position,
                  strength::kShoulderBending.nominal, strength::kShoulderTorsion.nominal);
  // At the shoulder of the shaft end the lever is the position alone; the keyway begins there.
  end_ = section("end", "keyed shaft end", shaft_.diameter, std::max(0.0, position - shaft_.overhang),
                 strength::kKeywayBending.nominal, strength::kKeywayTorsion.nominal);
}

OutputLoads OutputDuty::loads(std::size_t block, double radial) const {
  return output_loads(shaft_, radial * torque_shares_[block], position_, worse_direction(radial));
}

OutputLoads OutputDuty::full_loads(double radial) const {
  return output_loads(shaft_, radial, position_, worse_direction(radial));
}

OutputDuty::Damage OutputDuty::damage(double radial, double towards_inside) const {
  Damage sum;
  for (std::size_t b = 0; b < torque_shares_.size(); ++b) {
    const OutputLoads at = output_loads(shaft_, radial * torque_shares_[b], position_, towards_inside);
    sum.inside += inside_.damage(b, at.inside);
    sum.outside += outside_.damage(b, at.outside);
  }
  return sum;
}

OutputLives OutputDuty::lives(double radial) const {
  const Damage sum = damage(radial, worse_direction(radial));
  return {1 / sum.inside, 1 / sum.outside};
}

double OutputDuty::hazard(double radial, double hours, double towards_inside) const {
  const Damage sum = damage(radial, towards_inside);
  return modified_hazard(sum.inside, hours) + modified_hazard(sum.outside, hours);
}

double OutputDuty::worse_direction(double radial) const {
  // Long after the first fatigue the hazards still differ where both are zero early on.
  constexpr double kLong = 1e9;
  if (towards_inside_.size() == 1) return towards_inside_.front();
  return *std::max_element(towards_inside_.begin(), towards_inside_.end(),
                           [&](double a, double b) { return hazard(radial, kLong, a) < hazard(radial, kLong, b); });
}

double OutputDuty::log_standing(double radial) const { return seat_.log_standing(radial) + end_.log_standing(radial); }

double OutputDuty::log_reliability(double radial, double hours) const {
  double worst = 0;
  for (const double axial : towards_inside_) worst = std::max(worst, hazard(radial, hours, axial));
  return kLogNine * worst + log_standing(radial);
}

AllowedForce OutputDuty::allowed(double share, double hours, double log_rest) const {
  AllowedForce out;
  // What strength allows. P_0 >= F_r, so that the radial load alone bounds the search for it.
  const double per_outside = (shaft_.span + position_) / shaft_.span, per_inside = position_ / shaft_.span;
  const auto by_static = [&](const DutyBearing& bearing, double OutputLoads::*load, double per_force) {
    const double most = bearing.bearing.rating.C_0 / strength::kStaticSafetyNormal;
    if (per_force <= 0) return kInfinite;
    const auto beyond = [&](double force) {
      double largest = 0;
      for (const double axial : towards_inside_)
        largest = std::max(largest, output_loads(shaft_, force, position_, axial).*load);
      return largest - most;
    };
    const double bound = most / per_force, at_bound = beyond(bound), at_none = beyond(0);
    if (at_none >= 0) return 0.0;
    return at_bound <= 0 ? bound : bracketed_root(beyond, 0, bound, at_none, at_bound, 1e-9 * bound);
  };
  const auto by_section = [](const ShaftSection& section) {
    const double moment = strength::moment_for_safety(section.load(0), section.diameter, section.endurance,
                                                      section.tensile_strength, strength::kShaftSafety.nominal);
    if (moment <= 0) return 0.0;
    return section.lever > 0 ? moment / section.lever : kInfinite;
  };
  const auto by_slope = [&] {
    const double slope =
        strength::shaft_bending({shaft_.span, shaft_.span + position_, 1, 0, 0}, shaft_.seat_diameter, 0).slope_B;
    return slope > 0 ? strength::kSlopeCylindrical.nominal / slope : kInfinite;
  };
  out.force = kInfinite;
  const auto consider = [&](double force, ForceLimit limit) {
    if (force < out.force) {
      out.force = force;
      out.limit = limit;
    }
  };
  consider(by_static(outside_, &OutputLoads::static_outside, per_outside), ForceLimit::outside_static);
  consider(by_static(inside_, &OutputLoads::static_inside, per_inside), ForceLimit::inside_static);
  consider(by_section(seat_), ForceLimit::seat);
  consider(by_section(end_), ForceLimit::end);
  consider(by_slope(), ForceLimit::slope);
  out.by_strength = out.by_life = out.force;
  out.strength_limit = out.limit;

  // What life allows: the hazard grows about with the fifth power of the force, so that its fifth root is nearly
  // straight.
  const auto root = [&](double force) {
    const double hazard = (log_rest + log_reliability(force, hours)) / kLogNine;
    return std::pow(std::min(hazard, 1e30), 0.2);
  };
  const double target = std::pow(std::log(share) / kLogNine, 0.2);
  const auto beyond = [&](double force) { return root(force) - target; };
  const double at_none = beyond(0), at_strength = beyond(out.force);
  if (at_strength <= 0) return out;
  out.limit = ForceLimit::unit_life;
  out.by_life =
      at_none >= 0 ? 0 : bracketed_root(beyond, 0, out.by_strength, at_none, at_strength, 1e-9 * out.by_strength);
  out.force = out.by_life;
  return out;
}

}  // namespace lobewise::drive
