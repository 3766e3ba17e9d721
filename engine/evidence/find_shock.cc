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

namespace {

void write_chain(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  working.push_back({"J_1",
                     "inertia of motor and input shafts seen at the output",
                     "J_1 = (J_motor + J_input) i^2",
                     {{"J_motor", "inertia of the motor", drive.motor ? drive.motor->inertia : 0, Quantity::inertia},
                      {"i", "ratio", drive.build.ratio(), Quantity::number}},
                     t.motor_inertia,
                     Quantity::inertia,
                     "derived; typical motor inertia common practice, no source"});
  working.push_back({"k",
                     "torsional stiffness at the output, half to full torque: meshes and shafts in a row",
                     "1/k = 1/k_mesh + 1/k_shaft",
                     {{"k_mesh", "lobes, discs and pins", t.mesh_stiffness, Quantity::torsional_stiffness},
                      {"k_shaft", "output shaft to the middle of its end, input shaft", t.shaft_stiffness,
                       Quantity::torsional_stiffness}},
                     t.stiffness,
                     Quantity::torsional_stiffness,
                     "derived, docs/theory/motion.md"});
}

void write_jam(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const demand::Jam& jam = drive.requirement.demand.jam;
  const double torque = drive.requirement.torque;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  const motion::Characteristic chain = drive::characteristic_of(drive, e.coefficients);
  const auto peak_over = [&](double angle) {
    return motion::jam_within(chain, e.peaks.pull_jam, torque, t.motor_inertia, drive.output_speed, angle);
  };
  const double unlimited = peak_over(jam.angle.nominal);
  out.working.push_back(
      {"T_jam",
       "peak when the output is brought to rest within an angle while the motor pulls up to its breakdown torque; "
       "before anything slips",
       "T_jam = T_0 + (T_m - T_0)(1 + min(1, 2/(w_n t_j))) + 2 J_1 w/t_j sin(w_n t_j/2), t_j = 2 a/w; without the sine "
       "when w_n t_j >= pi",
       {{"T_0", "working torque", torque, Quantity::torque},
        {"T_m", "most that the motor gives while it slows down", e.peaks.pull_jam, Quantity::torque},
        {"w", "speed of the output", drive.output_speed, Quantity::angular_speed},
        {"a", "stop angle", jam.angle.nominal, Quantity::angle},
        {"J_1", "inertia of the motor side", t.motor_inertia, Quantity::inertia},
        {"k", "stiffness between working torque and peak",
         (unlimited - torque) / (chain.twist(unlimited) - chain.twist(torque)), Quantity::torsional_stiffness}},
       unlimited,
       Quantity::torque,
       "derived, docs/theory/motion.md"});
  out.working.push_back({"T_rigid",
                         "peak when it is stopped at once, from the chain's own twist over torque",
                         "J_1 w^2/2 + T_m (x - x_0) = U(x) - U(x_0)",
                         {{"T_0", "working torque", torque, Quantity::torque},
                          {"T_m", "torque of the motor", e.peaks.pull_jam, Quantity::torque}},
                         e.peaks.jam_rigid,
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
    series.y.push_back(peak_over(a));
  }
  const auto line = [&](const char* name, double y) {
    angle.series.push_back({name, {series.x.front(), series.x.back()}, {y, y}, true});
  };
  line("5 x working torque", 5 * torque);
  line("permanent marks begin", momentary_limit(drive));
  angle.series.insert(angle.series.begin(), series);
  out.charts.push_back(std::move(angle));
  if (context.jam) {
    out.notes.push_back(
        {"Followed in time with play, hardening, damping and the motor's own curve the jam peaks at {} if nothing "
         "slips; the energy balance closes to {}.",
         {{context.jam->links[0].highest_torque, Quantity::torque}, {context.jam->energy_error, Quantity::number}}});
  } else {
    out.notes.push_back({"The jam could not be followed in time: " + context.jam.errors().front().message, {}});
  }
}

void write_start(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  if (!drive.motor) return;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  const motion::Characteristic chain = drive::characteristic_of(drive, e.coefficients);
  const Coefficient share = drive::start_play(drive);
  out.working.push_back(
      {"T_start",
       "peak of a start: the motor side crosses the play, winds the chain up against the standing machine until that "
       "breaks away, then both swing; energy, no damping",
       "(J_r/J_1) E(T_b) + m (x - x_b) = U(x) - U(x_b), E(T) = T_m (s g + x) - U(x), m = (T_m J_2 + T_L J_1)/(J_1 + "
       "J_2)",
       {{"T_m", "torque of the motor that crosses the play, at the output", e.peaks.pull, Quantity::torque},
        {"g", "free play of the meshes", 2 * chain.free_angle(), Quantity::angle},
        {"s", "share of it that is crossed", share.nominal, Quantity::share},
        {"T_b", "torque to break away",
         std::max(drive.requirement.torque, drive.requirement.demand.starting_torque.value), Quantity::torque},
        {"T_L", "working torque", drive.requirement.torque, Quantity::torque},
        {"J_1", "inertia of the motor side", t.motor_inertia, Quantity::inertia},
        {"J_2", "inertia of the machine", t.load_inertia, Quantity::inertia},
        {"x(T_L)", "twist at the working torque", chain.twist(drive.requirement.torque), Quantity::angle}},
       e.peaks.start,
       Quantity::torque,
       "derived, docs/theory/motion.md, docs/decisions/120-start-peak.md; share: " + std::string(share.source)});
  out.working.push_back(
      {"T_run",
       "largest torque later on, while motor and machine speed up (breakdown, change to delta, ramp); "
       "the larger of both counts",
       "T_run = T_a + T_s",
       {{"T_a", "moves both inertias: (T_max J_2 + T_L J_1)/(J_1 + J_2); on a ramp T_L + J_2 w/t", e.peaks.speeding_up,
         Quantity::torque},
        {"T_s", "what is left of the first swing, or the swing of the change to delta",
         e.peaks.run_up - e.peaks.speeding_up, Quantity::torque}},
       e.peaks.run_up,
       Quantity::torque,
       "derived, docs/theory/motion.md"});
  out.working.push_back({"T_bound",
                         "the same with all the play to cross, as after a reversal",
                         "s = 1",
                         {},
                         e.peaks.start_bound,
                         Quantity::torque,
                         "derived, docs/theory/motion.md"});
  if (context.first_moments) {
    out.notes.push_back(
        {"The start by energy, without damping: {}; followed in time with the motor's curve and damping: {}; with all "
         "the play to cross: {}. The supply's own transient in the first periods may add 30 to 100 % on a direct start "
         "(common practice, no source).",
         {{e.peaks.start, Quantity::torque},
          {context.first_moments->links[0].highest_torque, Quantity::torque},
          {e.peaks.start_bound, Quantity::torque}}});
  } else {
    out.notes.push_back(
        {"The start could not be followed in time: " + context.first_moments.errors().front().message, {}});
  }
}

void write_events(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  Chart chart{"event_peaks",
              "Peak torque at the output of what may happen",
              "Event",
              "Peak torque",
              Quantity::number,
              Quantity::torque,
              {},
              true,
              false,
              false};
  constexpr double kWaysOfStarting = 4;  // the first of the runs
  double index = 0;
  for (const drive::ShockRun& run : context.events) {
    if (!run.outcome) {
      out.notes.push_back(
          {std::string(run.label) + " could not be followed in time: " + run.outcome.errors().front().message, {}});
      continue;
    }
    const drive::PeakEffect effect = drive::effect_of(drive, run.peak());
    std::vector<WorkingInput> inputs{
        {"n", "ring rollers that carry then", std::round(effect.loaded), Quantity::number},
        {"p", "pressure of the hardest pressed lobe", effect.lobe_pressure, Quantity::pressure},
        {"sigma", "bending of an output pin", effect.pin_stress, Quantity::pressure}};
    if (index < kWaysOfStarting && run.outcome->started) {
      inputs.push_back({"t", "time to speed", *run.outcome->started, Quantity::time});
      inputs.push_back({"Q", "heat into the rotor", run.outcome->rotor_heat, Quantity::energy});
    }
    out.working.push_back(
        {"T_" + std::string(run.id),
         std::string(run.label) +
             (run.outcome->started || index >= kWaysOfStarting ? "" : "; it does not reach its speed"),
         "integrated in time with play, hardening and damping", std::move(inputs), run.peak(), Quantity::torque,
         "derived, docs/theory/motion.md"});
    chart.series.push_back({run.label, {index++}, {run.peak()}, false});
  }
  if (chart.series.empty()) return;
  const auto hardest = std::max_element(context.events.begin(), context.events.end(), [](const auto& a, const auto& b) {
    return (a.outcome ? a.peak() : 0) < (b.outcome ? b.peak() : 0);
  });
  if (hardest->outcome && hardest->peak() > context.nominal.peaks.start)
    out.notes.push_back(
        {"Harder than the start, should it ever happen: " + std::string(hardest->label) +
             " gives {}, {} times the working torque.",
         {{hardest->peak(), Quantity::torque}, {hardest->peak() / drive.requirement.torque, Quantity::number}}});
  const double limit = momentary_limit(drive);
  chart.series.push_back({"permanent marks begin", {0, index - 1}, {limit, limit}, true});
  out.charts.push_back(std::move(chart));
}

void add_transient(const Result<motion::Outcome>& run, const char* id, const char* title, Finding& out) {
  if (!run) return;
  Chart chart{id, title, "Time", "Torque at the output", Quantity::time, Quantity::torque, {}, false, false, false};
  Series s{"reducer", {}, {}, false};
  for (const motion::Sample& sample : run->samples) {
    s.x.push_back(sample.time);
    s.y.push_back(sample.link_torque[0]);
  }
  chart.series.push_back(std::move(s));
  out.charts.push_back(std::move(chart));
}

}  // namespace

void write_shock(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const demand::Jam& jam = drive.requirement.demand.jam;
  const double torque = drive.requirement.torque;
  const bool slips = jam.slip_torque && e.peaks.jam <= *jam.slip_torque * (1 + 1e-12);
  out.answer = {
      slips ? "A jam ends where the machine slips: {}, {} times the working torque; the start reaches {}, {} times."
            : "A jam that stops the shaft within {} reaches {}, {} times the working torque; the start "
              "reaches {}, {} times.",
      {}};
  if (!slips) out.answer.values.push_back({jam.angle.nominal, Quantity::angle});
  for (const Value& value : {Value{e.peaks.jam, Quantity::torque}, Value{e.peaks.jam / torque, Quantity::number},
                             Value{e.peaks.start, Quantity::torque}, Value{e.peaks.start / torque, Quantity::number}})
    out.answer.values.push_back(value);
  out.notes.push_back(
      {"Stopped at once by something rigid it would be {}, {} times the working torque: more than any catalogue factor "
       "covers. What the 500 % of the trade (common practice, no source) survives is a stop over an angle, not a wall.",
       {{e.peaks.jam_rigid, Quantity::torque}, {e.peaks.jam_rigid / torque, Quantity::number}}});
  const double limit = momentary_limit(drive);
  out.notes.push_back(
      {"Permanent marks on lobes or bearings, or a bent pin or shaft, begin at {}, {} times the working torque.",
       {{limit, Quantity::torque}, {limit / torque, Quantity::number}}});
  out.notes.push_back(
      {"In the jam about {} rollers carry and the hardest pressed lobe sees {}; permanent marks begin at about {}.",
       {{std::round(e.at_jam.loaded), Quantity::number},
        {e.at_jam.lobe_pressure, Quantity::pressure},
        {strength::kStaticPressure, Quantity::pressure}}});
  if (!jam.text.empty()) out.notes.push_back({jam.text, {}});
  if (jam.slip_torque)
    out.notes.push_back(
        {"The machine slips at {} before more can reach the reducer.", {{*jam.slip_torque, Quantity::torque}}});
  write_chain(context, out.working);
  write_jam(context, out);
  write_start(context, out);
  write_events(context, out);
  add_transient(context.first_moments, "start_transient", "The first moments of a start", out);
  add_transient(context.jam, "jam_transient", "The jam, in time, if nothing slips", out);
  out.left_out = {
      "The motor's electrical transient in the first periods of a start: up to several times the mean torque, for "
      "milliseconds.",
      "Bending and slipping of couplings, chains, belts and the machine itself, which only soften a blow."};
  out.cautions.push_back({"overload",
                          "What the reducer survives it passes on: a stronger link moves the failure to shaft, "
                          "coupling or machine. Where a jam can hurt people or "
                          "the plant, a torque limiter or a shear element belongs in the train."});
}

}  // namespace lobewise::evidence
