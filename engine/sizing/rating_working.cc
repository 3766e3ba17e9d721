#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/drive/thermal.h"
#include "engine/heat/housing.h"
#include "engine/sizing/rater.h"
#include "engine/strength/shaft.h"

namespace lobewise::sizing {

using drive::MeshLevel;

namespace {

using namespace formula;

constexpr const char* kMesh = "mesh solved at several torques, straight between them (docs/theory/mesh.md)";
constexpr const char* kHeat = "derived, docs/theory/heat.md";
constexpr const char* kLosses = "losses by place with the oil at its limit, docs/theory/losses.md";
/// How well the torque of a criterion meets its limit, share of it.
constexpr double kMet = 1e-6;

/// A figure of the mesh, straight between the torques at which it was solved, from the origin below the first.
/// @param torque  of the disc  @param of  what is straight: the figure itself, or its square
template <class Of>
Term meshed(const drive::StageTable& table, const Term& torque, const char* symbol, const char* meaning,
            Quantity quantity, double MeshLevel::*member, Of of) {
  const std::string name(symbol);
  const auto at = [&](const char* suffix, const MeshLevel& level) {
    return of(input(name + suffix, meaning, level.*member, quantity));
  };
  const auto solved_at = [](const char* place, const MeshLevel& level) {
    return input(place, "torque at which the mesh was solved", level.torque, Quantity::torque);
  };
  if (torque.value() <= table.levels.front().torque)
    return at("_1", table.levels.front()) * torque / solved_at("T_1", table.levels.front());
  const drive::StageTable::Between b = table.between(torque.value());
  const Term below = solved_at("T_1", *b.below), above = solved_at("T_2", *b.above);
  return lerp(at("_1", *b.below), at("_2", *b.above), (torque - below) / (above - below));
}

Term plain(const Term& x) { return x; }
Term square(const Term& x) { return pow(x, 2.0); }

}  // namespace

/// The torque of a criterion as a symbol, and at the output of its stage.
struct Rater::Found {
  Term output, stage;
};

Rater::Found Rater::found(const CriterionTorque& criterion) const {
  const Term output = input("T", "torque at the output", criterion.torque, Quantity::torque);
  if (criterion.stage + 1 == build_.stages.size()) return {output, output};
  return {output, output * input("k_s", "torque of that stage over the torque at the output",
                                 stage_torque(criterion.stage, criterion.torque) / criterion.torque)};
}

void Rater::close(const CriterionTorque& criterion, const Term& use, const std::string& source,
                  Working& working) const {
  if (criterion.torque < search_end())
    return record_solved(working, "T", words(criterion.criterion), Quantity::torque, criterion.torque, use - 1.0, kMet,
                         source);
  record(working, "T", words(criterion.criterion), Quantity::torque,
         input("k_e", "end of the search", kSearchEnd) *
             input("T_r", "reference torque", tables_.back()->reference_torque, Quantity::torque),
         "no limit of this build: the search ends here");
}

void Rater::explain_bearing(const CriterionTorque& criterion, Working& working) const {
  const std::size_t i = criterion.stage;
  const bool eccentric = criterion.criterion == Criterion::eccentric_bearing;
  const strength::RollingBearing& bearing = eccentric ? bearings_[i].eccentric : bearings_[i].input;
  const double speed = eccentric ? eccentric_speed(i) : input_speed(i);
  const Term turns = input("h", "basic life asked for", conditions_.hours * 3600, Quantity::duration) *
                     input("n", "relative speed of its rings", speed, Quantity::angular_speed) / (2.0 * pi<Term>());
  const double exponent =
      bearing.element == strength::RollingElement::ball ? strength::kBallExponent : strength::kRollerExponent;
  Term limit = record(working, "P", "load at which the bearing lasts as long as asked", Quantity::force,
                      input("C", "basic dynamic capacity", bearing.rating.C, Quantity::force) /
                          pow(turns / 1e6, 1.0 / input("p", "exponent of its life", exponent)),
                      "ISO 281 (from memory), docs/theory/life.md");
  if (!eccentric)
    limit = record(
        working, "P_e", "load of an eccentric bearing that puts it on the input bearing", Quantity::force,
        limit / input("s", "share of the couple of the discs that each takes", drive::input_bearing_share(stage(i))),
        "derived, docs/theory/rating.md");
  const Term torque = found(criterion).stage;
  close(criterion,
        meshed(*tables_[i], eccentric ? torque * hardest_disc(i) : torque, "B",
               "equivalent load of an eccentric bearing", Quantity::force, &MeshLevel::bearing_equivalent, plain) /
            limit,
        kMesh, working);
}

Term Rater::hardest_disc(std::size_t i) const {
  return input("k_d", "load of the disc that carries most over the mean", tables_[i]->hardest_disc());
}

void Rater::explain_pressure(const CriterionTorque& criterion, double MeshLevel::*member, Working& working) const {
  const std::size_t i = criterion.stage;
  const Term limit = input("p_lim", "pressure below which no fatigue is expected in clean oil",
                           strength::kFatigueLimitPressure, Quantity::pressure);
  close(criterion,
        meshed(*tables_[i], found(criterion).stage * hardest_disc(i), "p", "largest pressure there", Quantity::pressure,
               member, square) /
            square(limit),
        std::string("limit behind C_u of ISO 281; squares of the pressure; ") + kMesh, working);
}

void Rater::explain_pins(const CriterionTorque& criterion, Working& working) const {
  const std::size_t i = criterion.stage;
  const drive::StageTable& table = *tables_[i];
  const drive::PinLoad pin = drive::hardest_pin(stage(i), table, stage_torque(i, criterion.torque));
  const Term share = input("k_d", "load of the disc that bends it most over the mean",
                           table.disc_loads.empty() ? 1 : table.disc_loads[static_cast<std::size_t>(pin.disc)]);
  const Term force = meshed(table, found(criterion).stage * share, "Q", "largest output pin force there",
                            Quantity::force, &MeshLevel::pin_force, plain);
  const Term lever = stage(i).pins_guided ? input("l", "half the lever of that disc: the far end is guided",
                                                  pin.lever / 2, Quantity::length)
                                          : input("l", "lever of that disc", pin.lever, Quantity::length);
  const Term core = input("d", "core of the pin", 2 * stage(i).output_pin_radius, Quantity::length);
  close(
      criterion,
      32.0 * force * lever / (pi<Term>() * pow(core, 3.0)) /
          input("sigma_lim", "bending stress that a hardened pin stands", kPinBendingLimit.nominal, Quantity::pressure),
      std::string("beam tables; limit: ") + kPinBendingLimit.source, working);
}

void Rater::explain_heat(const CriterionTorque& criterion, Working& working) const {
  const heat::Housing body = housing();
  const double power = heat_shed();
  const Term shed = input("P_v", "heat that the housing sheds for ever", power, Quantity::power),
             oil = input("T_oil", "limit of the lubricant", drive::lubricant_limit(oil_), Quantity::temperature),
             air = input("T_a", "ambient", conditions_.ambient, Quantity::temperature),
             through =
                 input("G", "conductance from oil to housing", body.oil_conductance, Quantity::thermal_conductance);
  const Term wall =
      named("T_h", "housing with the oil at its limit", Quantity::temperature, oil - shed / through, kHeat);
  const heat::HeatFlow flow = heat::heat_flow(body, wall.value());
  const double rise = wall.value() - conditions_.ambient;
  const Term leaves =
      input("G_a", "convection with its ribs", rise != 0 ? flow.convection / rise : 0, Quantity::thermal_conductance) *
          (wall - air) +
      input("eps", "emissivity", body.emissivity) * input("sigma", "Stefan-Boltzmann constant", kStefanBoltzmann) *
          input("A", "outer area", body.area, Quantity::area) * (pow(wall, 4.0) - pow(air, 4.0)) +
      input("G_b", "to base and motor", body.flange_conductance, Quantity::thermal_conductance) * (wall - air);
  if (power > 0)
    record_solved(working, "P_v", "heat that the housing sheds for ever", Quantity::power, power, leaves - shed,
                  kMet * body.oil_conductance * (oil.value() - air.value()), kHeat);
  else
    record(working, "P_v", "heat that the housing sheds for ever: its surroundings are hotter", Quantity::power,
           max(0.0, oil - air) * through, kHeat);
  if (!(criterion.torque > 0)) {
    const Term idle = input("P_0", "losses without load", losses(0).places.total(), Quantity::power);
    const Term most = input("T_e", "end of the search", search_end(), Quantity::torque);
    record(working, "T", words(criterion.criterion), Quantity::torque,
           choose(
               less_or_equal(shed, idle), [] { return Term(0.0); }, [&] { return most; }),
           std::string("none is left where idling makes more heat than is shed; ") + kLosses);
    return;
  }
  const double lost = losses(criterion.torque).places.total(), speed = conditions_.input_speed / build_.ratio();
  const double carried = criterion.torque * speed;
  const Term efficiency = input("eta", "efficiency there, losses by place with the oil at its limit",
                                carried / (carried + lost), Quantity::share);
  close(criterion,
        found(criterion).output * input("w", "output speed", speed, Quantity::angular_speed) *
            (1.0 / efficiency - 1.0) / shed,
        kLosses, working);
}

void Rater::explain(const CriterionTorque& criterion, Working& working) const {
  switch (criterion.criterion) {
    case Criterion::lobe_pressure:
      return explain_pressure(criterion, &MeshLevel::lobe_pressure, working);
    case Criterion::pin_pressure:
      return explain_pressure(criterion, &MeshLevel::pin_pressure, working);
    case Criterion::pin_bending:
      return explain_pins(criterion, working);
    case Criterion::eccentric_bearing:
    case Criterion::input_bearing:
      return explain_bearing(criterion, working);
    case Criterion::heat:
      return explain_heat(criterion, working);
    case Criterion::shaft:
    case Criterion::key:
      break;
  }
  const Term diameter = input("d", "shaft end", shaft().diameter, Quantity::length);
  if (criterion.criterion == Criterion::shaft) {
    const Term strength = input("S_ut", "tensile strength", shaft().tensile_strength, Quantity::pressure),
               notch = input("K_fs", "notch factor of the keyway", strength::kKeywayTorsion.nominal),
               safety = input("n", "safety asked for", strength::kShaftSafety.nominal);
    record(working, "T", words(criterion.criterion), Quantity::torque,
           pi<Term>() * pow(diameter, 3.0) * strength / (16.0 * sqrt(Term(3.0)) * notch * safety),
           "distortion energy with Goodman's line, docs/theory/shaft.md; steady torque, no bending");
    return;
  }
  const Term pressure = input("p", "pressure that hub and key of steel stand", strength::kKeyPressureSteel.nominal,
                              Quantity::pressure),
             height = input("h", "height of the key", shaft().key_height, Quantity::length),
             depth = input("t_1", "its depth in the shaft", shaft().key_shaft_depth, Quantity::length),
             length = input("l", "its length", shaft().key_length, Quantity::length),
             width = input("b", "its width, round ends", shaft().key_width, Quantity::length);
  record(working, "T", words(criterion.criterion), Quantity::torque,
         pressure * diameter * (height - depth) * (length - width) / 2.0, strength::kKeyPressureSteel.source);
}

}  // namespace lobewise::sizing
