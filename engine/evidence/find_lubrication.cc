// lubrication: whether the fill separates the surfaces, and for how long it serves.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/contact/film.h"
#include "engine/contact/hertz.h"
#include "engine/drive/lobe_film.h"
#include "engine/evidence/cold_start.h"
#include "engine/evidence/lubricant_charts.h"
#include "engine/evidence/mesh_working.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using formula::input;
using formula::Term;

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

/// Viscosity at the oil temperature, from what the fill is known by. @returns it under its symbol
Term viscosity_working(const Drive& drive, double temperature, Working& working) {
  using namespace formula;
  const drive::Oil& oil = drive.oil;
  const Term nu_40 = input("nu_40", "viscosity at 40 °C", oil.fill.viscosity_40, Quantity::kinematic_viscosity);
  const Term nu_100 = input("nu_100", "viscosity at 100 °C", oil.nu_100, Quantity::kinematic_viscosity);
  record_solved(working, "nu_100", "viscosity at 100 °C that gives the viscosity index of the fill",
                Quantity::kinematic_viscosity, oil.nu_100,
                contact::index_by_row(nu_40, nu_100, contact::index_row(oil.nu_100)) -
                    input("VI", oil.fill.viscosity_index ? "viscosity index" : "viscosity index, usual for its kind",
                          oil.viscosity_index),
                1e-6,
                "from memory: ASTM D2270 and its coefficients; index common practice, no source, where it is usual");
  const Term slope = named("B", "slope of the viscosity over the temperature", Quantity::number,
                           contact::curve_slope(nu_40, nu_100), "[astm_d341] equation read in public code");
  const Term height = named("A", "its height", Quantity::number, contact::curve_height(nu_40, slope),
                            "[astm_d341] equation read in public code");
  return record(working, "nu", "viscosity at the oil temperature", Quantity::kinematic_viscosity,
                contact::viscosity_on(height, slope, input("T", "temperature", temperature, Quantity::temperature)),
                "[astm_d341] equation read in public code");
}

/// Viscosity over what a bearing asks for.
void ratio_working(const drive::PartLife& part, const Term& nu, Working& working) {
  using namespace formula;
  const Term asked = named(
      ("nu_1_" + part.id).c_str(), ("viscosity that the " + part.label + " asks for").c_str(),
      Quantity::kinematic_viscosity,
      contact::reference_viscosity_of(input("w", "relative speed of its rings", part.speed, Quantity::angular_speed),
                                      input("D_pw", "its pitch diameter", part.pitch_diameter, Quantity::length)),
      "[iso281] reference viscosity, its branch below or from 1000 1/min on, as quoted in public code");
  record(working, ("kappa_" + part.id).c_str(), ("viscosity ratio of the " + part.label).c_str(), Quantity::number,
         nu / asked, "[iso281] definition");
}

/// Film at a loaded lobe and what it is worth.
void film_working(const Drive& drive, const Evaluation& e, const Term& nu, Working& working) {
  using namespace formula;
  const range::Stage& stage = drive.build.last();
  const drive::StageTable& table = *drive.tables.back();
  const double torque = drive.requirement.torque;
  const drive::StageTable::Between around = table.between(torque * table.hardest_disc());
  const contact::HardContact& hardest = (around.share < 0.5 ? *around.below : *around.above).hardest;
  const contact::Elastic steel;
  const Term density =
      named("rho", "density of the oil at its temperature", Quantity::density,
            contact::density_at(input("rho_15", "density of the oil at 15 °C", drive.oil.density_15, Quantity::density),
                                input("T", "temperature", e.oil_temperature, Quantity::temperature)),
            "common practice, no source");
  const Term eta = named("eta", "dynamic viscosity of the oil", Quantity::dynamic_viscosity,
                         nu * density * input("f_nu", "factor on the grade", e.coefficients.viscosity_factor),
                         "derived, definition");
  const SolvedMesh mesh(table, torque * table.hardest_disc());
  const Term T = input("T_2", "torque at the output of the stage", torque, Quantity::torque) *
                 input("t", "torque of the disc that carries most over the mean of the discs", table.hardest_disc());
  const Term force =
      named("F_max", "largest force on a lobe", Quantity::force,
            mesh.member(T, "F", "largest force on a lobe", Quantity::force, &drive::MeshLevel::lobe_force),
            "derived, docs/theory/mesh.md");
  const Term film = named(
      "h", "film at the lobe that is pressed hardest", Quantity::length,
      contact::line_film_of(
          input("u", "mean speed of both surfaces against the contact, over the input speed (m)", hardest.entrainment) *
              input("w_1", "input speed of the stage", drive.output_speed * stage.geometry.lobes,
                    Quantity::angular_speed),
          input("R", "radius of lobe against roller there", hardest.radius, Quantity::length),
          input("E'", "E/(1 - nu^2) of steel", 2 * contact::contact_modulus(steel, steel), Quantity::pressure),
          input("alpha", "pressure-viscosity coefficient (1/Pa)", drive.oil.pressure_viscosity), eta,
          force / input("b", "contact length of a disc", stage.geometry.width, Quantity::length)),
      "[dowson1968] line-contact fit, from memory");
  const Term lambda =
      record(working, "Lambda", "film at a loaded lobe over the roughness", Quantity::number,
             film / input("sigma", "roughness of both surfaces", stage.profile_roughness, Quantity::length),
             "[dowson1968] line-contact fit, from memory");
  record(working, "kappa_lobe", "what that film is worth as a viscosity ratio; below 0.1 wear decides, not fatigue",
         Quantity::number, contact::viscosity_ratio_of_film(lambda), "from memory, docs/theory/lubricant.md");
}

void speed_factor_working(const Drive& drive, Working& working) {
  double widest = 0;
  for (const drive::StageRef& ref : drive.build.stages)
    widest = std::max(widest, ref.stage->eccentric_bearing.pitch_diameter);
  formula::record(
      working, "A_g",
      "speed factor n d_m of the fastest eccentric bearing, mm/min; grease serves up to 300 000 in roller bearings",
      Quantity::number,
      contact::speed_factor_of(input("w_1", "input speed", drive.input_speed, Quantity::angular_speed),
                               input("d_m", "mean diameter of that bearing", widest, Quantity::length)),
      "common practice, no source");
}

void renewal_working(const Drive& drive, double temperature, Working& working) {
  using namespace formula;
  record(working, "t_change", "renewal: halved for every 10 K above 70 °C", Quantity::duration,
         renewal_of(input("t_0", "up to 70 °C", renewal_when_cool(drive.oil), Quantity::duration),
                    input("T", "lubricant", temperature, Quantity::temperature),
                    input("T_0", "from here on", kRenewalFalls, Quantity::temperature),
                    input("dT", "halves it", kRenewalHalves, Quantity::temperature_difference)),
         "common practice, no source");
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
  const Term nu = viscosity_working(drive, e.oil_temperature, out.working);
  for (const drive::PartLife& part : e.lives.parts) {
    if (!part.bearing) continue;
    if (part.speed > 0) ratio_working(part, nu, out.working);
    if (part.id.rfind("output", 0) == 0 && part.kappa < kLeastViscosityRatio)
      out.notes.push_back(
          {"The " + part.label +
               " turns slowly and gets {} of the viscosity it asks for: mixed friction, which additives "
               "must carry; its life counts it.",
           {{part.kappa, Quantity::share}}});
  }
  const double lambda = drive::lobe_film_ratio(drive, e.oil_temperature, e.coefficients);
  film_working(drive, e, nu, out.working);
  speed_factor_working(drive, out.working);
  cold_words(drive, e, out);
  out.notes.push_back({lambda < 1 ? "At the lobes the film is {} of the roughness: the surfaces touch. Additives and "
                                    "clean oil carry there; watch iron in the oil."
                                  : "At the lobes the film is {} of the roughness.",
                       {{lambda, Quantity::share}}});
  upright_words(drive, out);
  if (drive.requirement.food_area && !fill.food_grade)
    out.missing.push_back("a food-grade lubricant in this range for this frame");
  const double interval = renewal_interval(drive.oil, e.oil_temperature);
  renewal_working(drive, e.oil_temperature, out.working);
  out.notes.push_back({"Renew it after about {}, sooner where it is dusty or wet (common practice, no source).",
                       {{interval, Quantity::duration}}});
  out.charts = lubricant_charts(drive, e);
  out.left_out = {"Starvation, water, ageing and additives.",
                  "Near its pour point an oil is thicker than its curve of viscosity says: below it, drag is a lower "
                  "bound."};
}

}  // namespace lobewise::evidence
