#include "engine/evidence/life_working.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/formula/record.h"
#include "engine/contact/lubricant.h"
#include "engine/strength/axial_pair.h"
#include "engine/strength/fatigue_scatter.h"
#include "engine/strength/life_factor.h"

namespace lobewise::evidence {
namespace {

using drive::MeshLevel;
using drive::PartLife;
using formula::input;
using formula::inputs;
using formula::Term;

constexpr double kHour = 3600;
constexpr const char* kIso281 = "[iso281] from memory";
constexpr const char* kMeshTable =
    "derived, docs/decisions/003-rigid-to-look-elastic-to-prove.md: mesh solved at several torques";

std::vector<double> of_blocks(const PartLife& part, double drive::PartBlock::*member) {
  std::vector<double> list;
  for (const drive::PartBlock& block : part.blocks)
    if (block.load > 0) list.push_back(block.*member);
  return list;
}

/// Load of an eccentric bearing at full load, between the two torques at which the mesh was solved.
void record_eccentric_load(const drive::Drive& drive, const Evaluation& e, const PartLife& part, Working& working) {
  const auto stage = static_cast<std::size_t>(part.stage);
  const drive::StageTable& table = *drive.tables[stage];
  const double share = table.disc_loads.empty() ? 1 : table.disc_loads[static_cast<std::size_t>(part.disc)];
  const Term torque = named("T_d", "torque that counts for this disc", Quantity::torque,
                            input("t", "torque of this disc over the mean of the discs", share) *
                                input("T", "torque of the stage", e.full.stages[stage].torque, Quantity::torque),
                            "derived, docs/theory/shaft.md");
  const auto at = [&](const MeshLevel& level, const char* symbol, const char* forces) {
    const Term list =
        inputs(forces, "force of the bearing at crank angles over a turn", level.forces.bearing, Quantity::force);
    return named(symbol, "equivalent load over the mesh cycle; the force turns with the crank", Quantity::force,
                 pow(mean(pow(list, Term(strength::kRollerExponent))), Term(1 / strength::kRollerExponent)), kIso281);
  };
  const auto solved_at = [](const char* symbol, const MeshLevel& level) {
    return input(symbol, "torque at which the mesh was solved", level.torque, Quantity::torque);
  };
  if (torque.value() <= table.levels.front().torque) {
    record(working, "P", fmt::format("equivalent load of the {}", part.label).c_str(), Quantity::force,
           at(table.levels.front(), "P_1", "B_1") * torque / solved_at("T_1", table.levels.front()), kMeshTable);
    return;
  }
  const drive::StageTable::Between around = table.between(torque.value());
  const Term low = solved_at("T_1", *around.below), high = solved_at("T_2", *around.above);
  record(working, "P", fmt::format("equivalent load of the {}", part.label).c_str(), Quantity::force,
         lerp(at(*around.below, "P_1", "B_1"), at(*around.above, "P_2", "B_2"), (torque - low) / (high - low)),
         kMeshTable);
}

void record_input_load(const drive::Drive& drive, const Evaluation& e, const PartLife& part, Working& working) {
  const auto stage = static_cast<std::size_t>(part.stage);
  const drive::StageTable& table = *drive.tables[stage];
  const double torque = e.full.stages[stage].torque;
  const auto force = [&](const char* symbol, const char* meaning, double share) {
    return input(symbol, meaning, table.at(share * torque, &MeshLevel::bearing_equivalent), Quantity::force);
  };
  Term load = force("P_e", "equivalent load of an eccentric bearing, mean of the discs", 1) *
              input("k", "share of it that the couple of the discs puts on each input bearing",
                    drive::input_bearing_share(*drive.build.stages[stage].stage));
  if (table.disc_loads.size() == 2)
    load = load + abs(force("P_near", "of the near disc", table.disc_loads[0]) -
                      force("P_far", "of the far disc", table.disc_loads[1])) /
                      2;
  record(working, "P", fmt::format("equivalent load of the {}", part.label).c_str(), Quantity::force, load,
         "derived, docs/theory/rating.md");
}

/// Reference viscosity of a bearing.
Term reference_viscosity(double speed, double pitch_diameter) {
  const Term n =
      named("n_m", "relative speed of the rings in 1/min", Quantity::number,
            input("n", "relative speed of the rings", speed, Quantity::angular_speed) * 30 / formula::pi<Term>(),
            "derived, docs/theory/life.md: 60 s to the minute");
  const Term root = sqrt(input("D_pw", "pitch diameter", pitch_diameter, Quantity::length) * 1000);
  const Term slow = 45000 * pow(n, -0.83) / root * 1e-6, fast = 4500 / sqrt(n) / root * 1e-6;
  // Exactly 1000 1/min belongs to the upper branch whatever its last digit.
  const Term nu_1 = choose_between(less(n, 1000 * (1 - 1e-12)), slow, fast);
  return named("nu_1", "viscosity that it asks for", Quantity::kinematic_viscosity, nu_1,
               "[iso281] reference viscosity, as quoted in public code");
}

/// A viscosity ratio outside the model leaves the least factor there is.
Term life_factor(const PartLife& part, const Term& kappa, const Term& ratio) {
  const Term least = strength::kLifeFactorBound;
  if (kappa.value() < strength::kKappaMin) return least;
  return part.ball ? strength::ball_life_factor(kappa, ratio) : strength::roller_life_factor(kappa, ratio);
}

const char* basic_source(const PartLife& part) { return part.bearing ? kIso281 : "derived, docs/theory/life.md"; }

std::string hours_of(const PartLife& part, const char* what) { return fmt::format("{} of the {}", what, part.label); }

}  // namespace

void record_life_of(const drive::Drive& drive, const Evaluation& e, const PartLife& part, Working& working) {
  if (!(part.load > 0)) return;  // lasts for ever
  using namespace formula;
  if (part.stage < 0) {
    drive::OutputDuty output =
        drive::output_duty(drive, e.oil_temperature, e.coefficients, drive.radial_position, drive.requirement.life);
    record_output_loads(drive, output.full_loads(drive.radial_force * e.coefficients.torque_factor),
                        drive.radial_force * e.coefficients.torque_factor, drive.radial_position, working);
  } else if (part.bearing && part.id.rfind("input", 0) == 0) {
    record_input_load(drive, e, part, working);
  } else if (part.bearing) {
    record_eccentric_load(drive, e, part, working);
  }

  const Term q = inputs("q", "share of the running time of each load", of_blocks(part, &drive::PartBlock::time_share));
  Term basic = 1 / sum(q / inputs(
                               "L_b", "life of the track were this load always there, from the mesh",
                               [&] {
                                 std::vector<double> lives = of_blocks(part, &drive::PartBlock::basic_hours);
                                 for (double& life : lives) life *= kHour;
                                 return lives;
                               }(),
                               Quantity::duration));
  if (part.bearing) {
    const double p = part.ball ? strength::kBallExponent : strength::kRollerExponent;
    basic =
        1e6 /
        sum(q *
            inputs("n_b", "relative speed of the rings under each", of_blocks(part, &drive::PartBlock::speed),
                   Quantity::angular_speed) /
            (2 * pi<Term>()) *
            pow(inputs("P_b", "equivalent load of each", of_blocks(part, &drive::PartBlock::load), Quantity::force) /
                    input("C", "dynamic capacity", part.C, Quantity::force),
                Term(p)));
  }
  record(working, "L_10h", hours_of(part, "basic life, over the duty (Palmgren-Miner),").c_str(), Quantity::duration,
         basic, basic_source(part));

  Term ratio = input("e_C", "contamination factor", part.contamination);
  Term kappa = 0;
  if (part.bearing) {
    kappa =
        named("kappa", "viscosity at the oil temperature over the viscosity asked for", Quantity::number,
              input("nu", "viscosity at the oil temperature",
                    drive.oil.nu(e.oil_temperature, e.coefficients.viscosity_factor), Quantity::kinematic_viscosity) /
                  reference_viscosity(part.speed, part.pitch_diameter),
              "[iso281]");
    ratio = ratio * input("C_u", "fatigue limit load", part.C_u, Quantity::force) /
            input("P", "equivalent load at full load", part.load, Quantity::force);
  } else {
    kappa = named("kappa", "what the film is worth as a viscosity ratio", Quantity::number,
                  pow(input("Lambda", "film over roughness at full load", part.film_ratio), 1.3),
                  "from memory, docs/theory/lubricant.md");
    const Term pressures = input("p_s", "pressure of a static rating", strength::kStaticPressure, Quantity::pressure) /
                           input("p_0", "peak pressure at full load", part.pressure, Quantity::pressure);
    ratio = ratio * pressures * pressures / strength::kStaticOverFatigueLimit;
  }
  ratio = named("x_C", "fatigue limit over load, contamination counted", Quantity::number, ratio,
                part.bearing ? kIso281 : "derived, docs/theory/life.md");
  record(working, "a_ISO",
         kappa.value() < strength::kKappaMin
             ? "life modification factor: below kappa 0.1 the model gives none, its least is counted"
             : "life modification factor at full load",
         Quantity::number, life_factor(part, kappa, ratio), "[iso281] eq. 31-36, as quoted in public code");

  std::vector<double> single = of_blocks(part, &drive::PartBlock::basic_hours);
  for (double& life : single) life *= kHour;
  const Term modified =
      1 /
      sum(q / (inputs("a_b", "life modification factor of each load", of_blocks(part, &drive::PartBlock::life_factor)) *
               inputs("L_b", "basic life under each load alone", single, Quantity::duration)));
  record(working, "L_10mh", hours_of(part, "modified life that 90 % reach, over the duty,").c_str(), Quantity::duration,
         modified, kIso281);
  record(working, "L_nmh", hours_of(part, "modified life that the asked share reaches,").c_str(), Quantity::duration,
         ((1 - input("g", "share of L_10mh that every one reaches", part.least)) *
              pow(ln(input("S", "share asked for", drive.requirement.reliability, Quantity::share)) / ln(Term(0.9)),
                  1 / input("e", "Weibull slope", part.weibull)) +
          input("g", "share of L_10mh that every one reaches", part.least)) *
             input("L_10mh", "modified life that 90 % reach", part.hours_90 * kHour, Quantity::duration),
         "[iso281] distribution behind a_1, from memory; line contacts: Lundberg and Palmgren, from memory");
}

void record_output_loads(const drive::Drive& drive, const drive::OutputLoads& loads, double radial, double position,
                         Working& working) {
  using namespace formula;
  const range::OutputShaft& shaft = drive.build.frame().output;
  const Term F = input("F", "radial force", radial, Quantity::force);
  const Term x = input("x", "place of the force from the outside bearing", position, Quantity::length);
  const Term span = input("span", "between the bearings", shaft.span, Quantity::length);
  const Term outside =
      named("R_B", "radial load of the outside bearing", Quantity::force, F * (span + x) / span, "derived, lever law");
  const Term inside = named("R_A", "radial load of the inside bearing, the other way", Quantity::force, F * x / span,
                            "derived, lever law");
  const auto equivalent = [&](const range::Bearing& bearing, const char* symbol, const char* meaning, const Term& own,
                              double axial, const Term& thrust) {
    const double Y = bearing.axial_Y.value_or(0);
    const double X = Y == 0 ? 1 : bearing.kind == range::BearingKind::deep_groove ? 0.56 : 0.4;
    if (axial == 0) {
      record(working, symbol, meaning, Quantity::force, own, kIso281);
      return;
    }
    record(working, symbol, meaning, Quantity::force,
           strength::equivalent_load_of(own, thrust, input("X", "radial factor", X), input("Y", "axial factor", Y)),
           kIso281);
  };
  const auto inclined = [](const range::Bearing& bearing) {
    return bearing.axial_Y.value_or(0) > 0 &&
           (bearing.kind == range::BearingKind::tapered || bearing.kind == range::BearingKind::angular_ball);
  };
  Term axial_inside = input("F_aA", "axial force on the inside bearing", loads.axial_inside, Quantity::force);
  Term axial_outside = input("F_aB", "axial force on the outside bearing", loads.axial_outside, Quantity::force);
  if (inclined(shaft.bearing_inside) && inclined(shaft.bearing_outside)) {
    const char* source = "common practice, no source; statics, docs/theory/shaft.md";
    const Term S_A = named(
        "S_A", "thrust that the inside bearing's load induces", Quantity::force,
        strength::induced_thrust(inside, input("Y_A", "its axial factor", *shaft.bearing_inside.axial_Y)), source);
    const Term S_B = named(
        "S_B", "thrust that the outside bearing's load induces", Quantity::force,
        strength::induced_thrust(outside, input("Y_B", "its axial factor", *shaft.bearing_outside.axial_Y)), source);
    // Which bearing the outside force pushes: the one whose axial loads differ by it.
    const double towards_inside = loads.axial_inside - loads.axial_outside;
    const Term K =
        input("K_A", "axial force from outside towards the inside bearing",
              drive.requirement.axial_force > 0 ? std::copysign(drive.requirement.axial_force, towards_inside) : 0.0,
              Quantity::force);
    axial_inside =
        named("F_aA", "axial force on the inside bearing", Quantity::force, strength::pair_axial(S_A, S_B, K), source);
    axial_outside = named("F_aB", "axial force on the outside bearing", Quantity::force,
                          strength::pair_axial(S_B, S_A, -K), source);
  }
  equivalent(shaft.bearing_inside, "P_A", "equivalent load of the inside bearing at full load", inside,
             loads.axial_inside, axial_inside);
  equivalent(shaft.bearing_outside, "P_B", "equivalent load of the outside bearing at full load", outside,
             loads.axial_outside, axial_outside);
}

void record_reliability(const drive::Lives& lives, Working& working) {
  using namespace formula;
  const Term t = input("t", "life asked for", lives.hours * kHour, Quantity::duration);
  std::vector<Term> shares;
  for (const PartLife& part : lives.parts) {
    if (!std::isfinite(part.hours_90)) continue;
    const Term g = input("g", "share of L that every one reaches", part.least);
    const Term beyond =
        max(t / input("L", "modified life that 90 % of one reach", part.hours_90 * kHour, Quantity::duration) - g, 0) /
        (1 - g);
    const Term share = exp(ln(Term(0.9)) * input("n", "how many there are", part.count) *
                           pow(beyond, input("e", "Weibull slope", part.weibull)));
    shares.push_back(named(
        fmt::format("R_{}", part.id).c_str(),
        fmt::format("share of units whose {} reach the life asked for",
                    part.count > 1 ? fmt::format("{:.0f} of the kind \"{}\"", part.count, part.label) : part.label)
            .c_str(),
        Quantity::share, share, "derived, docs/theory/life.md; slopes from memory"));
  }
  for (const drive::StandingPart& part : lives.standing) {
    if (!(part.stress > 0)) continue;
    const auto& scatter =
        strength::fatigue_scatter(part.of_shaft ? strength::FatiguePart::shaft : strength::FatiguePart::output_pin);
    const Term s = named("s", "standard deviation of the logarithm of a fatigue limit", Quantity::number,
                         strength::log_deviation(input("v", "coefficient of variation", scatter.variation.nominal)),
                         scatter.variation.source);
    const Term score = strength::fatigue_score(
        input("S_50", "fatigue limit that half of them stand", part.median, Quantity::pressure),
        input("S_x",
              part.of_shaft ? "fatigue limit that the load of this machine needs" : "bending under the largest force",
              part.stress, Quantity::pressure),
        s);
    const std::string symbol = fmt::format("R_{}", part.id);
    const std::string z = fmt::format("z_{}", part.id);
    record(working, z.c_str(), fmt::format("standard score of the {}", part.label).c_str(), Quantity::number, score,
           "derived, docs/theory/life.md: lognormal scatter");
    const double share = std::exp(part.log_share);
    record_looked_up(working, symbol.c_str(), fmt::format("share of units whose {} stand for ever", part.label).c_str(),
                     Quantity::share, share, "standard normal distribution at z, to the power of n",
                     {{"z", "standard score", score.value(), Quantity::number},
                      {"n", "how many there are", part.count, Quantity::number}},
                     "derived, docs/theory/life.md: normal distribution");
    shares.push_back(input(symbol, fmt::format("share of units whose {} stand", part.label), share, Quantity::share));
  }
  if (shares.empty()) return;
  Term product = shares.front();
  for (std::size_t i = 1; i < shares.size(); ++i) product = product * shares[i];
  record(working, "R", "share of whole units that reach the life asked for: the product over all parts",
         Quantity::share, product, "derived, docs/theory/life.md");
}

}  // namespace lobewise::evidence
