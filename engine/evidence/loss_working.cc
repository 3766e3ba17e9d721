#include "engine/evidence/loss_working.h"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/drive/roller_sets.h"
#include "engine/evidence/mesh_working.h"
#include "engine/losses/cold.h"
#include "engine/losses/loss_terms.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using formula::input;
using formula::Term;

constexpr const char* kRollers = "derived, docs/theory/losses.md; coefficients common practice, no source";
constexpr const char* kBearings = "[palmgren1959] form and factors as in public code; low speed: docs/theory/losses.md";

/// Writes the steps of one stage. Symbols end with its number where there are two.
class StageLosses {
 public:
  StageLosses(const Drive& drive, const Evaluation& e, std::size_t index, Working& working, std::vector<Term>& lost)
      : drive_(drive),
        e_(e),
        c_(e.coefficients),
        stage_(*drive.build.stages[index].stage),
        table_(*drive.tables[index]),
        at_(e.full.stages[index]),
        tag_(drive.build.stages.size() == 1 ? "" : fmt::format("_{}", index + 1)),
        nu_(drive.oil.nu(e.oil_temperature, c_.viscosity_factor)),
        eta_(drive.oil.eta(e.oil_temperature, c_.viscosity_factor)),
        working_(working),
        lost_(lost) {}

  void rollers() {
    rollers("P_lobes", "lost at the ring rollers", drive::ring_rollers(stage_), &drive::MeshLevel::lobe_sliding);
    rollers("P_pins", "lost at the output rollers", drive::output_rollers(stage_), &drive::MeshLevel::pin_sliding);
  }

  void bearings(bool last) {
    const double force = table_.at(at_.torque, &drive::MeshLevel::bearing_equivalent);
    const double relative = static_cast<double>(stage_.geometry.rollers()) / stage_.geometry.lobes;
    bearing("ecc", "at the eccentric bearings", stage_.geometry.discs, stage_.eccentric_bearing,
            at_.input_speed * relative, force);
    bearing("in", "at the input bearings", 2, stage_.input_bearing, at_.input_speed,
            force * drive::input_bearing_share(stage_));
    if (!last) return;
    const range::OutputShaft& output = drive_.build.frame().output;
    bearing("out_A", "at the inside output bearing", 1, output.bearing_inside, e_.moment.speed,
            e_.moment.radial_inside);
    bearing("out_B", "at the outside output bearing", 1, output.bearing_outside, e_.moment.speed,
            e_.moment.radial_outside);
  }

  /// @param which  in words
  void seal(const char* symbol, const char* which, double diameter, double speed) {
    record(symbol, fmt::format("lost at the {} seal", which),
           losses::seal_power<Term>(
               input("f", "factor of this model", c_.no_load_loss_form * c_.seal_factor),
               input("T", "oil", e_.oil_temperature, Quantity::temperature),
               input("nu_40", "viscosity at 40 °C", drive_.oil.fill.viscosity_40, Quantity::kinematic_viscosity),
               input("d", "seal", diameter, Quantity::length), input("w", "speed", speed, Quantity::angular_speed)),
           "[seal_loss] form read in public code, power of ten from memory");
  }

  void oil() {
    const mechanism::StageGeometry& g = stage_.geometry;
    if (at_.losses.oil_drag > 0)
      record(
          "P_drag", "lost to the oil between discs and covers",
          losses::gap_power<Term>(
              input("f", "factor for squeezing at the lobes", c_.no_load_loss_form * c_.drag_factor), eta(),
              input("e", "eccentricity", g.eccentricity, Quantity::length), speed(),
              input("A", "faces of the discs", 2.0 * g.discs * kPi * g.pitch_radius * g.pitch_radius, Quantity::area),
              input("phi", "share full of oil", drive_.oil.wetted_share),
              input("s", "gap", losses::kDiscGap, Quantity::length)),
          "derived, Couette flow; gap, wetted share and factor common practice, no source");
    drag("P_nring", "lost to the oil in the ring rollers", drive::ring_rollers(stage_));
    drag("P_nout", "lost to the oil in the output rollers", drive::output_rollers(stage_));
  }

 private:
  void record(const std::string& symbol, const std::string& meaning, const Term& result, const char* source) {
    lost_.push_back(formula::record(working_, (symbol + tag_).c_str(), (meaning + where()).c_str(), Quantity::power,
                                    result, source));
  }
  [[nodiscard]] std::string where() const {
    return tag_.empty() ? "" : tag_ == "_1" ? ", first stage" : ", second stage";
  }
  [[nodiscard]] Term speed() const {
    return input("w_1", "input speed of the stage", at_.input_speed, Quantity::angular_speed);
  }
  [[nodiscard]] Term eta() const { return input("eta", "dynamic viscosity", eta_, Quantity::dynamic_viscosity); }
  [[nodiscard]] Term nu() const {
    return input("nu", "viscosity at the oil temperature", nu_, Quantity::kinematic_viscosity);
  }
  /// Rise of rolling friction at low speed under a symbol of its own.
  [[nodiscard]] Term rise(const std::string& name, double pitch_diameter, double ring_speed) const {
    const double a = c_.low_speed_rise * (losses::kBearingAtRest.nominal * c_.rest_factor - 1);
    const double kappa = contact::viscosity_ratio(nu_, ring_speed, pitch_diameter);
    return named(
        ("m_" + name + tag_).c_str(), "rise of rolling friction at low speed", Quantity::number,
        losses::low_speed_factor<Term>(input("a", "rise at rest", a),
                                       input("kappa", "viscosity ratio, viscosity over what the speed asks for", kappa),
                                       input("kappa_h", "at which half of the rise is there", c_.low_speed_half)),
        "derived, docs/theory/losses.md");
  }

  /// Of one disc at the torque of the stage, from the solved torques around it.
  template <class Of>
  [[nodiscard]] Term between(const char* symbol, const char* meaning, Quantity quantity, Of of) const {
    const SolvedMesh mesh(table_, at_.torque);
    const Term below = of(mesh.below(), "a"), above = mesh.in_proportion() ? below : of(mesh.above(), "b");
    return named((symbol + tag_).c_str(), meaning, quantity,
                 mesh.at(input("T", "torque at the output of the stage", at_.torque, Quantity::torque), below, above),
                 "derived, docs/theory/losses.md");
  }

  void rollers(const char* symbol, const char* meaning, const drive::RollerSet& set,
               losses::SlidingSums drive::MeshLevel::*sums) {
    const Term discs = input("n_d", "discs", static_cast<double>(stage_.geometry.discs));
    const Term form = input("f_l", "factor of this model", c_.load_loss_form);
    const std::string name = symbol + 2;
    const Term sliding = form * between(("S_" + name).c_str(), "sum of force times sliding per radian, one disc",
                                        Quantity::torque, [&](const drive::MeshLevel& level, const char* at) {
                                          return input(std::string("S_") + at, std::string("the same at T_") + at,
                                                       (level.*sums).total, Quantity::torque);
                                        });
    const Term radius = input("r", "roller", set.radius, Quantity::length);
    const Term arm = input("f", "lever arm of rolling friction", c_.rolling_arm, Quantity::length);
    const Term outside = input("mu_o", "sliding on the lobe", c_.mixed.boundary * c_.sliding_factor);
    const Term inner = input("r_b", "pin", set.inner, Quantity::length);
    switch (set.carried) {
      case range::Carried::fixed:
        return record(symbol, meaning, discs * speed() * outside * sliding, kRollers);
      case range::Carried::needle:
        return record(symbol, meaning,
                      losses::needle_roller_power<Term>(
                          discs, speed(), outside, rise(name, set.mean_diameter, set.spin * at_.input_speed),
                          input("mu", "friction of the needles", c_.needle_friction), inner, arm, radius, sliding),
                      kRollers);
      case range::Carried::sleeve:
        break;
    }
    const Term friction = form * between(("M_" + name).c_str(),
                                         "friction of the plain pins as sliding of the rollers, one disc, at the input",
                                         Quantity::torque, [&](const drive::MeshLevel& level, const char* at) {
                                           return sleeves(level.*sums, name + "_" + at, outside, inner, radius);
                                         });
    record(symbol, meaning, discs * speed() * (friction + arm / radius * sliding), kRollers);
  }

  /// Friction of one disc's rollers on plain pins at one solved torque.
  [[nodiscard]] Term sleeves(const losses::SlidingSums& sums, const std::string& name, const Term& outside,
                             const Term& inner, const Term& radius) const {
    return named(
        ("M_" + name + tag_).c_str(), "the same at that solved torque", Quantity::torque,
        losses::sleeve_torque(
            formula::inputs("w_j", "force times sliding of each contact that carries", sums.weight, Quantity::torque),
            formula::inputs("h_j", "its Hersey number over viscosity times input speed (1/Pa)", sums.hersey_rate),
            eta() * speed(), outside,
            input("mu_b", "friction of the pin at rest", c_.sleeve.boundary * c_.sliding_factor),
            input("mu_f", "on a full film", c_.sleeve.film * c_.sliding_factor),
            input("H_h", "Hersey number half way between", c_.sleeve.half), inner, radius),
        kRollers);
  }

  void bearing(const std::string& name, const char* where, int count, const range::Bearing& bearing, double ring_speed,
               double load) {
    using namespace formula;
    const losses::BearingFriction& friction = drive::friction_of(bearing.kind);
    const std::string tag = name + tag_;
    const Term w = input("w", "speed of its rings", ring_speed, Quantity::angular_speed);
    const Term d = input("d_m", "mean diameter", bearing.pitch_diameter, Quantity::length);
    const Term x = named(("x_" + tag).c_str(), "viscosity times speed, mm2/s and 1/min", Quantity::number,
                         losses::viscosity_speed(nu(), w), "derived, docs/theory/losses.md: definition");
    const Term idle = named(
        ("M_0_" + tag).c_str(), "moment without load", Quantity::torque,
        losses::no_load_moment(input("f_0", "of this kind of bearing",
                                     drive::no_load_factor(bearing, drive_.oil) * c_.f0_factor * c_.no_load_loss_form),
                               d, x),
        kBearings);
    const Term loaded =
        named(("M_1_" + tag).c_str(), "moment of its load", Quantity::torque,
              rise(name, bearing.pitch_diameter, ring_speed) *
                  input("f_1", "of this kind of bearing", friction.f1.nominal * c_.f1_factor * c_.load_loss_form) *
                  input("P_1", "load of one", load, Quantity::force) * d,
              kBearings);
    record("P_" + name, std::string("lost ") + where,
           input("n", "of them", static_cast<double>(count)) * (idle + loaded) * w, kBearings);
  }

  void drag(const char* symbol, const char* meaning, const drive::RollerSet& set) {
    using namespace formula;
    if (set.carried == range::Carried::fixed) return;
    const Term discs = input("n_d", "discs", static_cast<double>(stage_.geometry.discs));
    const Term spin = input("w", "roller on its pin", set.spin * at_.input_speed, Quantity::angular_speed);
    const Term factor = input("f", "factor of this model", c_.no_load_loss_form * c_.roller_drag);
    const std::string tag = std::string(symbol + 2) + tag_;
    if (set.carried == range::Carried::needle) {
      const losses::BearingFriction& needle = losses::kNeedle;
      const double f_0 = drive_.oil.grease() ? needle.f0_grease.nominal : needle.f0_oil.nominal * drive_.oil.f0_factor;
      const Term x = named(("x_" + tag).c_str(), "viscosity times speed, mm2/s and 1/min", Quantity::number,
                           losses::viscosity_speed(nu(), spin), "derived, docs/theory/losses.md: definition");
      return record(
          symbol, meaning,
          factor * discs * input("n", "rollers of a disc", set.count) *
              losses::no_load_moment(input("f_0", "of needles", f_0 * c_.f0_factor),
                                     input("d_m", "mean of pin and outside", set.mean_diameter, Quantity::length), x) *
              spin,
          kBearings);
    }
    record(symbol, meaning,
           factor * discs * input("n", "rollers of a disc that carry nothing", 0.5 * set.count) *
               losses::sleeve_drag<Term>(
                   eta(), spin, input("r_b", "pin", set.inner, Quantity::length),
                   input("b", "width", set.width, Quantity::length),
                   input("c", "radial clearance", losses::kSleeveClearance * set.inner, Quantity::length)) *
               spin,
           "Petroff 1883, from memory; clearance common practice, no source");
  }

  const Drive& drive_;
  const Evaluation& e_;
  const drive::Coefficients& c_;
  const range::Stage& stage_;
  const drive::StageTable& table_;
  const drive::StageRunning& at_;
  std::string tag_;
  double nu_, eta_;
  Working& working_;
  std::vector<Term>& lost_;
};

}  // namespace

void write_losses(const Drive& drive, const Evaluation& e, Working& working) {
  const std::size_t count = drive.build.stages.size();
  std::vector<Term> lost;
  for (std::size_t i = 0; i < count; ++i) {
    StageLosses stage(drive, e, i, working, lost);
    stage.rollers();
    stage.bearings(i + 1 == count);
    if (i == 0)
      stage.seal("P_seal_in", "input", drive.build.stages[0].frame->input_seal_diameter, e.full.stages[0].input_speed);
    if (i + 1 == count) stage.seal("P_seal_out", "output", drive.build.frame().output.seal_diameter, e.moment.speed);
    stage.oil();
  }
  const Term P_2 = input("P_2", "power at the driven shaft", e.full.output_power, Quantity::power);
  Term power = P_2;
  for (const Term& part : lost) power = power + part;
  formula::record(working, "eta", "efficiency at full load and the oil's own temperature", Quantity::share, P_2 / power,
                  "derived, definition");
}

}  // namespace lobewise::evidence
