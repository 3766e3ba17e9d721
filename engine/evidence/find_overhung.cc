// overhung: what the output shaft, its bearings and its end carry.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/evidence/life_working.h"
#include "engine/evidence/mesh_working.h"
#include "engine/evidence/overhung_working.h"
#include "engine/evidence/questions.h"
#include "engine/strength/pulses.h"
#include "engine/strength/shaft_terms.h"
#include "engine/strength/torque_cycles.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using formula::input;
using formula::named;
using formula::Term;

/// Tensile strength taken for input shafts [Pa]; common practice, no source.
constexpr double kInputShaftTensile = 700e6;
constexpr const char* kGoodman = "[shigley] shaft chapter, DE-Goodman";

/// The input shaft at the eccentric: opposed discs bend it with the couple of their forces, the motor turns it.
void write_input_shaft(const Drive& drive, const Evaluation& e, Working& working) {
  const std::size_t count = drive.build.stages.size();
  for (std::size_t i = 0; i < count; ++i) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const drive::StageTable& table = *drive.tables[i];
    const SolvedMesh mesh(table, table.hardest_disc() * e.full.stages[i].torque);
    const Term T_2 = input("T_2", "torque at the output of the stage", e.full.stages[i].torque, Quantity::torque);
    const std::string tag = count == 1 ? "" : fmt::format("_{}", i + 1);
    const Term force = named(
        ("B" + tag).c_str(), "largest force of a disc on its eccentric", Quantity::force,
        mesh.member(
            T_2 * input("t", "torque of the disc that carries most over the mean of the discs", table.hardest_disc()),
            "B", "largest force of a disc on its eccentric", Quantity::force, &drive::MeshLevel::bearing_largest),
        "derived, docs/theory/mesh.md");
    // From a bearing to the middle of the disc beside it, the largest moment of the couple (or of one disc's force).
    const Term spread =
        input("s", "from the near to the far disc",
              stage.geometry.discs > 1 ? stage.pin_lever_far - stage.pin_lever_near : 0, Quantity::length);
    const Term moment = named(
        ("M_ecc" + tag).c_str(), "bending between input bearing and disc", Quantity::torque,
        force *
            input("y", "share of a disc's force that reaches each input bearing", drive::input_bearing_share(stage)) *
            max(0, (input("l", "between the input bearings", stage.input_span, Quantity::length) - spread) / 2),
        "derived, docs/theory/rating.md: statics");
    const Term mean =
        strength::equivalent_moment(input("K_f", "keyway in bending", strength::kKeywayBending.nominal), moment,
                                    input("K_fs", "keyway in torsion", strength::kKeywayTorsion.nominal),
                                    T_2 / input("N", "lobes of a disc", static_cast<double>(stage.geometry.lobes)));
    formula::record(working, ("n_ecc" + tag).c_str(),
                    "safety of the input shaft at the seat of the eccentric; the discs' force turns with it, so that "
                    "neither bending nor torque alternates",
                    Quantity::number,
                    formula::pi<Term>() * pow(input("d", "diameter", stage.input_shaft_diameter, Quantity::length), 3) *
                        input("S_ut", "tensile strength, taken", kInputShaftTensile, Quantity::pressure) / (16 * mean),
                    "[shigley] shaft chapter, DE-Goodman; 700 MPa common practice, no source");
  }
}

/// Endurance limit of the output shaft at a diameter.
Term write_endurance(const range::OutputShaft& shaft, double diameter, const char* symbol, const char* where,
                     Working& working) {
  return formula::record(
      working, symbol, where, Quantity::pressure,
      strength::endurance_of(input("S_ut", "tensile strength", shaft.tensile_strength, Quantity::pressure),
                             input("d", "diameter", diameter, Quantity::length),
                             input("k_e", "factor for a reliability of 90 %", strength::kNinetyPercent)),
      "[shigley] Marin factors, partly from memory");
}

/// Torque amplitude of unlimited number that the cycles of the service life come to at a section.
Term write_torque_amplitude(const Drive& drive, const Term& endurance, const char* symbol, Working& working) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const enquiry::Requirement& r = drive.requirement;
  const char* meaning = "torque amplitude of unlimited number that does what the torque cycles of the service life do";
  std::vector<double> ranges, counts;
  for (const demand::Cycle& cycle : r.spectrum.cycles) {
    if (!(cycle.range > 0)) continue;
    ranges.push_back(cycle.range);
    counts.push_back(cycle.count);
  }
  Term cycles = 0;
  if (!ranges.empty()) {
    const Term k =
        named(("k_" + std::string(symbol)).c_str(), "slope of the Woehler line", Quantity::number,
              3 / lg(input("f", "fatigue strength at a thousand cycles over tensile strength",
                           strength::kThousandCycles.nominal) *
                     input("S_ut", "tensile strength", shaft.tensile_strength, Quantity::pressure) / endurance),
              strength::kThousandCycles.source);
    cycles = pow(sum(formula::inputs("n_i", "cycles an hour", counts, Quantity::per_hour) *
                     pow(formula::inputs("dT_i", "range of the torque in them", ranges, Quantity::torque) / 2, k)) *
                     input("t", "life asked for", r.life, Quantity::duration) / 3600 / strength::kKneeCycles,
                 1 / k);
  }
  return formula::record(working, symbol, meaning, Quantity::torque, cycles,
                         "[shigley] Woehler line and Palmgren-Miner, from memory");
}

/// Safety against fatigue of a section of the output shaft.
void write_fatigue(const Drive& drive, const drive::ShaftSection& section, const char* symbol, const char* meaning,
                   const std::string& tag, Working& working) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const Term endurance = write_endurance(
      shaft, section.diameter, ("S_e" + tag).c_str(),
      tag.empty() ? "endurance limit of the shaft at the outside bearing" : "endurance limit of the keyed shaft end",
      working);
  const Term cycles = write_torque_amplitude(drive, endurance, ("T_a" + tag).c_str(), working);
  const Term alternating =
      drive.requirement.reversing
          ? max(input("T", "torque, all of which alternates", drive.requirement.torque, Quantity::torque), cycles)
          : cycles;
  const bool seat = tag.empty();
  const Term K_f = input("K_f" + tag, seat ? "shoulder in bending" : "keyway in bending", section.K_f);
  const Term K_fs = input("K_fs" + tag, seat ? "shoulder in torsion" : "keyway in torsion", section.K_fs);
  const Term amplitude =
      named(("A" + tag).c_str(), "amplitude of the moments, sqrt(4 (K_f M)^2 + 3 (K_fs T)^2)", Quantity::torque,
            strength::equivalent_moment(K_f,
                                        input("F", "radial force", drive.radial_force, Quantity::force) *
                                            input("l" + tag, "its lever there", section.lever, Quantity::length),
                                        K_fs, alternating),
            kGoodman);
  const Term mean =
      named(("B" + tag).c_str(), "mean of the moments, the steady torque alone", Quantity::torque,
            sqrt(Term(3)) * K_fs * input("T_m", "steady torque", section.torque_mean, Quantity::torque), kGoodman);
  formula::record(
      working, symbol, meaning, Quantity::number,
      strength::pulse_safety(
          amplitude, mean,
          input("d" + tag, seat ? "shaft diameter" : "shaft end diameter", section.diameter, Quantity::length),
          endurance, input("S_ut", "tensile strength", shaft.tensile_strength, Quantity::pressure)),
      std::string(kGoodman) + "; Marin factors partly from memory");
}

/// Pressures and shear of the key.
void write_key(const range::OutputShaft& shaft, double torque, Working& working) {
  const Term T = input("T", "torque", torque, Quantity::torque);
  const Term d = input("d", "shaft end diameter", shaft.diameter, Quantity::length);
  const Term b = input("b", "width of the key, with round ends", shaft.key_width, Quantity::length);
  const Term t_1 = input("t_1", "depth in the shaft", shaft.key_shaft_depth, Quantity::length);
  const Term l = named("l", "bearing length of the key", Quantity::length,
                       input("l_0", "its whole length", shaft.key_length, Quantity::length) - b,
                       "[shigley] mean pressure of a key");
  formula::record(
      working, "p_hub", "mean pressure of the key on the hub", Quantity::pressure,
      strength::key_stress(T, d, input("h", "height of the key", shaft.key_height, Quantity::length) - t_1, l),
      "[shigley] mean pressure of a key");
  formula::record(working, "p_shaft", "mean pressure of the key on the shaft", Quantity::pressure,
                  strength::key_stress(T, d, t_1, l), "[shigley] mean pressure of a key");
  formula::record(working, "tau_key", "mean shear of the key", Quantity::pressure, strength::key_stress(T, d, b, l),
                  "[shigley] mean shear of a key");
}

/// Bending moment, stress and slope at the outside bearing.
void write_bearing_place(const Drive& drive, double torque, Working& working) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const Term F = input("F", "radial force", drive.radial_force, Quantity::force);
  const Term a = input("a", "place of the force from the bearing", drive.radial_position, Quantity::length);
  const Term d = input("d", "shaft diameter", shaft.seat_diameter, Quantity::length);
  const Term moment = formula::record(working, "M_B", "bending moment at the outside bearing", Quantity::torque, F * a,
                                      "derived, lever law");
  formula::record(
      working, "sigma_v", "von Mises stress of the shaft at the outside bearing, all the torque at once",
      Quantity::pressure,
      strength::combined_stress(strength::bending_stress(moment, d),
                                4 * input("F_a", "axial force", drive.requirement.axial_force, Quantity::force) /
                                    (formula::pi<Term>() * d * d),
                                strength::torsion_stress(input("T", "torque", torque, Quantity::torque), d)),
      "[shigley] distortion energy");
  formula::record(
      working, "theta_B", "slope of the shaft in the outside bearing", Quantity::angle,
      strength::overhung_slope(F, a, input("L", "bearing span", shaft.span, Quantity::length),
                               input("E", "Young's modulus", strength::kShaftModulus, Quantity::pressure), d),
      "from memory: beam tables");
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
  write_bearing_place(drive, e.moment.torque, out.working);
  write_fatigue(drive, output.seat(), "n",
                "safety against fatigue there: bending alternates, torque steady with its cycles", "", out.working);
  write_fatigue(drive, output.end(), "n_end", "safety against fatigue in the keyed shaft end", "_end", out.working);
  write_key(shaft, e.moment.torque, out.working);
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
