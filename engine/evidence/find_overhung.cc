// overhung: what the output shaft, its bearings and its end carry.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/evidence/life_working.h"
#include "engine/evidence/overhung_working.h"
#include "engine/evidence/questions.h"
#include "engine/strength/torque_cycles.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

constexpr double kHour = 3600;

/// The input shaft at the eccentric: opposed discs bend it with the couple of their forces, the motor turns it.
void write_input_shaft(const Drive& drive, const Evaluation& e, Working& working) {
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const double force = drive.tables[i]->at(drive.tables[i]->hardest_disc() * e.full.stages[i].torque,
                                             &drive::MeshLevel::bearing_largest);
    const double reaction = force * drive::input_bearing_share(stage);
    // From a bearing to the middle of the disc beside it, the largest moment of the couple (or of one disc's force).
    const double spread = stage.geometry.discs > 1 ? stage.pin_lever_far - stage.pin_lever_near : 0;
    const double moment = reaction * std::max(0.0, 0.5 * (stage.input_span - spread));
    const double torque = e.full.stages[i].torque / stage.geometry.lobes;
    strength::FatigueLoad load;
    load.moment_mean = moment;  // the force turns with the shaft: its bending stands still in it
    load.torque_mean = torque;
    const double strength =
        strength::endurance_limit(700e6, std::clamp(stage.input_shaft_diameter, 2.79e-3, 0.254), 0.9).value();
    working.push_back(
        {"n_ecc",
         "safety of the input shaft at the seat of the eccentric; the discs' force turns with it, so that "
         "neither bending nor torque alternates",
         "1/n = sigma_m/S_ut",
         {{"B", "largest force of a disc on its eccentric", force, Quantity::force},
          {"M", "bending between input bearing and disc", moment, Quantity::torque},
          {"T_1", "torque", torque, Quantity::torque},
          {"d", "diameter", stage.input_shaft_diameter, Quantity::length},
          {"S_ut", "tensile strength, taken", 700e6, Quantity::pressure}},
         strength::goodman_safety(load, stage.input_shaft_diameter, strength, 700e6),
         Quantity::number,
         "[shigley] shaft chapter, DE-Goodman; 700 MPa common practice, no source"});
  }
}

}  // namespace

std::vector<Check> overhung_checks(const Drive& drive, const Evaluation& e) {
  const double radial = drive.radial_force * e.coefficients.torque_factor;
  std::vector<Check> checks;
  if (radial > 0) {
    // What is allowed may be next to nothing: a force beyond it is measured by itself.
    checks.push_back({"radial force on the shaft end",
                      radial,
                      e.allowed.force,
                      Quantity::force,
                      true,
                      {},
                      {},
                      radial > e.allowed.force ? e.allowed.force - radial : 0});
    // The allowed force moves with what is not known, as the force itself does: their difference carries both.
    checks.push_back(
        {"radial force left to what is allowed", e.allowed.force - radial, 0, Quantity::force, false, {}, {}, -radial});
  }
  checks.push_back({"fatigue safety of the shaft at the outside bearing",
                    e.shaft_safety,
                    strength::kShaftSafety.nominal,
                    Quantity::number,
                    false,
                    {},
                    {}});
  checks.push_back({"fatigue safety of the keyed shaft end",
                    e.end_safety,
                    strength::kShaftSafety.nominal,
                    Quantity::number,
                    false,
                    {},
                    {}});
  checks.push_back({"pressure on the key in a steel hub",
                    e.key.hub_pressure,
                    strength::kKeyPressureSteel.nominal,
                    Quantity::pressure,
                    true,
                    {},
                    {}});
  if (radial > 0)
    checks.push_back({"slope of the shaft in the outside bearing",
                      e.slope,
                      strength::kSlopeCylindrical.nominal,
                      Quantity::angle,
                      true,
                      {},
                      {}});
  return checks;
}

void write_overhung(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const range::OutputShaft& shaft = drive.build.frame().output;
  if (!drive.requirement.shaft_load_open.empty()) {
    out.missing.push_back(drive.requirement.shaft_load_open);
    out.answer = {"Nobody said what the machine puts on the shaft; up to {} would be allowed at {} from the shoulder.",
                  {{e.allowed.force, Quantity::force}, {drive.radial_position - shaft.overhang, Quantity::length}}};
  } else if (drive.radial_force > 0) {
    out.answer = {
        fmt::format("{} pulls {{}} at {{}} from the outside bearing; {{}} is allowed there, limited by the {}.",
                    drive.requirement.link, drive::words(e.allowed.limit)),
        {{drive.radial_force, Quantity::force},
         {drive.radial_position, Quantity::length},
         {e.allowed.force, Quantity::force}}};
    out.answer.pattern[0] = static_cast<char>(std::toupper(out.answer.pattern[0]));
  } else {
    out.answer = {"No radial force acts on the shaft end; up to {} would be allowed at its middle.",
                  {{e.allowed.force, Quantity::force}}};
  }
  const drive::OutputDuty output =
      drive::output_duty(drive, e.oil_temperature, e.coefficients, drive.radial_position, drive.requirement.life);
  record_output_loads(drive, output.full_loads(drive.radial_force), drive.radial_force, drive.radial_position,
                      out.working);
  record_allowed_force(drive, e, output, out.working);
  out.working.push_back({"M_B",
                         "bending moment at the outside bearing",
                         "M_B = F (x - span)",
                         {{"F", "radial force", drive.radial_force, Quantity::force}},
                         e.reactions.moment_B,
                         Quantity::torque,
                         "derived, lever law"});
  double cycles = 0;
  for (const demand::Cycle& cycle : drive.requirement.spectrum.cycles)
    cycles += cycle.count * drive.requirement.life / kHour;
  out.working.push_back(
      {"T_a",
       "torque amplitude of unlimited number that does what the torque cycles of the service life do",
       "T_a = (sum n_i (dT_i/2)^k / 10^6)^(1/k)",
       {{"n", "cycles of all sizes", cycles, Quantity::number},
        {"k", "slope of the Woehler line",
         strength::woehler_exponent(shaft.tensile_strength, drive::endurance(shaft, shaft.seat_diameter)),
         Quantity::number}},
       drive::torque_amplitude(drive, shaft.seat_diameter, drive.requirement.life),
       Quantity::torque,
       "[shigley] Woehler line and Palmgren-Miner, from memory"});
  out.working.push_back(
      {"n",
       "safety against fatigue there: bending alternates, torque steady with its cycles",
       "1/n = sigma_a/S_e + sigma_m/S_ut",
       {{"d", "shaft diameter", shaft.seat_diameter, Quantity::length},
        {"S_e", "endurance limit", drive::endurance(shaft, shaft.seat_diameter), Quantity::pressure},
        {"S_ut", "tensile strength", shaft.tensile_strength, Quantity::pressure},
        {"T_a", "torque amplitude", output.seat().torque_amplitude, Quantity::torque},
        {"T_m", "steady torque", drive.requirement.reversing ? 0.0 : e.moment.torque, Quantity::torque}},
       e.shaft_safety,
       Quantity::number,
       "[shigley] shaft chapter, DE-Goodman; Marin factors partly from memory"});
  out.working.push_back({"p_hub",
                         "mean pressure of the key on the hub",
                         "p = 2 T / (d (h - t_1) l)",
                         {{"T", "torque", e.moment.torque, Quantity::torque},
                          {"d", "shaft end diameter", shaft.diameter, Quantity::length},
                          {"l", "bearing length of the key", shaft.key_length - shaft.key_width, Quantity::length}},
                         e.key.hub_pressure,
                         Quantity::pressure,
                         "[shigley] mean pressure of a key"});
  out.working.push_back({"n_end",
                         "safety against fatigue in the keyed shaft end",
                         "1/n = sigma_a/S_e + sigma_m/S_ut",
                         {{"d", "shaft end diameter", shaft.diameter, Quantity::length},
                          {"K_f", "keyway in bending", strength::kKeywayBending.nominal, Quantity::number},
                          {"K_fs", "keyway in torsion", strength::kKeywayTorsion.nominal, Quantity::number},
                          {"T", "torque", e.moment.torque, Quantity::torque}},
                         e.end_safety,
                         Quantity::number,
                         "[shigley] shaft chapter, DE-Goodman; Marin factors partly from memory"});
  out.working.push_back({"p_shaft",
                         "mean pressure of the key on the shaft",
                         "p = 2 T / (d t_1 l)",
                         {{"t_1", "depth in the shaft", shaft.key_shaft_depth, Quantity::length}},
                         e.key.shaft_pressure,
                         Quantity::pressure,
                         "[shigley] mean pressure of a key"});
  out.working.push_back({"tau_key",
                         "mean shear of the key",
                         "tau = 2 T / (d b l)",
                         {{"b", "width of the key", shaft.key_width, Quantity::length}},
                         e.key.shear,
                         Quantity::pressure,
                         "[shigley] mean shear of a key"});
  out.working.push_back(
      {"sigma_v",
       "von Mises stress of the shaft at the outside bearing, all the torque at once",
       "sigma_v = sqrt((32 M_B/(pi d^3))^2 + 3 (16 T/(pi d^3))^2)",
       {{"d", "shaft diameter", shaft.seat_diameter, Quantity::length},
        {"R_e", "yield strength", shaft.yield_strength, Quantity::pressure}},
       strength::von_mises(strength::nominal_stress(e.reactions.moment_B, e.moment.torque,
                                                    drive.requirement.axial_force, shaft.seat_diameter, 0)),
       Quantity::pressure,
       "[shigley] distortion energy"});
  out.working.push_back({"theta_B",
                         "slope of the shaft in the outside bearing",
                         "theta = F a L/(3 E I)",
                         {{"a", "place of the force from the bearing", drive.radial_position, Quantity::length},
                          {"L", "bearing span", shaft.span, Quantity::length}},
                         e.slope,
                         Quantity::angle,
                         "from memory: beam tables"});
  write_input_shaft(drive, e, out.working);
  out.charts.push_back(overhung_over_position(drive, e));
  out.charts.push_back(overhung_over_life(drive, e));
  out.left_out = {
      "Direction of the force against the mounting (bearings and shaft do not ask for it); shocks of the link; the "
      "hub's own fit.",
      "Stiffness of housing and bearings."};
  out.cautions.push_back(
      {"overhung",
       "The overhung load is checked at its place on the shaft; its direction counts for the unit's own bolts alone: "
       "what they stand on needs a check of its own. Never hammer a hub on; align after bolting down."});
}

}  // namespace lobewise::evidence
