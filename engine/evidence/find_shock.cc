// shock: start, jam, and what they do.

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/evidence/questions.h"
#include "engine/motion/shock.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Bending strength of a hardened output pin under a rare peak, and fatigue strength pulsating from zero. Common
/// practice, no source.
constexpr double kPinYield = 1500e6;
/// Torsion the shaft end may see in a rare peak.
double shaft_yield(const Drive& drive) { return drive.build.frame().output.yield_strength; }

}  // namespace

double momentary_limit(const Drive& drive) {
  const auto keeps = [&](double torque) {
    const drive::PeakEffect e = drive::effect_of(drive, torque);
    return e.lobe_pressure <= strength::kStaticPressure && e.bearing_static >= 1 && e.pin_stress <= kPinYield &&
           e.shaft_stress <= shaft_yield(drive);
  };
  double low = 0, high = 100 * drive.requirement.torque;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    (keeps(middle) ? low : high) = middle;
  }
  return low;
}

std::vector<Check> shock_checks(const Drive& drive, const Evaluation& e) {
  std::vector<Check> checks;
  if (drive.motor)
    checks.push_back({"contact pressure at the start",
                      e.at_start.lobe_pressure,
                      strength::kStaticPressure / std::sqrt(strength::kStaticSafetyNormal),
                      Quantity::pressure,
                      true,
                      {},
                      {}});
  checks.push_back({"contact pressure in a jam",
                    e.at_jam.lobe_pressure,
                    strength::kStaticPressure,
                    Quantity::pressure,
                    true,
                    {},
                    {}});
  checks.push_back({"static safety of the eccentric bearing in a jam",
                    e.at_jam.bearing_static,
                    1.0,
                    Quantity::number,
                    false,
                    {},
                    {}});
  checks.push_back(
      {"bending stress of an output pin in a jam", e.at_jam.pin_stress, kPinYield, Quantity::pressure, true, {}, {}});
  checks.push_back({"stress of the output shaft in a jam",
                    e.at_jam.shaft_stress,
                    shaft_yield(drive),
                    Quantity::pressure,
                    true,
                    {},
                    {}});
  return checks;
}

void write_shock(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const demand::Jam& jam = drive.requirement.demand.jam;
  const double torque = drive.requirement.torque;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  out.answer = {"A jam that stops the shaft within {} reaches {}, {} times the working torque; the start reaches {}.",
                {{jam.angle.nominal, Quantity::angle},
                 {e.peaks.jam, Quantity::torque},
                 {e.peaks.jam / torque, Quantity::number},
                 {e.peaks.start, Quantity::torque}}};
  out.notes.push_back(
      {"Stopped at once by something rigid it would be {}, {} times the working torque: more than any catalogue factor "
       "covers. "
       "What the 500 % of the trade (common practice, no source) survives is a stop over an angle, not a wall.",
       {{e.peaks.jam_rigid, Quantity::torque}, {e.peaks.jam_rigid / torque, Quantity::number}}});
  out.notes.push_back(
      {"In the jam about {} rollers carry and the hardest pressed lobe sees {}; permanent marks begin at about {}.",
       {{std::round(e.at_jam.loaded), Quantity::number},
        {e.at_jam.lobe_pressure, Quantity::pressure},
        {strength::kStaticPressure, Quantity::pressure}}});
  if (!jam.text.empty()) out.notes.push_back({jam.text, {}});
  if (jam.slip_torque)
    out.notes.push_back(
        {"The machine slips at {} before more can reach the reducer.", {{*jam.slip_torque, Quantity::torque}}});
  out.working.push_back(
      {"J",
       "inertia of motor and input shafts seen at the output",
       "J = (J_motor + J_input) i^2",
       {{"J_motor", "inertia of the motor", drive.motor ? drive.motor->inertia : 0, Quantity::inertia},
        {"i", "ratio", drive.build.ratio(), Quantity::number}},
       t.motor_inertia,
       Quantity::inertia,
       "derived; typical motor inertia common practice, no source"});
  out.working.push_back({"k",
                         "torsional stiffness at the output, between half and full torque",
                         "1/k = sum 1/(k_i i_behind^2)",
                         {},
                         t.stiffness,
                         Quantity::torsional_stiffness,
                         "derived, docs/theory/mesh.md"});
  out.working.push_back(
      {"T_jam",
       "peak when the output is brought to rest within an angle, motor pulling on",
       "T_jam = T_0 + 2 J w/t_j sin(w_n t_j/2), t_j = 2 a/w; T_0 + 2 J w/t_j when w_n t_j >= pi",
       {{"T_0", "working torque", torque, Quantity::torque},
        {"w", "speed of the output", drive.output_speed, Quantity::angular_speed},
        {"a", "stop angle", jam.angle.nominal, Quantity::angle},
        {"J", "inertia", t.motor_inertia, Quantity::inertia},
        {"k", "stiffness", t.stiffness, Quantity::torsional_stiffness}},
       motion::jam_within_angle(drive.output_speed, t.stiffness, t.motor_inertia, jam.angle.nominal, torque),
       Quantity::torque,
       "derived, docs/theory/motion.md"});
  if (drive.motor)
    out.working.push_back(
        {"T_start",
         "peak of a start through all the play, load at rest",
         "T = m + sqrt(m^2 + k J_r w_1^2), m = T_LR J_2/(J_1 + J_2)",
         {{"T_LR", "locked-rotor torque at the output",
           drive.motor->rated_torque * drive.motor->locked_rotor * drive.build.ratio(), Quantity::torque},
          {"J_1", "inertia of the motor side", t.motor_inertia, Quantity::inertia},
          {"J_2", "inertia of the machine", t.load_inertia, Quantity::inertia}},
         e.peaks.start,
         Quantity::torque,
         "derived, docs/theory/motion.md"});
  Chart angle{"jam_over_angle",
              "Peak torque of a jam over the angle in which it stops",
              "Stop angle",
              "Peak torque",
              Quantity::angle,
              Quantity::torque,
              {},
              false,
              false,
              true};
  Series series{"peak", {}, {}, false};
  for (int i = 0; i <= 40; ++i) {
    const double a = 0.5 * kPi / 180 * std::pow(90.0, i / 40.0);  // 0.5 to 45 degrees
    series.x.push_back(a);
    series.y.push_back(motion::jam_within_angle(drive.output_speed, t.stiffness, t.motor_inertia, a, torque));
  }
  const auto line = [&](const char* name, double y) {
    angle.series.push_back({name, {series.x.front(), series.x.back()}, {y, y}, true});
  };
  line("5 x working torque", 5 * torque);
  angle.series.insert(angle.series.begin(), series);
  out.charts.push_back(std::move(angle));
  const auto transient = [&](const std::optional<motion::Outcome>& run, const char* id, const char* title) {
    if (!run) return;
    Chart chart{id, title, "Time", "Torque at the output", Quantity::time, Quantity::torque, {}, false, false, false};
    Series s{"reducer", {}, {}, false};
    for (const motion::Sample& sample : run->samples) {
      s.x.push_back(sample.time);
      s.y.push_back(sample.link_torque[0]);
    }
    chart.series.push_back(std::move(s));
    out.charts.push_back(std::move(chart));
  };
  transient(context.start, "start_transient", "A start, in time");
  transient(context.jam, "jam_transient", "The jam, in time");
  if (context.jam)
    out.notes.push_back(
        {"Followed in time with play and damping the jam peaks at {}; the energy balance closes to {}.",
         {{context.jam->links[0].highest_torque, Quantity::torque}, {context.jam->energy_error, Quantity::number}}});
  out.left_out = {
      "The motor's electrical transient in the first periods of a start: up to several times the mean torque, for "
      "milliseconds.",
      "Bending and slipping of couplings, shafts and the machine itself, which only soften a real jam."};
  out.cautions.push_back({"overload",
                          "What the reducer survives it passes on: a stronger link moves the failure to shaft, "
                          "coupling or machine. Where a jam can hurt people or "
                          "the plant, a torque limiter or a shear element belongs in the train."});
}

}  // namespace lobewise::evidence
