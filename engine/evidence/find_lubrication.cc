// lubrication: whether the fill separates the surfaces, and for how long it serves.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/contact/film.h"
#include "engine/drive/lobe_film.h"
#include "engine/evidence/cold_start.h"
#include "engine/evidence/lubricant_charts.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

bool upright_in_oil(const Drive& drive) {
  return drive.requirement.orientation != enquiry::Orientation::horizontal && !drive.oil.grease();
}
/// The bearings that stand above the oil when the shaft stands upright: those of the input with the output down, those
/// of the output with the output up.
const char* upper_bearings(const Drive& drive) {
  return drive.requirement.orientation == enquiry::Orientation::output_down ? "input bearings" : "output bearings";
}

/// Upright in oil: a frame that is not made for it leaves its upper bearings dry; bearings packed with grease may turn
/// so fast.
std::optional<Check> upright_check(const Drive& drive) {
  if (!upright_in_oil(drive)) return std::nullopt;
  const range::Frame& frame = drive.build.frame();
  Check check;
  if (!frame.vertical) {
    check.name = "bearings that the lubricant reaches, shaft upright";
    check.limit = 2.0 + 3.0 * static_cast<double>(drive.build.stages.size());
    check.figure = check.limit - 2;
    check.at_most = false;
    return check;
  }
  if (frame.upright_lubrication != range::UprightLubrication::grease) return std::nullopt;
  const bool input = drive.requirement.orientation == enquiry::Orientation::output_down;
  check.name = fmt::format("speed factor n d_m of the grease in the upper {}", upper_bearings(drive));
  check.figure = input ? contact::speed_factor(drive.input_speed, drive.build.first().input_bearing.pitch_diameter)
                       : contact::speed_factor(drive.output_speed, frame.output.bearing_inside.pitch_diameter);
  check.limit = contact::kGreaseSpeedFactorRoller;
  return check;
}

/// What an upright shaft means for this frame.
void upright_words(const Drive& drive, Finding& out) {
  if (drive.requirement.orientation == enquiry::Orientation::horizontal) return;
  if (drive.oil.grease()) {
    out.notes.push_back({"Upright shaft: grease stays where it is put; agree on the fill of the upper bearings.", {}});
    return;
  }
  const range::Frame& frame = drive.build.frame();
  if (!frame.vertical) {
    out.answer.pattern +=
        fmt::format(" Upright, its {} stand above the oil: this frame is not made for it.", upper_bearings(drive));
    out.notes.push_back(
        {"Would mend it: a frame made to stand upright, with its upper bearings packed with grease, fed "
         "by a pump, or filled to the top.",
         {}});
    return;
  }
  if (!frame.upright_lubrication) {
    out.missing.push_back(
        fmt::format("how the range lubricates the {} of this frame above the oil when the shaft stands "
                    "upright: packed with grease, by a pump, or filled to the top",
                    upper_bearings(drive)));
    return;
  }
  switch (*frame.upright_lubrication) {
    case range::UprightLubrication::grease:
      out.notes.push_back({fmt::format("Upright shaft: the {} stand above the oil and are packed with grease, to be "
                                       "renewed with the oil; fill the oil to the middle of the upper disc.",
                                       upper_bearings(drive)),
                           {}});
      break;
    case range::UprightLubrication::pump:
      out.notes.push_back({fmt::format("Upright shaft: a pump feeds the {}. It must deliver before the motor starts, "
                                       "and its failure must stop the drive; its fine hole is the first to clog in the "
                                       "cold.",
                                       upper_bearings(drive)),
                           {}});
      break;
    case range::UprightLubrication::flooded:
      out.notes.push_back(
          {"Upright shaft: filled to the top, with room for the oil to grow; the drag of all bearings and "
           "discs in oil is counted.",
           {}});
      break;
  }
}

/// Whether the fill flows on the coldest day; when not, said at once and with what mends it.
void cold_words(const Drive& drive, const Evaluation& e, Finding& out) {
  using namespace formula;
  const double temperature = drive::coldest(drive, e.coefficients);
  const drive::PourPoint pour = drive::pour_point(drive.oil.fill);
  const bool grease = drive.oil.grease();
  record(
      out.working, "T_low", grease ? "coldest surroundings the grease is made for" : "coldest surroundings to start in",
      Quantity::temperature,
      input("T_p", grease ? "its lower temperature of use" : "its pour point", pour.at.nominal, Quantity::temperature) +
          input("dT", "to keep above it", pour.lowest - pour.at.nominal, Quantity::temperature_difference),
      std::string(pour.stated ? "derived: as the range states it"
                              : "common practice, no source: data/pour_points.csv") +
          (grease ? "" : "; distance [agma9005], from memory"));
  out.notes.push_back({grease ? "On the coldest day, {}, its base oil has {}; it is made for {} and more{}"
                              : "On the coldest day, {}, it has {}; it flows to where it is needed from {} on{}",
                       {{temperature, Quantity::temperature},
                        {drive.oil.nu(temperature, 1), Quantity::kinematic_viscosity},
                        {pour.lowest, Quantity::temperature}}});
  out.notes.back().pattern.replace(out.notes.back().pattern.size() - 2, 2,
                                   pour.stated ? "." : " (usual for its kind; this range does not state it).");
  if (temperature >= pour.lowest) return;
  append(out.answer, {grease ? " On the coldest day, {}, it is stiffer than it is made for: {} and more."
                             : " On the coldest day, {}, it no longer flows to where it is needed: that takes {}.",
                      {{temperature, Quantity::temperature}, {pour.lowest, Quantity::temperature}}});
  const std::vector<Text> remedies = cold_remedies(drive, e);
  if (!remedies.empty()) append(out.answer, prefixed(" What mends it: ", remedies.front()));
  for (const Text& remedy : remedies) out.notes.push_back(prefixed("Would mend the coldest day: ", remedy));
}

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
  checks.push_back(flow_check(drive, e));
  if (const std::optional<Check> upright = upright_check(drive)) checks.push_back(*upright);
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
  cold_words(drive, e, out);
  out.notes.push_back({lambda < 1 ? "At the lobes the film is {} of the roughness: the surfaces touch. Additives and "
                                    "clean oil carry there; watch iron in the oil."
                                  : "At the lobes the film is {} of the roughness.",
                       {{lambda, Quantity::share}}});
  upright_words(drive, out);
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
                  "Near its pour point an oil is thicker than its curve of viscosity says: below it, drag is a lower "
                  "bound."};
}

}  // namespace lobewise::evidence
