#include "engine/evidence/beside.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/constants.h"
#include "engine/evidence/case_of.h"
#include "engine/evidence/questions.h"
#include "engine/evidence/sampling.h"
#include "engine/incumbent/unit_estimates.h"
#include "engine/incumbent/unit_heat.h"
#include "engine/strength/bearing_life.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using incumbent::Figure;

constexpr std::uint64_t kSeed = 20240229;

Figure figure_of(const Span& span) { return {span.likely, span.low, span.high}; }

/// Values of one figure over the samples.
Figure spread(double nominal, std::vector<double> values) {
  if (values.empty()) return incumbent::exactly(nominal);
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
  };
  return {nominal, std::min(nominal, at(0.05)), std::max(nominal, at(0.95))};
}

/// That 99 % of whole units reach [s].
double life_of_99(const Evaluation& e) { return 3600 * e.lives.hours_of(0.99); }

}  // namespace

incumbent::UnitDuty duty_of(const enquiry::Requirement& r) {
  incumbent::UnitDuty duty;
  duty.output_torque = r.torque;
  duty.output_speed = r.speed;
  constexpr double kUsualEfficiency = 0.9;  // only to look up the slip of a motor of about that power
  const int poles = r.poles.value_or(4);
  const double synchronous = 4 * kPi * r.frequency / poles;
  const std::optional<double> motor =
      r.motor_speed ? r.motor_speed : drive::typical_speed(r.torque * r.speed / kUsualEfficiency, r.frequency, poles);
  duty.input_speed = motor.value_or(synchronous);
  if (r.incumbent && r.incumbent->input_speed) duty.input_speed = *r.incumbent->input_speed;
  if (r.service_factor) duty.service_factor = std::clamp(*r.service_factor, 1.0, 4.0);
  duty.service_time = r.life;
  duty.ambient = r.ambient_high;
  duty.around = {r.air_speed, r.altitude, r.sun};
  for (const enquiry::Block& block : r.duty) duty.parts.push_back({block.time_share, block.torque, block.speed});
  if (r.intermittent) duty.running_share = r.intermittent->first / (r.intermittent->first + r.intermittent->second);
  return duty;
}

incumbent::UnitDuty duty_of(const Drive& drive, const Evaluation& nominal) {
  incumbent::UnitDuty duty = duty_of(drive.requirement);
  duty.peak_ratio = std::max(1.0, std::max(nominal.peaks.start, nominal.peaks.jam) / drive.requirement.torque);
  return duty;
}

Result<incumbent::GearUnit> unit_beside(const enquiry::Incumbent& in, const incumbent::UnitDuty& duty) {
  Result<incumbent::GearUnit> unit = incumbent::gear_unit(enquiry::unit_in_service(in), duty);
  if (!unit) {
    Errors errors = unit.errors();
    for (Error& error : errors) error.path = "incumbent." + error.path;
    return errors;
  }
  if (in.efficiency) {
    unit->efficiency = {*in.efficiency, *in.efficiency, *in.efficiency, "stated"};
    const double loss = unit->output_power * (1 / *in.efficiency - 1);
    // The model's split between idle and load-dependent losses stays, scaled to the stated sum.
    const double factor = loss / unit->loss_power;
    const auto set = [](Coefficient& part, double value) { part = {value, value, value, "stated efficiency"}; };
    incumbent::UnitLosses& l = unit->losses;
    const double load = l.teeth.nominal + l.bearings.nominal;
    const double slope = factor * (1 / (1 - load) - 1);
    const double teeth = l.teeth.nominal / load * slope / (1 + slope);
    set(l.bearings, slope / (1 + slope) - teeth);
    set(l.teeth, teeth);
    set(l.idle, factor * l.idle.nominal);
    unit->loss_power = loss;
    incumbent::estimate_temperature(*unit, duty);
    if (!(unit->oil_temperature.nominal <= incumbent::kHottest) && !in.oil_temperature)
      return input_error("incumbent.efficiency", format_quantity(*in.efficiency, Quantity::share, UnitSystem::si),
                         fmt::format("at {} that would heat a unit of its size above {}: efficiency, plate or load is "
                                     "misread",
                                     format_quantity(duty.output_torque, Quantity::torque, UnitSystem::si),
                                     format_quantity(incumbent::kHottest, Quantity::temperature, UnitSystem::si)));
  }
  if (in.oil_temperature) {
    unit->oil_temperature = {*in.oil_temperature, *in.oil_temperature, *in.oil_temperature, "measured"};
    unit->heat.reset();
  }
  return unit;
}

namespace {

/// A cycloidal unit by the candidate's own model, where nobody states better.
void same_kind(const Drive& drive, const Evaluation& nominal, const enquiry::Incumbent& in, incumbent::GearUnit& unit) {
  if (unit.kind != incumbent::UnitKind::cycloidal) return;
  constexpr const char* kSource =
      "the candidate's own model, the same kind at the same duty; make and wear x 0.7 to 1.5, common practice, no "
      "source";
  constexpr Coefficient kMakeAndWear{1, 0.7, 1.5, kSource};
  if (!in.efficiency) {
    const cost::DriveLosses losses = candidate_losses(drive, nominal, 0);
    const auto spread = [&](double value) {
      return Coefficient{value, value * kMakeAndWear.low, value * kMakeAndWear.high, kSource};
    };
    unit.losses = {};
    // slope = 1 / (1 - s) - 1
    unit.losses.teeth = spread(losses.slope.nominal / (1 + losses.slope.nominal));
    unit.losses.bearings = {0, 0, 0, kSource};
    unit.losses.idle = spread(losses.idle_power.nominal / (unit.design_torque * drive.requirement.speed));
    incumbent::total_losses(unit, duty_of(drive.requirement));
  }
  const range::Dimensions& d = drive.build.frame().dimensions;
  unit.length = drive.build.length();
  unit.width = d.width;
  unit.height = d.height;
  if (!in.mass) {
    constexpr double kScatter = 0.35;
    const double mass = drive.build.mass();
    unit.mass = {mass, (1 - kScatter) * mass, (1 + kScatter) * mass, kSource};
  }
  if (!in.oil_temperature && nominal.warm) {
    const double air = drive.requirement.ambient_high, rise = nominal.oil_temperature - air;
    unit.oil_temperature = {air + rise, air + kMakeAndWear.low * rise, air + kMakeAndWear.high * rise, kSource};
    unit.heat.reset();
  }
}

}  // namespace

Result<incumbent::GearUnit> unit_beside(const Drive& drive, const Evaluation& nominal) {
  const enquiry::Incumbent& in = *drive.requirement.incumbent;
  Result<incumbent::GearUnit> unit = unit_beside(in, duty_of(drive, nominal));
  if (unit) same_kind(drive, nominal, in, *unit);
  return unit;
}

incumbent::CandidateFigures candidate_figures(const Drive& drive, const Evaluation& nominal, int samples) {
  const Evaluation& e = nominal;
  std::vector<double> contact, efficiency, temperature, loss, life, peak;
  if (samples > 0)
    for (const drive::Coefficients& c : latin_hypercube(unknowns_of(drive), samples, kSeed)) {
      const Evaluation s = evaluate(drive, c);
      contact.push_back(s.working.lobe_pressure);
      efficiency.push_back(s.full.efficiency());
      temperature.push_back(s.oil_temperature);
      loss.push_back(s.full.places.total());
      life.push_back(life_of_99(s));
      peak.push_back(std::max(s.at_start.lobe_pressure, s.at_jam.lobe_pressure));
    }
  incumbent::CandidateFigures out;
  out.contact_stress = spread(e.working.lobe_pressure, contact);
  out.peak_contact = spread(std::max(nominal.at_start.lobe_pressure, nominal.at_jam.lobe_pressure), peak);
  out.pin_bending = incumbent::exactly(e.working.pin_stress);
  out.peak_bending = incumbent::exactly(std::max(nominal.at_start.pin_stress, nominal.at_jam.pin_stress));
  // Of the stage with fewest; every disc of it carries.
  double pairs = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < drive.tables.size(); ++i)
    pairs = std::min(
        pairs, drive.tables[i]->at(e.moment.torque / drive.build.ratio_behind(i), &drive::MeshLevel::loaded_mean) *
                   drive.build.stages[i].stage->geometry.discs);
  out.pairs = incumbent::exactly(pairs);
  out.efficiency = spread(e.full.efficiency(), efficiency);
  if (e.warm) out.oil_temperature = spread(e.oil_temperature, temperature);
  out.loss = spread(e.full.places.total(), loss);
  out.peak_ratio = incumbent::exactly(e.peak.marks() / drive.requirement.torque);
  const double hours = life_of_99(e);
  if (std::isfinite(hours)) out.life = spread(hours, life);
  const range::Dimensions& d = drive.build.frame().dimensions;
  out.mass = incumbent::exactly(drive.build.mass());
  out.volume = incumbent::exactly(drive.build.length() * d.width * d.height);
  const std::optional<enquiry::Economics>& money = drive.requirement.economics;
  out.price =
      money && money->candidate_price ? figure_of(*money->candidate_price) : incumbent::exactly(drive.build.price());
  if (money && money->candidate_delivery) out.delivery_time = figure_of(*money->candidate_delivery);
  return out;
}

incumbent::OfferFigures offer_of(const enquiry::Requirement& requirement) {
  incumbent::OfferFigures offer;
  if (const auto& money = requirement.economics) {
    if (money->replacement_price) offer.price = figure_of(*money->replacement_price);
    if (money->replacement_delivery) offer.delivery_time = figure_of(*money->replacement_delivery);
  }
  return offer;
}

double efficiency_at(const Drive& drive, const Evaluation& e, double load_share, double oil_temperature) {
  const drive::Running now =
      drive.running({1, load_share * drive.requirement.torque, drive.requirement.speed}, e.coefficients);
  return drive::running_losses(drive.build, drive.tables, drive.oil, now, oil_temperature, e.coefficients).efficiency();
}

std::vector<std::string> missing_of_incumbent(const enquiry::Requirement& requirement) {
  if (!requirement.incumbent) return {"what drives the machine now: kind of unit, nameplate, dimensions"};
  if (!requirement.incumbent->kind)
    return {
        "the kind of the unit in service: helical in line or parallel, bevel-helical, worm, planetary, belt and gear, "
        "cycloidal"};
  return {};
}

FitBeside fit_beside(const Drive& drive) {
  const enquiry::Requirement& r = drive.requirement;
  const range::Frame& frame = drive.build.frame();
  const range::Dimensions& d = frame.dimensions;
  FitBeside out;
  if (r.incumbent && r.incumbent->dimensions) out.before = *r.incumbent->dimensions;
  incumbent::Dimensions& after = out.after;
  after.shaft_diameter = frame.output.diameter;
  after.shaft_length = frame.output.length;
  after.hollow_shaft = false;
  if (r.mounting == enquiry::MountingKind::foot) {
    after.shaft_height = d.shaft_height;
    after.foot_length = d.foot_holes_along;
    after.foot_width = d.foot_holes_across;
    after.foot_hole = d.foot_hole;
    after.shaft_end_to_foot = frame.output.length + d.shoulder_to_hole;
  } else {
    after.flange_bolt_circle = d.flange_bolt_circle;
    after.flange_spigot = d.flange_spigot;
  }
  after.width = d.width;
  after.height = d.height;
  after.axis_offset = 0;
  const double reducer_length = frame.output.length + drive.build.length();
  if (drive.motor) {
    const Coefficient length = drive::typical_length(*drive.motor);
    const Coefficient mass = drive::typical_mass(drive.motor->rated_power);
    out.length = {reducer_length + length.nominal, reducer_length + length.low, reducer_length + length.high,
                  length.source};
    out.mass = {drive.build.mass() + mass.nominal, drive.build.mass() + mass.low, drive.build.mass() + mass.high,
                mass.source};
    after.length = out.length.nominal;
    after.mass = out.mass.nominal;
  }
  out.room = {r.max_length, r.max_width, r.max_height, r.lifting, r.by_chain_or_belt};
  out.fit = incumbent::fit(out.before, after, out.room);
  for (const incumbent::FitLine& line : out.fit.lines)
    if (line.verdict == incumbent::FitVerdict::unknown && line.after)
      out.unknown.push_back((line.before ? "the free room for the " : "the old unit's ") + line.label);
  return out;
}

std::vector<Text> fair_words(const std::vector<incumbent::Axis>& axes, const incumbent::GearUnit& unit,
                             const incumbent::UnitDuty& duty, const enquiry::Incumbent& seen) {
  struct Word {
    const char* id;
    const char* words;
  };
  constexpr Word kWords[] = {{"contact_stress", "contact stress at the working load"},
                             {"contact_at_equal_size", "contact stress at equal size"},
                             {"peak_contact", "contact stress in the worst moment"},
                             {"pairs", "number of contacts that share the load"},
                             {"bending", "bending at the working load"},
                             {"peak_bending", "bending in the worst moment"},
                             {"peak", "momentary torque it stands"},
                             {"life", "fatigue life"},
                             {"efficiency", "efficiency"},
                             {"losses", "power lost"},
                             {"heat", "oil temperature"},
                             {"mass", "mass"},
                             {"size", "size"},
                             {"price", "price"},
                             {"delivery", "delivery time"}};
  const auto list = [&](incumbent::Better side) {
    std::string out;
    for (const incumbent::Axis& axis : axes)
      for (const Word& word : kWords)
        if (axis.id == word.id && axis.better == side) out += (out.empty() ? "" : ", ") + std::string(word.words);
    return out;
  };
  std::vector<Text> out;
  const auto say = [&](incumbent::Better side, const std::string& before) {
    const std::string what = list(side);
    if (!what.empty()) out.push_back({before + what + ".", {}});
  };
  say(incumbent::Better::candidate, "The candidate is better at: ");
  say(incumbent::Better::incumbent, fmt::format("The {} unit is better at: ", incumbent::name(unit.kind)));
  say(incumbent::Better::even, "Within what is known there is no difference at: ");
  say(incumbent::Better::unknown, "Cannot be compared with what is known: ");
  if (list(incumbent::Better::incumbent).empty())
    out.push_back(
        {unit.geared()
             ? "On no line that can be compared is the geared unit clearly better; lines that cannot be compared may "
               "still speak for it."
             : "What stands there is of the same kind: without a measurement or a quote nothing tells the two apart.",
         {}});
  const bool broke = std::any_of(seen.troubles.begin(), seen.troubles.end(), [](const enquiry::TroubleSeen& t) {
    return t.what == incumbent::Trouble::tooth_breakage;
  });
  if (unit.static_ratio && *unit.static_ratio < duty.peak_ratio && !broke)
    out.push_back(
        {"By the worst momentary torque computed here, {} times the working torque, its teeth would give way "
         "at {} times. If it has run without a broken tooth, the real shocks are softer than computed, for "
         "both.",
         {{duty.peak_ratio, Quantity::number}, {*unit.static_ratio, Quantity::number}}});
  return out;
}

Chart efficiency_beside(const Drive& drive, const Evaluation& nominal, const incumbent::GearUnit& unit) {
  Chart chart{"efficiency_beside",
              "Efficiency over load, both at the same speed",
              "Share of the full load",
              "Efficiency",
              Quantity::share,
              Quantity::share,
              {},
              false,
              false,
              false};
  Series candidate{"candidate", {}, {}, false};
  Series geared{incumbent::name(unit.kind), {}, {}, true};
  for (int i = 1; i <= 24; ++i) {
    const double load = 0.05 * i;
    candidate.x.push_back(load);
    candidate.y.push_back(efficiency_at(drive, nominal, load, nominal.oil_temperature));
    geared.x.push_back(load);
    geared.y.push_back(incumbent::efficiency_at(unit, load));
  }
  chart.series = {std::move(candidate), std::move(geared)};
  return chart;
}

}  // namespace lobewise::evidence
