#include "engine/evidence/overhung_working.h"

#include <fmt/format.h>

#include <cmath>

#include "engine/base/formula/record.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using formula::input;
using formula::named;
using formula::record;
using formula::record_solved;
using formula::Term;

constexpr double kHour = 3600;
constexpr const char* kDerived = "derived, docs/theory/life.md";
constexpr const char* kGoodman = "[shigley] shaft chapter, DE-Goodman";

/// The force under which the shares of all parts multiply to the share asked for.
void record_by_life(const Drive& drive, const drive::OutputDuty& output, const drive::Lives& lives, double force,
                    Working& working) {
  const Term rest = input("R_rest", "share in which all parts but output bearings and shaft reach it",
                          std::exp(lives.log_rest(lives.hours)), Quantity::share);
  if (!(force > 0)) {
    record(working, "R_F0", "share of units that reach the life asked for without any radial force: less than is asked",
           Quantity::share,
           rest * input("R_out", "share in which output bearings and shaft do, without the force",
                        std::exp(output.log_reliability(0, lives.hours)), Quantity::share),
           kDerived);
    return;
  }
  const Term t = input("t", "life asked for", lives.hours * kHour, Quantity::duration);
  const Term g = input("g", "share of L that every one reaches", strength::kLeastLifeModified);
  const Term e = input("e", "Weibull slope", strength::kWeibullModified);
  Term product = rest;
  const auto bearing = [&](const char* symbol, const char* meaning, double hours) {
    if (std::isinf(hours)) return;
    const Term beyond = max(t / input(symbol, meaning, hours * kHour, Quantity::duration) - g, 0) / (1 - g);
    product = product * exp(ln(Term(0.9)) * pow(beyond, e));
  };
  const drive::OutputLives lasting = output.lives(force);
  bearing("L_A", "modified life of the inside bearing under that force, 90 %", lasting.inside);
  bearing("L_B", "modified life of the outside bearing under that force, 90 %", lasting.outside);
  product =
      product * input("R_shaft", "share of shafts that stand that force",
                      std::exp(output.seat().log_standing(force) + output.end().log_standing(force)), Quantity::share);
  record_solved(
      working, "F_life",
      "radial force at full load under which the share of whole units that reach the life asked for is the one "
      "asked for; found by bracketing",
      Quantity::force, force,
      product - input("R_asked", "share asked for", drive.requirement.reliability, Quantity::share), 1e-6, kDerived);
}

void record_by_section(const drive::ShaftSection& section, const char* meaning, Working& working) {
  const Term W = formula::pi<Term>() * pow(input("d", "diameter", section.diameter, Quantity::length), 3) / 16;
  const Term K_fs = input("K_fs", "notch factor of torsion", section.K_fs);
  const Term mean = sqrt(Term(3)) * K_fs * input("T_m", "steady torque", section.torque_mean, Quantity::torque) /
                    (W * input("S_ut", "tensile strength", section.tensile_strength, Quantity::pressure));
  const Term left = named("M_e", "moment amplitude that the safety leaves to bending and torsion", Quantity::torque,
                          (1 / input("n", "safety asked for", strength::kShaftSafety.nominal) - mean) *
                              input("S_e", "endurance limit", section.endurance, Quantity::pressure) * W,
                          kGoodman);
  const Term torsion = K_fs * input("T_a", "torque amplitude", section.torque_amplitude, Quantity::torque);
  record(
      working, "F_strength", meaning, Quantity::force,
      sqrt(left * left - 3 * torsion * torsion) / (2 * input("K_f", "notch factor of bending", section.K_f) *
                                                   input("a", "lever of the force", section.lever, Quantity::length)),
      kGoodman);
}

void record_by_strength(const Drive& drive, const drive::OutputDuty& output, const drive::AllowedForce& allowed,
                        Working& working) {
  if (!(allowed.by_strength > 0)) return;
  const range::OutputShaft& shaft = drive.build.frame().output;
  const std::string meaning =
      fmt::format("radial force that strength allows: {}", drive::words(allowed.strength_limit));
  switch (allowed.strength_limit) {
    case drive::ForceLimit::seat:
      return record_by_section(output.seat(), meaning.c_str(), working);
    case drive::ForceLimit::end:
      return record_by_section(output.end(), meaning.c_str(), working);
    case drive::ForceLimit::slope: {
      const Term d = input("d", "shaft diameter", shaft.seat_diameter, Quantity::length);
      record(working, "F_strength", meaning.c_str(), Quantity::force,
             3 * input("E", "Young's modulus", strength::kShaftModulus, Quantity::pressure) * formula::pi<Term>() *
                 pow(d, 4) / 64 *
                 input("theta", "slope that the bearing bears", strength::kSlopeCylindrical.nominal, Quantity::angle) /
                 (input("a", "place of the force from the bearing", drive.radial_position, Quantity::length) *
                  input("span", "between the bearings", shaft.span, Quantity::length)),
             "from memory: beam tables");
      return;
    }
    case drive::ForceLimit::inside_static:
    case drive::ForceLimit::outside_static:
    case drive::ForceLimit::unit_life:
      break;
  }
  const bool inside = allowed.strength_limit == drive::ForceLimit::inside_static;
  const drive::OutputLoads at = output.full_loads(allowed.by_strength);
  const double C_0 = (inside ? output.inside() : output.outside()).bearing.rating.C_0;
  record_solved(working, "F_strength", (meaning + "; found by bracketing").c_str(), Quantity::force,
                allowed.by_strength,
                input("P_0", "equivalent static load under it, the larger of F_r and X_0 F_r + Y_0 F_a",
                      inside ? at.static_inside : at.static_outside, Quantity::force) *
                        input("s_0", "static safety asked for", strength::kStaticSafetyNormal) /
                        input("C_0", "static rating", C_0, Quantity::force) -
                    1,
                1e-6, "[iso76] from memory");
}

/// With the force at `position` from the outside bearing, for a life [s].
double allowed_at(const Drive& drive, const Evaluation& e, double position, double life) {
  return drive::output_duty(drive, e.oil_temperature, e.coefficients, position, life)
      .allowed(drive.requirement.reliability, life / kHour, e.lives.log_rest(life / kHour))
      .force;
}

}  // namespace

void record_allowed_force(const Drive& drive, const Evaluation& e, const drive::OutputDuty& output, Working& working) {
  record_by_strength(drive, output, e.allowed, working);
  if (e.allowed.limit == drive::ForceLimit::unit_life)
    record_by_life(drive, output, e.lives, e.allowed.by_life, working);
}

Chart overhung_over_position(const Drive& drive, const Evaluation& e) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  Chart chart{"overhung_over_position",
              "Allowable radial force along the shaft end",
              "From the shoulder of the shaft",
              "Allowable radial force",
              Quantity::length,
              Quantity::force,
              {},
              false,
              false,
              false};
  Series allowed{"allowed", {}, {}, false};
  for (int i = 1; i <= 40; ++i) {
    const double position = shaft.length * i / 40;
    allowed.x.push_back(position);
    allowed.y.push_back(allowed_at(drive, e, shaft.overhang + position, drive.requirement.life));
  }
  chart.series.push_back(std::move(allowed));
  if (drive.radial_force > 0)
    chart.series.push_back({"this machine", {drive.radial_position - shaft.overhang}, {drive.radial_force}, true});
  return chart;
}

Chart overhung_over_life(const Drive& drive, const Evaluation& e) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  Chart chart{"overhung_over_life",
              "Allowable radial force over the hours it must last",
              "Life",
              "Allowable radial force",
              Quantity::duration,
              Quantity::force,
              {},
              false,
              true,
              false};
  const std::pair<const char*, double> places[] = {
      {"at the shoulder", shaft.overhang},
      {"in the middle of the shaft end", shaft.overhang + shaft.length / 2},
      {"at the end of the shaft", shaft.overhang + shaft.length}};
  for (const auto& [place, position] : places) {
    Series series{place, {}, {}, false};
    for (int i = 0; i <= 30; ++i) {
      const double life = 1000 * std::pow(100.0, i / 30.0) * kHour;
      series.x.push_back(life);
      series.y.push_back(allowed_at(drive, e, position, life));
    }
    chart.series.push_back(std::move(series));
  }
  if (drive.radial_force > 0)
    chart.series.push_back({"this machine", {drive.requirement.life}, {drive.radial_force}, true});
  return chart;
}

}  // namespace lobewise::evidence
