// life: bearings, lobes, rollers, pins and shaft on this duty, and the share of whole units that reach the life asked
// for.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/formula/record.h"
#include "engine/evidence/life_working.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::PartLife;

constexpr double kHour = 3600;

const PartLife* shortest(const drive::Lives& lives, bool bearing) {
  const PartLife* found = nullptr;
  for (const PartLife& part : lives.parts)
    if (part.bearing == bearing && (found == nullptr || part.modified_hours < found->modified_hours)) found = &part;
  return found;
}

/// The kind of part that ends most units: all of its kind together reach the asked share's life first.
const PartLife& first_to_tire(const drive::Lives& lives, double share) {
  const auto together = [&](const PartLife& part) {
    const strength::SystemPart one = part.in_system();
    return strength::system_life({&one, 1}, share);
  };
  return *std::min_element(lives.parts.begin(), lives.parts.end(),
                           [&](const PartLife& a, const PartLife& b) { return together(a) < together(b); });
}

/// Beyond this a computed life only says that fatigue does not limit. Common practice, no source.
constexpr double kShownLife = 1e6 * kHour;

double shown(double hours) { return std::min(hours * kHour, kShownLife); }

/// Life at other reliabilities.
void add_reliability(const drive::Lives& lives, const PartLife& weakest, Finding& out) {
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
  Series part{weakest.label + ", modified", {}, {}, false}, unit{"whole unit, modified lives", {}, {}, false};
  for (double share : {0.90, 0.95, 0.96, 0.97, 0.98, 0.99, 0.995, 0.999, 0.9995}) {
    const double of_part = strength::life_share(share, weakest.weibull, weakest.least);
    part.x.push_back(share);
    part.y.push_back(shown(of_part * weakest.hours_90));
    unit.x.push_back(share);
    unit.y.push_back(shown(lives.hours_of(share)));
    if (share == 0.95 || share == 0.99) {
      using namespace formula;
      record(out.working, share == 0.95 ? "L_5m" : "L_1m",
             fmt::format("modified life of the {} that {:.0f} % reach", weakest.label, 100 * share).c_str(),
             Quantity::duration,
             min(input("a_1", "share of L_10m that they reach", of_part) *
                     input("L_10m", "modified life that 90 % reach", weakest.hours_90 * kHour, Quantity::duration),
                 input("L_shown", "longest life that is shown", kShownLife, Quantity::duration)),
             "[iso281] distribution behind a_1, from memory");
    }
  }
  chart.series = {std::move(part), std::move(unit)};
  out.charts.push_back(std::move(chart));
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

void add_notes(const Drive& drive, const drive::Lives& lives, const PartLife& weakest, Finding& out) {
  const PartLife& bearing = *shortest(lives, true);
  const PartLife& line = *shortest(lives, false);
  const PartLife& other = weakest.bearing ? line : bearing;
  out.notes.push_back(
      {fmt::format("Of the {} the {} is the first: {{}} of them reach {{}}.",
                   weakest.bearing ? "lobes, rollers and holes" : "bearings", other.label),
       {{drive.requirement.reliability, Quantity::share}, {shown(other.modified_hours), Quantity::duration}}});
  out.notes.push_back({"All parts together: {} of whole units pass {} without any fatigue damage.",
                       {{drive.requirement.reliability, Quantity::share},
                        {shown(lives.hours_of(drive.requirement.reliability)), Quantity::duration}}});
  for (const bool of_bearings : {true, false})
    for (const PartLife& part : lives.parts)
      if (part.bearing == of_bearings && part.outside_model) {
        out.notes.push_back(
            {fmt::format("The oil film of the {} is so thin (kappa below 0.1) that the fatigue model gives "
                         "no factor: a tenth of the basic life is counted, the least it knows; wear "
                         "decides there.",
                         part.label),
             {}});
        break;
      }
  if (std::any_of(lives.parts.begin(), lives.parts.end(), [](const PartLife& part) { return part.overloaded; }))
    out.notes.push_back(
        {"A bearing carries more than half of its rating C: outside the scope of the rating life.", {}});
  if (weakest.life_factor > 5)
    out.notes.push_back(
        {"A life factor above 5 means that other causes than fatigue end the life: seals, lubricant, dirt. Quote the "
         "basic figure.",
         {}});
}

}  // namespace

std::vector<Check> life_checks(const Drive& drive, const Evaluation& e) {
  const double asked = drive.requirement.reliability;
  // The margin is the part that is left of the share that may fail; of a unit that misses it, what is missing of the
  // share asked for, lest a small miss counts as many times the limit.
  const bool reached = e.lives.reliability >= asked;
  std::vector<Check> checks{{"share of units that reach the life asked for",
                             e.lives.reliability,
                             asked,
                             Quantity::share,
                             false,
                             {},
                             {},
                             reached ? asked - (1 - asked) : 0}};
  for (const PartLife& part : e.lives.parts)
    if (part.bearing && part.disc == 0)
      checks.push_back({"modified life of the " + part.label,
                        shown(part.modified_hours),
                        drive.requirement.life,
                        Quantity::duration,
                        false,
                        {},
                        {}});
  checks.push_back({"life of lobes, rollers and pins against fatigue",
                    shown(shortest(e.lives, false)->modified_hours),
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
  const enquiry::Requirement& r = drive.requirement;
  const PartLife& weakest = first_to_tire(e.lives, r.reliability);
  out.answer = {
      fmt::format("{{}} of whole units reach {{}} without fatigue of any part; {{}} are asked for. The {} is the "
                  "first to tire: {{}} of them reach {{}}, by the basic rating {{}}.",
                  weakest.label),
      {{e.lives.reliability, Quantity::share},
       {r.life, Quantity::duration},
       {r.reliability, Quantity::share},
       {r.reliability, Quantity::share},
       {shown(weakest.modified_hours), Quantity::duration},
       {shown(weakest.basic_hours), Quantity::duration}}};
  if (!r.shaft_load_open.empty()) out.missing.push_back(r.shaft_load_open);
  add_notes(drive, e.lives, weakest, out);
  record_life_of(drive, e, weakest, out.working);
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
  add_reliability(e.lives, weakest, out);
  record_reliability(e.lives, out.working);
  add_practice(context, out);
  out.left_out = {
      "Wear of sleeves, needles and lobes; seals and lubricant, which have lives of their own.",
      "Edge stress and misalignment of the rollers; mounting faults.",
      "The couple with which the discs' pin forces turn against each other loads the output bearings a little "
      "more; it is not counted."};
}

}  // namespace lobewise::evidence
