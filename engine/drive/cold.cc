#include "engine/drive/cold.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/lubricant.h"
#include "engine/drive/shocks.h"
#include "engine/losses/cold.h"

namespace lobewise::drive {
namespace {

double per_minute(double speed) { return speed * 30 / kPi; }

/// The coefficients of a unit that has not turned yet: no film anywhere, no drag, bearings and seals stuck.
Coefficients stuck(const Coefficients& c) {
  Coefficients rest = c;
  const double bearings = losses::kBearingAtRest.nominal * c.rest_factor;
  rest.viscosity_factor = 0;
  rest.low_speed_rise = 0;  // it is in `bearings`
  rest.f0_factor = 0;
  rest.drag_factor = 0;
  rest.f1_factor = c.f1_factor * bearings;
  rest.needle_friction = c.needle_friction * bearings;
  rest.seal_factor = c.seal_factor * losses::kSealAtRest.nominal * c.rest_factor;
  return rest;
}

/// Powers over the speed of the input.
LossPlaces as_torques(LossPlaces power, double speed) {
  for (double* place : {&power.lobes, &power.output_pins, &power.eccentric_bearings, &power.input_bearings,
                        &power.output_bearings, &power.seals, &power.oil_drag, &power.roller_drag})
    *place /= speed;
  return power;
}

/// Torque that breaks the machine away: never more than all assumptions at their worst together make it.
double breaking_away(const Drive& drive, const Coefficients& c) {
  const demand::Figure& torque = drive.requirement.demand.starting_torque;
  return std::min(torque.value * c.start_factor * c.torque_factor, std::max(torque.value, torque.high));
}

/// Torque of the motor as it is started, over its speed up to breakdown.
class StartTorque {
 public:
  StartTorque(const Drive& drive, const motion::MotorCurve& curve, const Coefficients& c)
      : curve_(curve), voltage_(c.voltage_factor * c.voltage_factor), rated_(drive.motor->rated_torque) {
    const enquiry::Starting way = drive.requirement.starting;
    inverter_ = way == enquiry::Starting::inverter;
    if (way != enquiry::Starting::star_delta) return;
    star_ = motion::kStarFactor.nominal;
    delta_from_ = motion::kStarDeltaSwitch.nominal * drive.motor->synchronous_speed;
  }
  [[nodiscard]] double share(double speed) const { return speed < delta_from_ ? star_ : 1; }
  [[nodiscard]] double operator()(double speed) const {
    if (inverter_) return std::min(motion::kInverterTorqueLimit.nominal * rated_, curve_.catalogue().breakdown_torque);
    return share(speed) * voltage_ * curve_.torque(speed);
  }

 private:
  const motion::MotorCurve& curve_;
  double voltage_, rated_, star_ = 1, delta_from_ = 0;
  bool inverter_ = false;
};

}  // namespace

Rest at_rest(const Drive& drive, double machine, double temperature, const Coefficients& c) {
  // Friction of dry contacts does not depend on the speed: any speed gives it.
  const Running now = drive.running({1, machine / c.torque_factor, drive.requirement.speed}, c);
  const RunningLosses losses = running_losses(drive.build, drive.tables, drive.oil, now, temperature, stuck(c));
  const double input_speed = now.speed * drive.build.ratio();
  Rest rest;
  rest.machine = now.torque;
  rest.torque = losses.input_torque;
  rest.efficiency = rest.torque > 0 ? now.torque / (drive.build.ratio() * rest.torque) : 0;
  rest.friction = as_torques(losses.places, input_speed);
  return rest;
}

ColdTurning::ColdTurning(const Drive& drive, double temperature, const Coefficients& c)
    : nu_(drive.oil.nu(temperature, c.viscosity_factor)),
      eta_(drive.oil.eta(temperature, c.viscosity_factor)),
      falls_(contact::viscosity_fall(drive.oil.curve, temperature)),
      cold_factor_(c.cold_factor) {
  const auto add = [&](const range::Bearing& bearing, double count, double speed_share) {
    bearings_.push_back(
        {&bearing, count, speed_share, no_load_factor(bearing, drive.oil) * c.f0_factor * c.no_load_loss_form});
  };
  double share = 1;  // of the input speed
  for (const StageRef& ref : drive.build.stages) {
    const range::Stage& stage = *ref.stage;
    const mechanism::StageGeometry& g = stage.geometry;
    add(stage.eccentric_bearing, g.discs, share * g.rollers() / g.lobes);
    add(stage.input_bearing, 2, share);
    if (!drive.oil.grease())
      gaps_.push_back({share * g.eccentricity, 2.0 * g.discs * kPi * g.pitch_radius * g.pitch_radius *
                                                   drive.oil.wetted_share * c.drag_factor * c.no_load_loss_form});
    share /= g.lobes;
  }
  const range::OutputShaft& output = drive.build.frame().output;
  add(output.bearing_inside, 1, share);
  add(output.bearing_outside, 1, share);
}

ColdDrag ColdTurning::at(double input_speed) const {
  constexpr double k = losses::kOilConductivity.nominal;
  ColdDrag drag;
  if (input_speed <= 0) return drag;
  for (const Bearing& part : bearings_) {
    const double speed = input_speed * part.speed_share;
    // Surfaces of inner and outer raceway past a rolling element: a quarter of the pitch diameter times the speed.
    const double rolling = speed * part.bearing->pitch_diameter / 4;
    const double moment =
        losses::cold_no_load_moment(part.f_0, part.bearing->pitch_diameter, nu_ * 1e6 * per_minute(speed),
                                    losses::nahme_number(eta_, falls_, rolling, k), cold_factor_);
    drag.bearings += part.count * moment * part.speed_share;
  }
  for (const Gap& gap : gaps_) {
    const double stress = losses::gap_stress(eta_, falls_, gap.speed_per_input * input_speed, losses::kDiscGap, k);
    drag.gaps += stress * gap.area * gap.speed_per_input;
  }
  return drag;
}

double ColdTurning::hardest_speed(double top_speed) const {
  // Up to Na = 11 of the part whose surfaces pass each other most quickly every part resists more the faster it turns:
  // a bearing's growth (nu n)^(2/3) phi up to L^0.62 = 3.94 (2/3)/(1.24 - 2/3), a gap's up to Na = 18. From there
  // speeds are spread over the logarithm, then the best one is refined by golden sections.
  constexpr double kRisesUpTo = 11;
  double quickest = 0;
  for (const Bearing& part : bearings_)
    quickest = std::max(quickest, part.bearing->pitch_diameter / 4 * part.speed_share);
  for (const Gap& gap : gaps_) quickest = std::max(quickest, gap.speed_per_input);
  const double rises_to = std::sqrt(kRisesUpTo * losses::kOilConductivity.nominal / (falls_ * eta_)) / quickest;
  if (rises_to >= top_speed) return top_speed;
  const auto total = [&](double log_speed) { return at(std::exp(log_speed)).total(); };
  const double top = std::log(top_speed), bottom = std::log(rises_to);
  constexpr int kSpeeds = 10;
  std::array<double, kSpeeds + 1> torque{};
  const double step = (top - bottom) / kSpeeds;
  int best = 0;
  for (int i = 0; i <= kSpeeds; ++i) {
    torque[static_cast<std::size_t>(i)] = total(bottom + i * step);
    if (torque[static_cast<std::size_t>(i)] > torque[static_cast<std::size_t>(best)]) best = i;
  }
  if (best == 0 || best == kSpeeds) return std::exp(bottom + best * step);
  double low = bottom + (best - 1) * step, high = bottom + (best + 1) * step;
  constexpr double kGolden = 0.381966;
  double a = low + kGolden * (high - low), b = high - kGolden * (high - low), at_a = total(a), at_b = total(b);
  for (int i = 0; i < 8; ++i) {
    if (at_a > at_b) {
      high = b, b = a, at_b = at_a;
      a = low + kGolden * (high - low), at_a = total(a);
    } else {
      low = a, a = b, at_a = at_b;
      b = high - kGolden * (high - low), at_b = total(b);
    }
  }
  return std::exp(at_a > at_b ? a : b);
}

double coldest(const Drive& drive, const Coefficients& c) {
  return drive.requirement.ambient_low + c.ambient_low_shift;
}

ColdStart cold_start(const Drive& drive, double temperature, const Coefficients& c) {
  ColdStart start;
  start.temperature = temperature;
  start.rest = at_rest(drive, breaking_away(drive, c), temperature, c);
  const ColdTurning turning(drive, temperature, c);
  const Result<motion::MotorCurve> curve = motor_curve_of(drive, c);
  const bool inverter = drive.requirement.starting == enquiry::Starting::inverter;
  const double top = curve && !inverter ? curve->breakdown_speed() : drive.input_speed;
  const double hardest = turning.hardest_speed(top);
  const ColdDrag most = turning.at(hardest);
  if (!curve || inverter) {
    start.speed = top;
    start.drag_speed = hardest;
    start.drag = most;
    if (curve) start.given = StartTorque(drive, *curve, c)(top);
    return start;
  }
  const StartTorque torque(drive, *curve, c);
  start.given = torque(0);
  constexpr int kSpeeds = 12;
  std::array<double, kSpeeds + 1> speeds{};
  for (int i = 0; i < kSpeeds; ++i) speeds[static_cast<std::size_t>(i)] = top * (i + 1) / kSpeeds;
  speeds[kSpeeds] = curve->pull_up_speed();
  std::sort(speeds.begin(), speeds.end());
  ColdDrag passed;
  double passed_at = 0;
  for (const double speed : speeds) {
    const bool beyond = speed >= hardest;
    const ColdDrag here = beyond ? most : turning.at(speed);
    if (here.total() >= passed.total()) {
      passed = here;
      passed_at = beyond ? hardest : speed;
    }
    const double given = torque(speed);
    if (given * start.asked() < start.given * (start.rest.torque + passed.total())) {
      start.speed = speed;
      start.drag = passed;
      start.drag_speed = passed_at;
      start.given = given;
    }
  }
  return start;
}

ColdRunUp cold_run_up(const Drive& drive, const ColdStart& start, const Coefficients& c) {
  ColdRunUp out;
  const Result<motion::MotorCurve> curve = motor_curve_of(drive, c);
  if (!curve || drive.requirement.starting == enquiry::Starting::inverter) return out;
  const Torsion torsion = torsion_of(drive, c);
  const double ratio = drive.build.ratio();
  const double inertia = (torsion.motor_inertia + torsion.load_inertia) / (ratio * ratio);
  const ColdTurning turning(drive, start.temperature, c);
  const StartTorque torque(drive, *curve, c);
  const double least = kLeastSurplus * drive.motor->rated_torque;
  constexpr int kSpeeds = 16;
  const double step = motion::kStartedShare * drive.motor->rated_speed / kSpeeds;
  for (int i = 0; i < kSpeeds; ++i) {
    const double speed = (i + 0.5) * step;
    const double left = torque(speed) - start.rest.torque - turning.at(speed).total();
    if (left < least) out.sticks = true;
    out.time += torque.share(speed) * inertia * step / std::max(left, least);
  }
  return out;
}

}  // namespace lobewise::drive
