#include "engine/evidence/shock_working.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/formula/record.h"
#include "engine/drive/cold.h"
#include "engine/strength/bolts.h"
#include "engine/strength/peak_torque.h"
#include "engine/strength/pulses.h"
#include "engine/strength/torque_cycles.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::Part;
using formula::input;
using formula::named;
using formula::Term;

constexpr const char* kDerived = "derived, docs/theory/peaks.md";

void write_chain(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const drive::Torsion t = drive::torsion_of(drive, context.nominal.coefficients);
  double own = 0;
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const double to_output = drive.build.ratio_behind(i) * drive.build.stages[i].stage->geometry.lobes;
    own += drive.build.stages[i].stage->input_inertia * to_output * to_output;
  }
  const Term ratio = input("i", "ratio", drive.build.ratio());
  formula::record(working, "J_1", "inertia of motor and input shafts seen at the output", Quantity::inertia,
                  input("J_motor", "inertia of the motor", drive.motor ? drive.motor->inertia : 0, Quantity::inertia) *
                          pow(ratio, Term(2.0)) +
                      input("J_own", "inertia of the input shafts with eccentrics and discs, at the output", own,
                            Quantity::inertia),
                  "derived; typical motor inertia common practice, no source");
  formula::record(working, "k", "torsional stiffness at the output, half to full torque: meshes and shafts in a row",
                  Quantity::torsional_stiffness,
                  Term(1.0) / (Term(1.0) / input("k_mesh", "lobes, discs and pins", t.mesh_stiffness,
                                                 Quantity::torsional_stiffness) +
                               Term(1.0) / input("k_shaft", "output shaft to the middle of its end, input shaft",
                                                 t.shaft_stiffness, Quantity::torsional_stiffness)),
                  "derived, docs/theory/motion.md");
}

/// Twist and stored energy of the chain at a torque.
struct Wound {
  Term twist, energy;
};
/// By the piece of the characteristic on which the torque lies.
/// @param tag  ends the symbols  @param when  in words
Wound wound_at(const motion::Characteristic& chain, const Term& torque, const std::string& tag,
               const std::string& when) {
  const auto& knots = chain.knots();
  const std::size_t k = static_cast<std::size_t>(&chain.below(torque.value()) - knots.data());
  const Term T_k = input("T_k" + tag, "solved torque below", knots[k].torque, Quantity::torque);
  const Term x_k = input("x_k" + tag, "twist there", knots[k].twist, Quantity::angle);
  const Term c = named(
      ("c_" + tag).c_str(), ("compliance of the chain from there on (rad/(N m)), " + when).c_str(), Quantity::number,
      (input("x_n" + tag, "twist at the solved torque above", knots[k + 1].twist, Quantity::angle) - x_k) /
          (input("T_n" + tag, "solved torque above", knots[k + 1].torque, Quantity::torque) - T_k),
      "derived, docs/theory/motion.md");
  Term U_k = 0;
  if (k > 0) {
    std::vector<double> from_torque, to_torque, from_twist, to_twist;
    for (std::size_t i = 0; i < k; ++i) {
      from_torque.push_back(knots[i].torque);
      to_torque.push_back(knots[i + 1].torque);
      from_twist.push_back(knots[i].twist);
      to_twist.push_back(knots[i + 1].twist);
    }
    U_k =
        named(("U_k" + tag).c_str(), ("energy stored up to the solved torque below, " + when).c_str(), Quantity::energy,
              sum((formula::inputs("T_i" + tag, "torques up to there, each piece from", from_torque, Quantity::torque) +
                   formula::inputs("T_j" + tag, "to", to_torque, Quantity::torque)) *
                  (formula::inputs("x_j" + tag, "twist at its end", to_twist, Quantity::angle) -
                   formula::inputs("x_i" + tag, "at its beginning", from_twist, Quantity::angle))) /
                  2,
              "derived, docs/theory/motion.md");
  }
  return {named(("x_" + tag).c_str(), ("twist of the chain " + when).c_str(), Quantity::angle, x_k + c * (torque - T_k),
                "derived, docs/theory/motion.md"),
          named(("U_" + tag).c_str(), ("energy stored in it " + when).c_str(), Quantity::energy,
                U_k + c * (torque * torque - T_k * T_k) / 2, "derived, docs/theory/motion.md")};
}

/// What is left of an energy, as a share of what the chain stores at the peak.
constexpr double kEnergyCloses = 1e-6;
double energy_tolerance(const Wound& at) { return kEnergyCloses * std::max(at.energy.value(), 1e-9); }

void write_jam(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const double torque = drive.requirement.torque, angle = drive.requirement.demand.jam.angle.nominal;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  const motion::Characteristic chain = drive::characteristic_of(drive, e.coefficients);
  const char* source = "derived, docs/theory/motion.md";
  const Term T_0 = input("T_0", "working torque", torque, Quantity::torque);
  const Term T_m = input("T_m", "most that the motor gives while it slows down", e.peaks.pull_jam, Quantity::torque);
  const Term w = input("w", "speed of the output", drive.output_speed, Quantity::angular_speed);
  const Term J_1 = input("J_1", "inertia of the motor side", t.motor_inertia, Quantity::inertia);
  const Wound before = wound_at(chain, T_0, "0", "at the working torque");
  const double at_once = motion::jam_at_once(chain, e.peaks.pull_jam, torque, t.motor_inertia, drive.output_speed);
  const Term T_rigid = input("T_rigid", "peak when it is stopped at once", at_once, Quantity::torque);
  const Wound rigid = wound_at(chain, T_rigid, "r", "when it is stopped at once");
  formula::record_solved(working, "T_rigid", "peak when it is stopped at once, from the chain's own twist over torque",
                         Quantity::torque, at_once,
                         J_1 * w * w / 2 + T_m * (rigid.twist - before.twist) - (rigid.energy - before.energy),
                         energy_tolerance(rigid), source);
  const char* meaning =
      "peak when the output is brought to rest within an angle while the motor pulls up to its breakdown torque; "
      "before anything slips";
  if (!(angle > 0)) {
    formula::record(working, "T_jam", meaning, Quantity::torque, T_rigid, source);
    return;
  }
  const double unlimited =
      motion::jam_within(chain, e.peaks.pull_jam, torque, t.motor_inertia, drive.output_speed, angle);
  const Term T_jam = input("T_jam", "the solution", unlimited, Quantity::torque);
  const Term T_k = named("T_j", "torque up to which the stiffness counts", Quantity::torque,
                         max(T_jam, motion::kLeastJam * T_0), source);
  const Term k_j =
      named("k_j", "stiffness between working torque and peak", Quantity::torsional_stiffness,
            (T_k - T_0) / (wound_at(chain, T_k, "j", "at the peak of the jam").twist - before.twist), source);
  const Term t_j = named("t_j", "time of the stop", Quantity::time,
                         2 * input("a", "stop angle", angle, Quantity::angle) / w, source);
  formula::record_solved(working, "T_jam", meaning, Quantity::torque, unlimited,
                         min(T_rigid, motion::jam_torque(T_0, T_m, w, J_1, k_j, t_j)) / T_jam - 1, 1e-6, source);
}

/// What a first swing starts with: torque of the motor, torque to break away.
struct SwingOf {
  double pull = 0, breakaway = 0;
  const drive::FirstSwing& swing;
};
/// The first swing of a start: `symbol` is where the energy of the motor side is used up.
Term write_first_swing(const Context& context, const SwingOf& of, const char* symbol, const char* meaning,
                       const std::string& tag, const Term& play, Working& working) {
  const Drive& drive = context.drive;
  const drive::FirstSwing& swing = of.swing;
  const drive::Torsion t = drive::torsion_of(drive, context.nominal.coefficients);
  const motion::Characteristic chain = drive::characteristic_of(drive, context.nominal.coefficients);
  const char* source = "derived, docs/theory/motion.md, docs/decisions/120-start-peak.md";
  const Term T_m = input("T_m", "torque of the motor that crosses the play, at the output", of.pull, Quantity::torque);
  const Term peak = input(symbol, "the solution", swing.peak, Quantity::torque);
  const Wound rest =
      wound_at(chain, input("T_0", "torque in the chain at rest", swing.wound, Quantity::torque), "0" + tag, "at rest");
  const Wound at_peak = wound_at(chain, peak, "p" + tag, "at the peak");
  const auto standing = [&](const Wound& at) {
    return T_m * (play + at.twist - rest.twist) - (at.energy - rest.energy);
  };
  const double at = std::max(of.breakaway, swing.wound);
  const Term T_b = input("T_b", "torque to break away", at, Quantity::torque);
  const Wound breaks = wound_at(chain, T_b, "b" + tag, "as it breaks away");
  const Term kept = standing(breaks);
  if (of.breakaway > swing.wound && kept.value() <= 0) {
    formula::record_solved(working, symbol, (std::string(meaning) + "; the machine does not move in it").c_str(),
                           Quantity::torque, swing.peak, standing(at_peak), energy_tolerance(at_peak), source);
  } else {
    const Term J_1 = input("J_1", "inertia of the motor side", t.motor_inertia, Quantity::inertia);
    const Term J_2 = input("J_2", "inertia of the machine", t.load_inertia, Quantity::inertia);
    const Term E_b = named(("E_b" + tag).c_str(), "energy that is left as it breaks away, of both against each other",
                           Quantity::energy, max(0, kept) * J_2 / (J_1 + J_2), source);
    const Term T_L = input("T_L", "working torque", drive.requirement.torque, Quantity::torque);
    const Term m =
        named(("m" + (tag == "c" ? "_c" : std::string())).c_str(), "mean torque of the chain while both move",
              Quantity::torque, (T_m * J_2 + T_L * J_1) / (J_1 + J_2), source);
    formula::record_solved(working, symbol, meaning, Quantity::torque, swing.peak,
                           E_b + m * (at_peak.twist - breaks.twist) - (at_peak.energy - breaks.energy),
                           energy_tolerance(at_peak), source);
  }
  return peak;
}

void write_start(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  if (!drive.motor) return;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  const motion::Characteristic chain = drive::characteristic_of(drive, e.coefficients);
  const Coefficient share = drive::start_play(drive);
  const char* source = "derived, docs/theory/motion.md";
  const Term g = input("g", "free play of the meshes", 2 * chain.free_angle(), Quantity::angle);
  // A torque that grows slowly has closed the play before it counts.
  const bool crosses = e.peaks.first_bound.play > 0;
  const Term crossed =
      crosses ? input("s", "share of the play that is crossed", share.nominal, Quantity::share) * g : Term(0.0);
  const Term first = write_first_swing(
      context, {e.peaks.pull, e.peaks.breakaway, e.peaks.first}, "T_first",
      "first peak of a start: the motor side crosses the play, winds the chain up against the standing machine until "
      "that breaks away, then both swing; energy, no damping",
      "", crossed, working);
  const Term later = formula::record(
      working, "T_run",
      "largest torque later on, while motor and machine speed up (breakdown, change to delta, ramp); the larger of "
      "both counts",
      Quantity::torque,
      input("T_a", "moves both inertias: (T_max J_2 + T_L J_1)/(J_1 + J_2); on a ramp T_L + J_2 w/t",
            e.peaks.speeding_up, Quantity::torque) +
          input("T_s", "what is left of the first swing, or the swing of the change to delta",
                e.peaks.run_up - e.peaks.speeding_up, Quantity::torque),
      source);
  const Term start = formula::record(working, "T_start", "peak of a start, first or later", Quantity::torque,
                                     max(first, later), std::string(source) + "; share: " + share.source);
  const Term all = write_first_swing(context, {e.peaks.pull, e.peaks.breakaway, e.peaks.first_bound}, "T_all",
                                     "the same with all the play to cross, as after a reversal", "a",
                                     crosses ? g : Term(0.0), working);
  formula::record(working, "T_bound", "the same as the start with all the play to cross, s = 1, as after a reversal",
                  Quantity::torque, max(all, start), source);
  if (e.peaks.plugging > 0 && drive.requirement.reversing) {
    const Term T_0 = input("T_0", "working torque", drive.requirement.torque, Quantity::torque);
    const Term J_1 = input("J_1", "inertia of the motor side", t.motor_inertia, Quantity::inertia);
    const Term J_2 = input("J_2", "inertia of the machine", t.load_inertia, Quantity::inertia);
    const Term T_m = named("T_r", "torque of the motor against the motion, at the output", Quantity::torque,
                           input("T_m", "torque of the motor that crosses the play", e.peaks.pull, Quantity::torque) /
                               pow(input("eta", "efficiency: a motor that brakes passes on what it gives over it",
                                         e.full.efficiency(), Quantity::share),
                                   2),
                           source);
    const Term m = named("m_r", "mean torque of the chain while both slow down", Quantity::torque,
                         (T_m * J_2 - T_0 * J_1) / (J_1 + J_2), source);
    const Wound before = wound_at(chain, T_0, "0w", "at the working torque");
    const Wound at_peak =
        wound_at(chain, input("T_plug", "the solution", e.peaks.plugging, Quantity::torque), "q", "at that peak");
    formula::record_solved(working, "T_plug", "peak on the other flank when the motor is reversed at full speed",
                           Quantity::torque, e.peaks.plugging,
                           before.energy + m * (before.twist + g + at_peak.twist) - at_peak.energy,
                           energy_tolerance(at_peak), source);
  }
}

/// The start after a night: the same forms with what resists then.
void write_cold_start(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  if (!drive.motor) return;
  const drive::Coefficients& c = context.nominal.coefficients;
  const drive::ColdPeak peak = drive::cold_peak(drive, context.nominal.cold, c);
  const char* source = "derived, docs/theory/peaks.md";
  const Term crossed =
      peak.first.play > 0
          ? input("s", "share of the play that is crossed", drive::start_play(drive).nominal, Quantity::share) *
                input("g", "free play of the meshes", 2 * drive::characteristic_of(drive, c).free_angle(),
                      Quantity::angle)
          : Term(0.0);
  const Term first = write_first_swing(
      context, {peak.pull, peak.breakaway, peak.first}, "T_firstc",
      "first peak of a start after a night at the coldest surroundings, as T_first, with dry contacts and stiff oil",
      "c", crossed, working);
  const Term later = formula::record(
      working, "T_runc", "largest torque later on in it, the oil as cold as it is then; the larger of both counts",
      Quantity::torque,
      input("T_a",
            "moves both inertias: ((T_max - i eta_0 T_d) J_2 + T_L J_1)/(J_1 + J_2), T_d the drag of the oil; "
            "on a ramp T_L + J_2 w/t",
            peak.speeding_up, Quantity::torque) +
          input("T_s", "what is left of the first swing, or the swing of the change to delta",
                peak.run_up - peak.speeding_up, Quantity::torque),
      source);
  formula::record(working, "T_cold",
                  "peak of the first start after a night at the coldest surroundings: with dry contacts and the oil as "
                  "cold as it is then, first or later",
                  Quantity::torque, max(first, later), source);
}

void write_event_torques(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const drive::PeakCase& peak = context.nominal.peak;
  const double working_torque = drive.requirement.torque;
  for (std::size_t i = 0; i < peak.events.size(); ++i) {
    const drive::Event& event = peak.events[i];
    if (event.kind == drive::EventKind::shock)
      formula::record(working, fmt::format("T_{}", i + 1).c_str(),
                      fmt::format("torque of {} at the output shaft", label(event, drive)).c_str(), Quantity::torque,
                      input("n", "times the working torque", event.torque / working_torque) *
                          input("T_w", "working torque", working_torque, Quantity::torque),
                      event.source == drive::EventSource::stated ? "the enquiry" : "the load log");
    formula::record(working, fmt::format("T_in_{}", i + 1).c_str(),
                    fmt::format("torque of the input shaft beside the motor in {}", label(event, drive)).c_str(),
                    Quantity::torque,
                    strength::input_torque(
                        input("T", "torque at the output shaft", event.torque, Quantity::torque),
                        input("u", "input torque over output torque then", event.input),
                        input("x", "inertia of the reducer's input parts over all that turns with the motor",
                              peak.passed.own_share),
                        input("T_m", "torque of the motor in that moment", event.motor_torque, Quantity::torque)),
                    kDerived);
  }
}

const char* symbol_of(Part part) {
  switch (part) {
    case Part::lobes:
      return "T_lobe";
    case Part::holes:
      return "T_hole";
    case Part::pins:
      return "T_pin";
    case Part::eccentric_bearing:
      return "T_ecc";
    case Part::input_bearing:
      return "T_inb";
    case Part::input_shaft:
      return "T_ins";
    case Part::inside_bearing:
      return "T_A";
    case Part::outside_bearing:
      return "T_B";
    case Part::shaft_seat:
      return "T_seat";
    case Part::shaft_end:
      return "T_end";
    case Part::keyed_end:
      return "T_way";
    case Part::key:
      return "T_key";
    case Part::link:
      return "T_link";
    case Part::feet:
      return "T_feet";
    case Part::flange:
      break;
  }
  return "T_flange";
}

/// One limit being written down.
struct Limit {
  const Drive& drive;
  const drive::PeakCase& peak;
  const drive::PathPart& part;
  double safety;
  Working& working;
  double disc_load = 1;  ///< torque of the disc that decides over the mean of the discs

  [[nodiscard]] double torque() const { return safety > 1 ? part.routine : part.marks; }
  void record(const Term& result, const std::string& source) const {
    formula::record(working, symbol().c_str(), meaning().c_str(), Quantity::torque, result, source);
  }
  [[nodiscard]] std::string symbol() const {
    const std::string stage =
        drive.build.stages.size() > 1 && part.part <= Part::input_shaft ? fmt::format("_{}", part.stage + 1) : "";
    return symbol_of(part.part) + stage + (safety > 1 ? "_s" : "");
  }
  [[nodiscard]] std::string meaning() const {
    return (safety > 1 ? "torque at the output shaft that is borne in planned events: "
                       : "torque at the output shaft at which permanent marks begin: ") +
           label(part, drive);
  }
  [[nodiscard]] Term safety_term() const { return input("s_0", "static safety", safety); }
  [[nodiscard]] Term share() const {
    const Term stage = input("v", "torque of the stage over torque at the output shaft", peak.passed.stage[part.stage]);
    if (disc_load == 1) return stage;
    return stage * input("t", "torque of the disc that decides over the mean of the discs", disc_load);
  }
  /// Torque where a figure reaches `value` between two solved torques of the mesh, or from the origin.
  template <class Of>
  [[nodiscard]] Term between(const Term& value, const char* symbol, const char* what, Quantity quantity,
                             double drive::MeshLevel::*member, Of of) const {
    const drive::StageTable& table = *drive.tables[part.stage];
    const double at_disc = torque() * peak.passed.stage[part.stage] * disc_load;
    const bool below_all = at_disc <= table.levels.front().torque;
    const drive::StageTable::Between at = table.between(at_disc);
    const drive::MeshLevel& above = below_all ? table.levels.front() : *at.above;
    const Term T_a =
        input("T_a", "solved torque of the stage below", below_all ? 0 : at.below->torque, Quantity::torque);
    const Term T_b = input("T_b", "solved torque of the stage above", above.torque, Quantity::torque);
    const Term f_a = of(
        input(fmt::format("{}_a", symbol), fmt::format("{} there", what), below_all ? 0 : at.below->*member, quantity));
    const Term f_b = of(input(fmt::format("{}_b", symbol), fmt::format("{} there", what), above.*member, quantity));
    return lerp(T_a, T_b, (value - f_a) / (f_b - f_a));
  }
  void pressed(double drive::MeshLevel::*member) const {
    const auto square = [](const Term& p) { return pow(p, Term(2.0)); };
    const Term limit = input("p_0", "pressure of a roller contact at its static rating", strength::kStaticPressure,
                             Quantity::pressure);
    record(
        between(square(limit) / safety_term(), "p", "largest pressure", Quantity::pressure, member, square) / share(),
        "[iso76] 4000 MPa; solved mesh, squares of the pressure straight between solved torques; " +
            std::string(kDerived));
  }
  void loaded(const Term& force, double drive::MeshLevel::*member, const char* what, const std::string& source) const {
    const auto plain = [](const Term& f) { return f; };
    record(between(force / safety_term(), "F", what, Quantity::force, member, plain) / share(), source);
  }
};

void write_pins(Limit limit) {
  const std::size_t i = limit.part.stage;
  const range::Stage& stage = *limit.drive.build.stages[i].stage;
  const drive::StageTable& table = *limit.drive.tables[i];
  const drive::PinLoad pin = drive::hardest_pin(stage, table, limit.torque() * limit.peak.passed.stage[i]);
  limit.disc_load = table.disc_loads.empty() ? 1 : table.disc_loads[static_cast<std::size_t>(pin.disc)];
  const Term d = input("d", "core of an output pin", 2 * stage.output_pin_radius, Quantity::length);
  const Term lever = input("l",
                           stage.pins_guided ? "half the lever to the disc that bends it most: the far end is guided"
                                             : "lever to the disc that bends it most",
                           stage.pins_guided ? pin.lever / 2 : pin.lever, Quantity::length);
  const Term yield =
      input("sigma", "bending at which a hardened pin stays bent", strength::kPinYield, Quantity::pressure);
  limit.loaded(yield * formula::pi<Term>() * pow(d, Term(3.0)) / (Term(32.0) * lever), &drive::MeshLevel::pin_force,
               "largest force of an output pin", "common practice, no source; section modulus of a round bar");
}

void write_mesh_bearing(const Limit& limit) {
  const auto& bearings = limit.drive.bearings[limit.part.stage];
  const bool eccentric = limit.part.part == Part::eccentric_bearing;
  const Term C_0 =
      input("C_0", "static rating", (eccentric ? bearings.eccentric : bearings.input).rating.C_0, Quantity::force);
  const double share = eccentric ? 1 : drive::input_bearing_share(*limit.drive.build.stages[limit.part.stage].stage);
  limit.loaded(C_0 / input("y", "share of a disc's force that reaches it", share), &drive::MeshLevel::bearing_largest,
               "largest force of a disc on its eccentric", "[iso76] from memory");
}

/// Solved for the torque: its force comes from the mesh, its torque from the motor's side.
void write_input_shaft(const Limit& limit) {
  const Drive& drive = limit.drive;
  const std::size_t i = limit.part.stage;
  const range::Stage& stage = *drive.build.stages[i].stage;
  const double torque = limit.torque();
  const double force =
      drive.tables[i]->at(torque * limit.peak.passed.stage[i] * limit.disc_load, &drive::MeshLevel::bearing_largest);
  const Term T = input("T", "the solution", torque, Quantity::torque);
  const Term turning =
      i == 0 ? strength::input_torque(
                   T, input("u", "input torque over output torque at full load", limit.peak.passed.input),
                   input("x", "inertia of the reducer's input parts over all that turns with the motor",
                         limit.peak.passed.own_share),
                   input("T_m", "torque of the motor in running", limit.peak.passed.input * drive.requirement.torque,
                         Quantity::torque))
             : T * input("u", "torque of the shaft over torque at the output", limit.peak.passed.stage[i - 1]);
  const Term moment = input("F", "largest force of a disc on its eccentric at that torque", force, Quantity::force) *
                      input("y", "share of it that reaches an input bearing", drive::input_bearing_share(stage)) *
                      input("l", "from there to the middle of the disc", drive::input_lever(stage), Quantity::length);
  const Term cube =
      formula::pi<Term>() *
      pow(input("d", "diameter of the input shaft", stage.input_shaft_diameter, Quantity::length), Term(3.0));
  const Term yield = input("R_e", "yield strength, taken", drive::kInputShaftYield.nominal, Quantity::pressure);
  const Term residual =
      sqrt(pow(Term(32.0) * moment / cube, Term(2.0)) + Term(3.0) * pow(Term(16.0) * turning / cube, Term(2.0))) -
      yield / limit.safety_term();
  formula::record_solved(limit.working, limit.symbol().c_str(), limit.meaning().c_str(), Quantity::torque, torque,
                         residual, 1e-6 * drive::kInputShaftYield.nominal,
                         "[shigley] distortion energy; yield: " + std::string(drive::kInputShaftYield.source));
}

void write_output_bearing(const Limit& limit) {
  const drive::BearingStatics b = drive::statics_of(limit.drive, limit.part.part);
  limit.record(strength::bearing_static_torque(
                   input("C_0", "static rating", b.rating, Quantity::force), limit.safety_term(),
                   input("r", "radial load over torque (1/m): the pull of the link grows with the torque", b.radial),
                   input("F_a", "axial load", b.axial, Quantity::force),
                   input("q", "thrust that the other bearing makes of its radial load, over torque (1/m)", b.induced),
                   input("X_0", "static radial factor", b.X_0), input("Y_0", "static axial factor", b.Y_0)),
               "[iso76] from memory; lever law");
}

void write_section(const Limit& limit) {
  const drive::PathSection s = drive::section_of(limit.drive, limit.part.part);
  const range::OutputShaft& shaft = limit.drive.build.frame().output;
  limit.record(strength::section_yield_torque(
                   input("m", "bending moment over torque: lever of the pull times pull over torque", s.bending),
                   input("F_a", "axial load", limit.drive.requirement.axial_force, Quantity::force),
                   input("d", "diameter that carries", s.diameter, Quantity::length),
                   input("R_e", "yield strength", shaft.yield_strength, Quantity::pressure)),
               "[shigley] distortion energy, nominal stress");
}

void write_key(const Limit& limit) {
  const range::OutputShaft& shaft = limit.drive.build.frame().output;
  const strength::ParallelKey key = drive::key_of(shaft);
  limit.record(strength::key_torque(input("p", "pressure at which the key begins to yield", strength::kKeyYield.nominal,
                                          Quantity::pressure),
                                    input("d", "shaft end", shaft.diameter, Quantity::length),
                                    input("t", "depth of the less deep flank",
                                          std::min(key.height - key.shaft_depth, key.shaft_depth), Quantity::length),
                                    input("l", "bearing length", key.length - key.width, Quantity::length)),
               strength::kKeyYield.source);
}

void write_bolts(const Limit& limit) {
  const range::Dimensions& d = limit.drive.build.frame().dimensions;
  const bool feet = limit.part.part == Part::feet;
  const double thread = (feet ? d.foot_bolt : d.flange_bolt).value_or(0);
  const Term proof =
      input("R_p", "proof stress of the bolts",
            strength::proof_stress(d.bolt_class.value_or(strength::BoltClass::c8_8)), Quantity::pressure);
  const Term area = input("A_s", "stress area of a bolt", strength::stress_area(thread).value_or(0), Quantity::area);
  const bool routine = limit.safety > 1;
  // Every start must leave the joint closed; marks begin where a bolt yields.
  const Term force =
      routine ? proof * area * input("k_v", "preload left over R_p A_s", strength::kPreload.nominal) : proof * area;
  const Term reaction = Term(1.0) + Term(1.0) / input("i", "ratio", limit.drive.build.ratio());
  const double pull = drive::pull_of(limit.drive);
  if (feet) {
    limit.record(
        strength::foot_torque(
            force, reaction, input("a", "between the rows of foot holes", d.foot_holes_across, Quantity::length),
            input("f", "pull of the link over torque (1/m)", pull),
            input(
                "g", "share of the pull that stretches the bolt next to the shaft end",
                drive::foot_lever(limit.drive, limit.drive.requirement.pull.value_or(enquiry::PullDirection::along)))),
        kDerived + std::string("; ") + strength::kPreload.source);
    return;
  }
  const Term holds = routine ? input("mu", "friction of the faces", strength::kJointFriction.nominal)
                             : input("k_s", "yield in shear over yield in tension", strength::kShearYield);
  const Term n = input("n", "bolts", d.flange_holes);
  const Term radius = input("R", "radius of their circle", d.flange_bolt_circle / 2, Quantity::length);
  const Term turned = strength::flange_slip_torque(holds, n, force, radius, reaction);
  const double distance = limit.drive.radial_position;
  if (!(pull > 0) || !(distance > 0)) return limit.record(turned, kDerived);
  limit.record(min(turned, strength::flange_tilt_torque(
                               force, n, radius, input("f", "pull of the link over torque (1/m)", pull),
                               input("l", "from the outside bearing to the pull", distance, Quantity::length))),
               kDerived);
}

void write_limits(const Context& context, Working& working) {
  const drive::PeakCase& peak = context.nominal.peak;
  const drive::PartPeak hardest = *std::max_element(peak.promised.begin(), peak.promised.end(),
                                                    [](const auto& a, const auto& b) { return a.use < b.use; });
  for (const drive::PathPart& part : peak.parts) write_limit(context.drive, peak, part, false, working);
  // The part that decides, in the event that decides.
  const drive::PathPart& part = peak.parts[hardest.part];
  const drive::Event& event = peak.events[hardest.event];
  if (event.routine && part.routine != part.marks) write_limit(context.drive, peak, part, true, working);
  if (part.part == Part::input_shaft) return;  // its share is one of stresses
  formula::record(
      working, "use",
      fmt::format("largest share of what a part bears: {}, {}", label(part, context.drive), label(event, context.drive))
          .c_str(),
      Quantity::share,
      input("T", "torque at the output shaft", event.torque, Quantity::torque) /
          input("T_l", "torque that the part bears then", drive::borne(part, event), Quantity::torque),
      kDerived);
}

std::vector<double> counts_of(const drive::PeakCase& peak) {
  std::vector<double> out;
  for (const drive::Pulse& pulse : peak.pulses) out.push_back(pulse.count);
  return out;
}

Term equivalent_of(const drive::PeakCase& peak, const drive::PulseUse& use, const Term& share, Quantity quantity,
                   const char* symbol, const char* meaning) {
  const Term k = input("k", "slope of the Woehler line", use.exponent);
  return pow(share *
                 sum(formula::inputs("n", "pulses in the asked life", counts_of(peak)) *
                     pow(formula::inputs(symbol, meaning, use.sizes, quantity), k)) /
                 Term(strength::kKneeCycles),
             Term(1.0) / k);
}

void write_pulses(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const drive::PeakCase& peak = context.nominal.peak;
  if (peak.pulses.empty()) return;
  const range::OutputShaft& shaft = drive.build.frame().output;
  for (const drive::PulseUse& use : peak.fatigue) {
    const std::string what = label(drive::PathPart{use.part, use.stage}, drive);
    const std::string stage =
        drive.build.stages.size() > 1 && use.part == Part::pins ? fmt::format("_{}", use.stage + 1) : "";
    if (use.part == Part::pins) {
      formula::record(
          working, ("sigma_pin" + stage).c_str(),
          fmt::format("bending of the {} that does 10^6 times what all pulses do", what).c_str(), Quantity::pressure,
          equivalent_of(peak, use,
                        input("c", "share of the pulses that meets one pin", strength::pin_share(use.exponent)),
                        Quantity::pressure, "sigma", "bending by each pulse"),
          kDerived + std::string("; Palmgren-Miner; ") + strength::kPinBendingLimit.source);
    } else if (use.part == Part::key) {
      formula::record(working, "p_key", "pressure on the key that does 10^6 times what all pulses do",
                      Quantity::pressure,
                      equivalent_of(peak, use, Term(1.0), Quantity::pressure, "p", "pressure by each pulse"),
                      kDerived + std::string("; Palmgren-Miner; ") + strength::kKeyPulsating.source);
    } else {
      const char* symbol = use.part == Part::shaft_seat ? "A_seat" : "A_end";
      const double diameter = drive::pulse_diameter(drive, use.part);
      formula::record(working, symbol,
                      fmt::format("{}: amplitude of the moments that does 10^6 times what all pulses do", what).c_str(),
                      Quantity::torque,
                      equivalent_of(peak, use, Term(1.0), Quantity::torque, "A",
                                    "amplitude of each pulse, sqrt(4 (K_f M)^2 + 3 (K_fs T)^2)"),
                      "[shigley] Woehler line, from memory; Palmgren-Miner");
      formula::record(
          working, use.part == Part::shaft_seat ? "n_seat" : "n_end",
          fmt::format("{}: safety against fatigue by what comes often", what).c_str(), Quantity::number,
          strength::pulse_safety(input(symbol, "amplitude of unlimited number", use.equivalent, Quantity::torque),
                                 input("B", "largest mean of the moments", use.mean, Quantity::torque),
                                 input("d", "diameter", diameter, Quantity::length),
                                 input("S_e", "endurance limit", drive::endurance(shaft, diameter), Quantity::pressure),
                                 input("S_ut", "tensile strength", shaft.tensile_strength, Quantity::pressure)),
          "[shigley] shaft chapter, DE-Goodman");
    }
  }
}

void write_runs(const Context& context, Working& working) {
  constexpr double kWaysOfStarting = 4;  // the first of the runs
  double index = 0;
  for (const drive::ShockRun& run : context.events) {
    if (!run.outcome) continue;
    const drive::PeakEffect effect = drive::effect_of(context.drive, run.peak());
    std::vector<WorkingInput> inputs{
        {"n", "ring rollers that carry then", std::round(effect.loaded), Quantity::number},
        {"p", "pressure of the hardest pressed lobe", effect.lobe_pressure, Quantity::pressure},
        {"sigma", "bending of an output pin", effect.pin_stress, Quantity::pressure}};
    if (index < kWaysOfStarting && run.outcome->started) {
      inputs.push_back({"t", "time to speed", *run.outcome->started, Quantity::time});
      inputs.push_back({"Q", "heat into the rotor", run.outcome->rotor_heat, Quantity::energy});
    }
    formula::record_followed(working, ("T_" + std::string(run.id)).c_str(),
                             (std::string(run.label) +
                              (run.outcome->started || index >= kWaysOfStarting ? "" : "; it does not reach its speed"))
                                 .c_str(),
                             Quantity::torque, run.peak(), "integrated in time with play, hardening and damping",
                             std::move(inputs), "derived, docs/theory/motion.md");
    ++index;
  }
}

}  // namespace

void write_limit(const Drive& drive, const drive::PeakCase& peak, const drive::PathPart& part, bool routine,
                 Working& working) {
  Limit limit{drive, peak, part, routine ? drive::kRoutineSafety : 1.0, working};
  if (part.part <= Part::input_shaft) limit.disc_load = drive.tables[part.stage]->hardest_disc();
  switch (part.part) {
    case Part::lobes:
      return limit.pressed(&drive::MeshLevel::lobe_pressure);
    case Part::holes:
      return limit.pressed(&drive::MeshLevel::pin_pressure);
    case Part::pins:
      return write_pins(limit);
    case Part::eccentric_bearing:
    case Part::input_bearing:
      return write_mesh_bearing(limit);
    case Part::input_shaft:
      return write_input_shaft(limit);
    case Part::inside_bearing:
    case Part::outside_bearing:
      return write_output_bearing(limit);
    case Part::shaft_seat:
    case Part::shaft_end:
    case Part::keyed_end:
      return write_section(limit);
    case Part::key:
      return write_key(limit);
    case Part::link:
      return formula::record_looked_up(working, "T_link", limit.meaning().c_str(), Quantity::torque, part.marks,
                                       "connection.largest_torque", {}, "the enquiry");
    case Part::feet:
    case Part::flange:
      return write_bolts(limit);
  }
}

void write_shock_working(const Context& context, Working& working) {
  write_chain(context, working);
  write_jam(context, working);
  write_start(context, working);
  write_cold_start(context, working);
  write_event_torques(context, working);
  write_limits(context, working);
  write_pulses(context, working);
  write_runs(context, working);
}

}  // namespace lobewise::evidence
