// shock: every event that may load the torque path, against every part of it.

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

#include "engine/evidence/questions.h"
#include "engine/evidence/shock_charts.h"
#include "engine/evidence/shock_working.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::EventKind;
using drive::EventSource;
using drive::PeakCase;

std::string upper_first(std::string text) {
  text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

std::string part_name(const drive::PulseUse& use, const Drive& drive) {
  return label(drive::PathPart{use.part, use.stage}, drive);
}

/// The hardest of what is no assumption.
const drive::PartPeak& hardest(const PeakCase& peak) {
  return *std::max_element(peak.promised.begin(), peak.promised.end(),
                           [](const auto& a, const auto& b) { return a.use < b.use; });
}
const drive::PulseUse* hardest_by_count(const PeakCase& peak) {
  const auto found = std::max_element(peak.fatigue.begin(), peak.fatigue.end(),
                                      [](const auto& a, const auto& b) { return a.use < b.use; });
  return found == peak.fatigue.end() || peak.pulses.empty() ? nullptr : &*found;
}

void write_answer(const Drive& drive, const PeakCase& peak, Finding& out) {
  const double torque = drive.requirement.torque;
  const drive::PathPart& weakest = peak.parts[peak.weakest];
  const drive::PartPeak& worst = hardest(peak);
  const drive::PulseUse* often = hardest_by_count(peak);
  const drive::Event& event = peak.events[worst.event];
  std::string pattern;
  if (worst.use > 1) {
    pattern = fmt::format("{} brings {{}}, {{}} times the working torque: the {} bears {{}} then. ",
                          upper_first(label(event, drive)), label(peak.parts[worst.part], drive));
    out.answer.values = {{event.torque, Quantity::torque},
                         {event.torque / torque, Quantity::number},
                         {drive::borne(peak.parts[worst.part], event), Quantity::torque}};
  } else if (often != nullptr && often->use > 1) {
    pattern =
        fmt::format("{}, {{}} times in the life asked for, tires the {}. ",
                    upper_first(label(peak.pulses[often->hardest], peak.events, drive)), part_name(*often, drive));
    out.answer.values = {{std::round(peak.pulses[often->hardest].count), Quantity::number}};
  }
  pattern += fmt::format(
      "The weakest link of the torque path is the {}: permanent marks begin there at {{}}, {{}} times "
      "the working torque",
      label(weakest, drive));
  out.answer.values.push_back({weakest.marks, Quantity::torque});
  out.answer.values.push_back({weakest.marks / torque, Quantity::number});
  if (out.answer.values.size() == 2) {
    pattern += fmt::format("; {} brings {{}}, {{}} times", label(event, drive));
    out.answer.values.push_back({event.torque, Quantity::torque});
    out.answer.values.push_back({event.torque / torque, Quantity::number});
  }
  out.answer.pattern = pattern + ".";
}

/// The list of events in words.
void write_list(const Drive& drive, const PeakCase& peak, Finding& out) {
  for (const drive::Event& event : peak.events) {
    std::string pattern =
        fmt::format("{} ({}): {{}} at the output shaft, {{}} times the working torque, {{}} at the input shaft",
                    upper_first(label(event, drive)), words(event.source));
    std::vector<Value> values{{event.torque, Quantity::torque},
                              {event.torque / drive.requirement.torque, Quantity::number},
                              {drive::input_torque(event, peak.passed), Quantity::torque}};
    if (event.kind == EventKind::load_drop) {
      pattern += "; how often nobody knows.";
    } else {
      pattern += "; {} times a year, {} in the life asked for.";
      values.push_back({std::round(event.per_year), Quantity::number});
      values.push_back({std::round(event.count), Quantity::number});
    }
    out.notes.push_back({std::move(pattern), std::move(values)});
  }
}

void write_jam_notes(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const demand::Jam& jam = drive.requirement.demand.jam;
  const double torque = drive.requirement.torque;
  out.notes.push_back(
      {"A stop by something rigid, at once, would bring {}, {} times the working torque: more than any catalogue "
       "factor "
       "covers. What a momentary overload of five times the rated torque (common practice, no source) covers is a stop "
       "over an angle, not a wall.",
       {{e.peaks.jam_rigid, Quantity::torque}, {e.peaks.jam_rigid / torque, Quantity::number}}});
  const bool slips = jam.slip_torque && e.peaks.jam <= *jam.slip_torque * (1 + 1e-12);
  if (slips)
    out.notes.push_back(
        {"The machine slips at {} before more can reach the reducer.", {{*jam.slip_torque, Quantity::torque}}});
  else if (const std::optional<double> angle = jam_angle_for(drive, e, e.peak.marks()); drive.motor && angle)
    out.notes.push_back(
        {fmt::format("A jam leaves marks when it stops the shaft within {{}}; {{}} is taken, {{}} to {{}} "
                     "may be ({}).",
                     jam.angle.source),
         {{*angle, Quantity::angle},
          {jam.angle.nominal, Quantity::angle},
          {jam.angle.low, Quantity::angle},
          {jam.angle.high, Quantity::angle}}});
  out.notes.push_back(
      {"In the jam about {} rollers carry and the hardest pressed lobe sees {}; permanent marks begin at about {}.",
       {{std::round(e.at_jam.loaded), Quantity::number},
        {e.at_jam.lobe_pressure, Quantity::pressure},
        {strength::kStaticPressure, Quantity::pressure}}});
  if (!jam.text.empty()) out.notes.push_back({jam.text, {}});
  if (context.jam)
    out.notes.push_back(
        {"Followed in time with play, hardening, damping and the motor's own curve the jam peaks at {} if nothing "
         "slips; the energy balance closes to {}.",
         {{context.jam->links[0].highest_torque, Quantity::torque}, {context.jam->energy_error, Quantity::number}}});
  else if (context.in_time)
    out.notes.push_back({"The jam could not be followed in time: " + context.jam.errors().front().message, {}});
}

void write_start_notes(const Context& context, Finding& out) {
  const Evaluation& e = context.nominal;
  if (!context.drive.motor) return;
  if (context.first_moments)
    out.notes.push_back(
        {"The start by energy, without damping: {}; followed in time with the motor's curve and damping: {}; with all "
         "the play to cross: {}. The supply's own transient in the first periods may add 30 to 100 % on a direct start "
         "(common practice, no source).",
         {{e.peaks.start, Quantity::torque},
          {context.first_moments->links[0].highest_torque, Quantity::torque},
          {e.peaks.start_bound, Quantity::torque}}});
  else if (context.in_time)
    out.notes.push_back(
        {"The start could not be followed in time: " + context.first_moments.errors().front().message, {}});
}

/// What is not judged although it may happen.
void write_unjudged(const Context& context, Finding& out) {
  for (const drive::ShockRun& run : context.events) {
    if (!run.outcome) {
      out.notes.push_back(
          {std::string(run.label) + " could not be followed in time: " + run.outcome.errors().front().message, {}});
      continue;
    }
    if (std::string_view(run.id) != "emergency_stop") continue;
    out.notes.push_back(
        {"An emergency stop cannot be judged: nobody stated a brake. With one of twice the motor's rated torque it "
         "would "
         "bring {}, {} times the working torque; a stated shock has it judged.",
         {{run.peak(), Quantity::torque}, {run.peak() / context.drive.requirement.torque, Quantity::number}}});
  }
  if (context.drive.requirement.reversing && context.nominal.peaks.plugging <= 0 && context.drive.motor)
    out.left_out.emplace_back(
        "Reversal at full speed: a soft starter or an inverter brings the machine to rest first; where it does not, "
        "state its torque as a shock.");
}

/// What the static ratings are worth, and where the mesh was not solved.
void write_reach(const Drive& drive, const PeakCase& peak, Finding& out) {
  double solved = std::numeric_limits<double>::max(), highest = 0;
  for (const drive::PathPart& part : peak.parts) solved = std::min(solved, part.solved_to);
  for (const drive::Event& event : peak.events) highest = std::max(highest, event.torque);
  if (highest > solved)
    out.notes.push_back(
        {"The mesh was solved up to {} at the output shaft. What lies above is carried on along its last piece: it "
         "says "
         "which part gives way, not by how much.",
         {{solved, Quantity::torque}}});
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    if (drive.build.stages[i].stage->eccentric_bearing.kind != range::BearingKind::full_complement) continue;
    constexpr double kUsual = 4;  // common practice, no source
    double start = 0;
    for (const drive::Event& event : peak.events)
      if (event.routine && event.source != EventSource::assumed) start = std::max(start, event.torque);
    const double safety = drive.bearings[i].eccentric.rating.C_0 /
                          drive.tables[i]->at(start * peak.passed.stage[i], &drive::MeshLevel::bearing_largest);
    if (start > 0 && safety < kUsual)
      out.notes.push_back(
          {"In the hardest planned event the static safety of the full-complement eccentric bearing is {}; the trade "
           "likes {} of such bearings (common practice, no source), C_0 itself asks for no more than of others.",
           {{safety, Quantity::number}, {kUsual, Quantity::number}}});
  }
}

}  // namespace

std::vector<Check> shock_checks(const Drive& drive, const Evaluation& e) {
  const PeakCase& peak = e.peak;
  std::vector<Check> checks;
  const auto add = [&](std::string about, const std::string& event, double figure, double limit, Quantity quantity,
                       Basis basis) {
    Check check{fmt::format("{}{}{}", about, event.empty() ? "" : ", ", event), figure, limit, quantity, true, {}, {}};
    check.basis = basis;
    check.about = std::move(about);
    checks.push_back(std::move(check));
  };
  for (const drive::PartPeak& worst : peak.promised)
    add("share of what it bears: " + label(peak.parts[worst.part], drive), label(peak.events[worst.event], drive),
        worst.use, 1, Quantity::share, Basis::promise);
  for (const drive::PulseUse& use : peak.fatigue)
    add("share of what it bears often: " + part_name(use, drive),
        peak.pulses.empty() ? "" : label(peak.pulses[use.hardest], peak.events, drive), use.use, 1, Quantity::share,
        Basis::promise);
  for (const drive::AssumedPeak& assumed : peak.assumed) {
    const std::string event = label(peak.events[assumed.event], drive), part = label(peak.parts[assumed.part], drive);
    if (assumed.lifted)
      add(fmt::format("torque on the {}, should the pull lift the unit", part), event,
          peak.events[assumed.event].torque, assumed.limit, Quantity::torque, Basis::assumed);
    else
      add("torque of " + event, "on the " + part, peak.events[assumed.event].torque, assumed.limit, Quantity::torque,
          Basis::assumed);
  }
  return checks;
}

void write_shock(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const PeakCase& peak = context.nominal.peak;
  if (!drive.motor) out.missing.push_back("a motor, for start and jam: " + drive.motor_errors.front().message);
  write_answer(drive, peak, out);
  write_list(drive, peak, out);
  write_jam_notes(context, out);
  write_start_notes(context, out);
  write_reach(drive, peak, out);
  out.left_out = {
      "The motor's electrical transient in the first periods of a start: up to several times the mean torque, for "
      "milliseconds.",
      "Bending and slipping of couplings, chains, belts and the machine itself, which only soften a blow."};
  for (std::string& part : drive::not_described(drive)) out.left_out.push_back("Not judged: " + std::move(part));
  write_unjudged(context, out);
  write_shock_working(context, out.working);
  out.charts = shock_charts(context);
  out.cautions.push_back({"overload",
                          "What the reducer survives it passes on: a stronger link moves the failure to shaft, "
                          "coupling or machine. Where a jam can hurt people or "
                          "the plant, a torque limiter or a shear element belongs in the train."});
}

}  // namespace lobewise::evidence
