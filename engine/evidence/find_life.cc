// life: bearings, lobes, rollers and pins on this duty.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/evidence/questions.h"
#include "engine/strength/system_life.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::PartLife;

constexpr double kHour = 3600;

const PartLife* shortest_bearing(const drive::Lives& lives) {
  const PartLife* found = nullptr;
  for (const PartLife& part : lives.parts)
    if (part.bearing && (found == nullptr || part.modified_hours < found->modified_hours)) found = &part;
  return found;
}

const PartLife* shortest_line(const drive::Lives& lives) {
  const PartLife* found = nullptr;
  for (const PartLife& part : lives.parts)
    if (!part.bearing && (found == nullptr || part.basic_hours < found->basic_hours)) found = &part;
  return found;
}

/// Beyond this a computed life only says that fatigue does not limit. Common practice, no source.
constexpr double kShownLife = 1e6 * kHour;

double shown(double hours) { return std::min(hours * kHour, kShownLife); }

/// Life at other reliabilities, and the share of whole units that survive.
void add_reliability(const Drive& drive, const drive::Lives& lives, const PartLife& weakest, Finding& out) {
  std::vector<strength::SystemPart> parts;
  for (const PartLife& part : lives.parts)
    if (std::isfinite(part.basic_hours)) parts.push_back({part.basic_hours, part.weibull, part.count});
  const double at_90 = weakest.modified_hours / strength::reliability_factor(drive.requirement.reliability);
  Chart chart{"life_over_reliability",
              "Life over the share that must reach it",
              "Share that must reach it",
              "Life",
              Quantity::share,
              Quantity::duration,
              {},
              false,
              false,
              true};
  Series part{weakest.label + ", modified", {}, {}, false}, unit{"whole unit, basic lives", {}, {}, false};
  for (double share : {0.90, 0.95, 0.96, 0.97, 0.98, 0.99, 0.995, 0.999, 0.9995}) {
    part.x.push_back(share);
    part.y.push_back(shown(at_90 * strength::reliability_factor_table(share)));
    // R(t) falls with t: the time at which it is `share`, by halving the logarithm.
    double low = std::log(1e-6 * lives.system_hours), high = std::log(lives.system_hours);
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (low + high);
      (strength::system_reliability(std::exp(middle), parts) > share ? low : high) = middle;
    }
    unit.x.push_back(share);
    unit.y.push_back(shown(std::exp(low)));
    if (share == 0.95 || share == 0.99)
      out.working.push_back(
          {fmt::format("L_{:.0f}m", 100 * (1 - share)),
           fmt::format("modified life of the {} that {:.0f} % reach", weakest.label, 100 * share),
           "L_nm = a_1 L_10m",
           {{"a_1", "reliability factor", strength::reliability_factor_table(share), Quantity::number},
            {"L_10m", "modified life that 90 % reach", at_90 * kHour, Quantity::duration}},
           part.y.back(),
           Quantity::duration,
           "[iso281] table of a_1, from memory"});
  }
  chart.series = {std::move(part), std::move(unit)};
  out.charts.push_back(std::move(chart));
  const double reached = strength::system_reliability(drive.requirement.life / kHour, parts);
  out.working.push_back(
      {"R",
       "share of whole units that pass the hours asked for without fatigue: the product over all parts",
       "R(t) = prod exp(-ln(1/0.9) n_i (t/L_i)^e_i)",
       {{"t", "hours asked for", drive.requirement.life, Quantity::duration},
        {"L_s", "time that 90 % of whole units pass", lives.system_hours * kHour, Quantity::duration}},
       reached,
       Quantity::share,
       "derived, docs/theory/life.md: product over the parts; slopes from memory"});
}

/// What practice would ask, beside what this duty asks and this build has.
void add_practice(const Context& context, Finding& out) {
  const enquiry::Requirement& r = context.drive.requirement;
  out.notes.push_back(
      {"Contact, bearings, pins and shaft carry {} times the working torque on this duty for the hours asked for.",
       {{context.strength_torque / r.torque, Quantity::number}}});
  if (r.practice) {
    const demand::Practice& p = r.practice->practice;
    const char* pattern = p.low < p.high
                              ? "Usual service factors would ask {} to {} of such a machine (common practice); the "
                                "duty itself computes to {}. The duty decides here."
                              : "Usual service factors would ask {} of such a machine (common practice); the duty "
                                "itself computes to {}. The duty decides here.";
    std::vector<Value> values{{p.low, Quantity::number}};
    if (p.low < p.high) values.push_back({p.high, Quantity::number});
    values.push_back({r.practice->computed.value, Quantity::number});
    out.notes.push_back({pattern, std::move(values)});
  }
  if (r.service_factor && context.strength_torque < *r.service_factor * r.torque)
    out.notes.push_back({"The service factor of {} that the customer asks for is not reached.",
                         {{*r.service_factor, Quantity::number}}});
}

}  // namespace

std::vector<Check> life_checks(const Drive& drive, const Evaluation& e) {
  std::vector<Check> checks;
  for (const PartLife& part : e.lives.parts) {
    if (!part.bearing) continue;
    // Basic life where the model of the lubricant gives no factor, modified life otherwise.
    checks.push_back({"modified life of the " + part.label,
                      shown(part.modified_hours),
                      drive.requirement.life,
                      Quantity::duration,
                      false,
                      {},
                      {}});
  }
  checks.push_back({"life of lobes, rollers and pins against fatigue",
                    shown(shortest_line(e.lives)->basic_hours),
                    drive.requirement.life,
                    Quantity::duration,
                    false,
                    {},
                    {}});
  return checks;
}

void write_life(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const PartLife& weakest = *shortest_bearing(e.lives);
  const PartLife& lobes = *shortest_line(e.lives);
  out.answer = {
      "The {} is the first to tire: 90 % of them reach {} by the basic rating and {} with this lubricant and "
      "cleanliness; {} are asked for.",
      {}};
  out.answer.pattern.replace(out.answer.pattern.find("{}"), 2, weakest.label);
  out.answer.values = {{shown(weakest.basic_hours), Quantity::duration},
                       {shown(weakest.modified_hours), Quantity::duration},
                       {drive.requirement.life, Quantity::duration}};
  out.notes.push_back(
      {fmt::format("Lobes, rollers and pins do not limit: the {} would last {{}} against fatigue.", lobes.label),
       {{shown(lobes.basic_hours), Quantity::duration}}});
  out.notes.push_back({"All parts together: 90 % of whole units pass {} without any fatigue damage (basic lives).",
                       {{shown(e.lives.system_hours), Quantity::duration}}});
  if (weakest.outside_model)
    out.notes.push_back(
        {"The oil film of some bearing is so thin (kappa below 0.1) that the fatigue model gives no number; wear "
         "decides there.",
         {}});
  if (weakest.overloaded)
    out.notes.push_back(
        {"A bearing carries more than half of its rating C: outside the scope of the rating life.", {}});
  if (weakest.life_factor > 5)
    out.notes.push_back(
        {"A life factor above 5 means that other causes than fatigue end the life: seals, lubricant, dirt. Quote the "
         "basic figure.",
         {}});
  const bool ball = weakest.weibull != strength::kWeibullLine;
  out.working.push_back(
      {"P",
       "equivalent load over the mesh cycle: the bearing's force turns with the crank",
       "P = (mean F^p)^(1/p)",
       {{"p", "exponent", ball ? strength::kBallExponent : strength::kRollerExponent, Quantity::number}},
       weakest.load,
       Quantity::force,
       "[iso281] from memory"});
  out.working.push_back({"L_10h",
                         fmt::format("basic rating life of the {}, over the duty (Palmgren-Miner)", weakest.label),
                         "L_10h = 1e6 (C/P)^p / (60 n)",
                         {{"C", "dynamic capacity", weakest.C, Quantity::force},
                          {"P", "load at full load", weakest.load, Quantity::force},
                          {"n", "relative speed of the rings", weakest.speed, Quantity::angular_speed}},
                         weakest.basic_hours * kHour,
                         Quantity::duration,
                         "[iso281] from memory"});
  out.working.push_back({"kappa",
                         "viscosity at the oil temperature over the viscosity asked for",
                         "kappa = nu / nu_1",
                         {{"nu", "viscosity", drive.oil.nu(e.oil_temperature, 1), Quantity::kinematic_viscosity},
                          {"T", "oil temperature", e.oil_temperature, Quantity::temperature}},
                         weakest.kappa,
                         Quantity::number,
                         "[iso281] reference viscosity, as quoted in public code"});
  out.working.push_back({"a_ISO",
                         "life modification factor",
                         "a_ISO = 0.1 [1 - (1.5859 - c/kappa^x) (e_C C_u/P)^0.4]^-9.185",
                         {{"kappa", "viscosity ratio", weakest.kappa, Quantity::number},
                          {"e_C", "contamination factor", weakest.contamination, Quantity::number},
                          {"C_u", "fatigue limit load", weakest.C_u, Quantity::force},
                          {"P", "load", weakest.load, Quantity::force}},
                         weakest.life_factor,
                         Quantity::number,
                         "[iso281] eq. 34-36, as quoted in public code"});
  out.working.push_back({"L_nm",
                         "modified life over the duty",
                         "L_nm = a_1 a_ISO L_10h",
                         {{"S", "reliability", drive.requirement.reliability, Quantity::share}},
                         weakest.modified_hours * kHour,
                         Quantity::duration,
                         "[iso281] from memory"});
  Chart chart{"life_by_part",
              "Life of every part",
              "Part",
              "Life",
              Quantity::number,
              Quantity::duration,
              {},
              true,
              false,
              true};
  double index = 0;
  for (const PartLife& part : e.lives.parts) {
    chart.series.push_back({part.label, {index}, {shown(part.modified_hours)}, false});
    index += 1;
  }
  chart.series.push_back({"asked for", {0, index - 1}, {drive.requirement.life, drive.requirement.life}, true});
  out.charts.push_back(std::move(chart));
  add_reliability(drive, e.lives, weakest, out);
  add_practice(context, out);
  out.left_out = {"Wear of sleeves, needles and lobes; seals and lubricant, which have lives of their own.",
                  "Edge stress and misalignment of the rollers; mounting faults."};
}

}  // namespace lobewise::evidence
