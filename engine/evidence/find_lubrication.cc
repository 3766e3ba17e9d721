// lubrication: whether the fill separates the surfaces, and for how long it serves.

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/contact/film.h"
#include "engine/drive/lobe_film.h"
#include "engine/evidence/lubricant_charts.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

}  // namespace

std::vector<Check> lubrication_checks(const Drive& drive, const Evaluation& e) {
  std::vector<Check> checks;
  double kappa = 1e9, factor = 0;
  for (const drive::PartLife& part : e.lives.parts)
    if (part.bearing && part.id.rfind("output", 0) != 0) kappa = std::min(kappa, part.kappa);
  checks.push_back(
      {"viscosity ratio of the fast bearings", kappa, kLeastViscosityRatio, Quantity::number, false, {}, {}});
  if (drive.oil.grease()) {
    for (const drive::StageRef& ref : drive.build.stages)
      factor = std::max(factor, contact::speed_factor(drive.input_speed, ref.stage->eccentric_bearing.pitch_diameter));
    checks.push_back({"speed factor n d_m of the grease",
                      factor,
                      contact::kGreaseSpeedFactorRoller,
                      Quantity::number,
                      true,
                      {},
                      {}});
  }
  return checks;
}

void write_lubrication(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const range::Lubricant& fill = drive.oil.fill;
  const std::string what = drive.oil.grease() ? "Grease with a base oil of {}" : "Oil of {}";
  out.answer = {
      what + " at {} keeps {} at its temperature of {}; the fast bearings get {} of the viscosity they ask for.",
      {{fill.viscosity_40, Quantity::kinematic_viscosity},
       {kZeroCelsius + 40, Quantity::temperature},
       {drive.oil.nu(e.oil_temperature, 1), Quantity::kinematic_viscosity},
       {e.oil_temperature, Quantity::temperature},
       {lubrication_checks(drive, e).front().figure, Quantity::share}}};
  out.working.push_back({"nu",
                         "viscosity at the oil temperature",
                         "lg lg(nu + 0.7) = A - B lg T",
                         {{"nu_40", "at 40 °C", fill.viscosity_40, Quantity::kinematic_viscosity},
                          {"T", "temperature", e.oil_temperature, Quantity::temperature}},
                         drive.oil.nu(e.oil_temperature, 1),
                         Quantity::kinematic_viscosity,
                         "[astm_d341] equation read in public code"});
  for (const drive::PartLife& part : e.lives.parts) {
    if (!part.bearing) continue;
    const double asked = part.kappa > 0 ? drive.oil.nu(e.oil_temperature, 1) / part.kappa : 0;
    out.working.push_back({"kappa",
                           "viscosity ratio of the " + part.label,
                           contact::slow_for_reference_viscosity(part.speed)
                               ? "kappa = nu / nu_1, nu_1 = 45000 n^-0.83 D_pw^-0.5"
                               : "kappa = nu / nu_1, nu_1 = 4500 n^-0.5 D_pw^-0.5",
                           {{"nu", "viscosity", drive.oil.nu(e.oil_temperature, 1), Quantity::kinematic_viscosity},
                            {"n", "relative speed of its rings, in 1/min", part.speed, Quantity::angular_speed},
                            {"D_pw", "its pitch diameter, in mm", part.pitch_diameter, Quantity::length},
                            {"nu_1", "viscosity it asks for", asked, Quantity::kinematic_viscosity}},
                           part.kappa,
                           Quantity::number,
                           "[iso281] reference viscosity, its branch below or from 1000 1/min on, as quoted in public "
                           "code"});
    if (part.id.rfind("output", 0) == 0 && part.kappa < kLeastViscosityRatio)
      out.notes.push_back(
          {"The " + part.label +
               " turns slowly and gets {} of the viscosity it asks for: mixed friction, which additives "
               "must carry; its life counts it.",
           {{part.kappa, Quantity::share}}});
  }
  const double lambda = drive::lobe_film_ratio(drive, e.oil_temperature, e.coefficients);
  out.working.push_back({"Lambda",
                         "film at a loaded lobe over the roughness",
                         "h = 2.65 R U^0.7 G^0.54 W^-0.13, Lambda = h / sigma",
                         {{"sigma", "roughness", drive.build.last().profile_roughness, Quantity::length}},
                         lambda,
                         Quantity::number,
                         "[dowson1968] line-contact fit, from memory"});
  out.working.push_back({"kappa_lobe",
                         "what that film is worth as a viscosity ratio; below 0.1 wear decides, not fatigue",
                         "kappa = Lambda^1.3",
                         {{"Lambda", "film over roughness", lambda, Quantity::number}},
                         contact::viscosity_ratio_of_film(lambda),
                         Quantity::number,
                         "from memory, docs/theory/lubricant.md"});
  double fastest = 0;
  for (const drive::StageRef& ref : drive.build.stages)
    fastest = std::max(fastest, contact::speed_factor(drive.input_speed, ref.stage->eccentric_bearing.pitch_diameter));
  out.working.push_back(
      {"n d_m",
       "speed factor of the fastest eccentric bearing, mm/min; grease serves up to 300 000 in roller bearings",
       "n d_m",
       {{"n", "input speed", drive.input_speed, Quantity::angular_speed}},
       fastest,
       Quantity::number,
       "common practice, no source"});
  const double cold = drive.requirement.ambient_low;
  const double stiff = no_load_torque(drive, e, cold);
  out.notes.push_back(
      {"On the coldest day, {}, the oil has {}; turning it then takes up to {} at the input (an upper bound: the "
       "formula "
       "overstates cold oil).",
       {{cold, Quantity::temperature},
        {drive.oil.nu(cold, 1), Quantity::kinematic_viscosity},
        {stiff, Quantity::torque}}});
  if (drive.motor && stiff > 0.5 * drive.motor->rated_torque)
    out.notes.push_back(
        {"That is {} of the motor's rated torque: warm the oil before the start or take a thinner "
         "synthetic one.",
         {{stiff / drive.motor->rated_torque, Quantity::share}}});
  out.notes.push_back({lambda < 1 ? "At the lobes the film is {} of the roughness: the surfaces touch. Additives and "
                                    "clean oil carry there; watch iron in the oil."
                                  : "At the lobes the film is {} of the roughness.",
                       {{lambda, Quantity::share}}});
  if (drive.requirement.orientation != enquiry::Orientation::horizontal)
    out.notes.push_back({drive.oil.grease()
                             ? "Upright shaft: grease stays where it is put; agree on the fill of the upper bearing."
                             : "Upright shaft: the upper bearings stand out of the oil; they need grease or a pump.",
                         {}});
  if (drive.requirement.food_area && !fill.food_grade)
    out.missing.push_back("a food-grade lubricant in this range for this frame");
  const double interval = renewal_interval(drive.oil, e.oil_temperature);
  out.working.push_back({"t_change",
                         "renewal: halved for every 10 K above 70 °C",
                         "t = t_0 2^(-max(0, T - T_0) / dT)",
                         {{"t_0", "up to 70 °C", renewal_when_cool(drive.oil), Quantity::duration},
                          {"T", "lubricant", e.oil_temperature, Quantity::temperature},
                          {"T_0", "from here on", kRenewalFalls, Quantity::temperature},
                          {"dT", "halves it", kRenewalHalves, Quantity::temperature_difference}},
                         interval,
                         Quantity::duration,
                         "common practice, no source"});
  out.notes.push_back({"Renew it after about {}, sooner where it is dusty or wet (common practice, no source).",
                       {{interval, Quantity::duration}}});
  out.charts = lubricant_charts(drive, e);
  out.left_out = {"Starvation, water, ageing and additives.",
                  "The pour point: near it the oil no longer flows as its curve of viscosity says."};
}

}  // namespace lobewise::evidence
