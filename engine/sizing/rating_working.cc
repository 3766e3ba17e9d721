#include <cmath>

#include "engine/drive/thermal.h"
#include "engine/sizing/rater.h"
#include "engine/strength/shaft.h"

namespace lobewise::sizing {

using drive::MeshLevel;

namespace {

constexpr const char* kMesh = "mesh solved at several torques (docs/theory/mesh.md); root found by bracketing";

}  // namespace

void Rater::explain_bearing(const CriterionTorque& criterion, Working& working) const {
  const std::size_t i = criterion.stage;
  const bool eccentric = criterion.criterion == Criterion::eccentric_bearing;
  const strength::RollingBearing& bearing = eccentric ? bearings_[i].eccentric : bearings_[i].input;
  const double speed = eccentric ? eccentric_speed(i) : input_speed(i);
  const bool ball = bearing.element == strength::RollingElement::ball;
  const double load = load_for_life(bearing, speed);
  working.push_back(
      {"P",
       "load at which the bearing lasts as long as asked",
       ball ? "P = C / (h n / 1e6)^(1/3), n in turns an hour" : "P = C / (h n / 1e6)^(3/10), n in turns an hour",
       {{"C", "basic dynamic capacity", bearing.rating.C, Quantity::force},
        {"h", "basic life asked for", conditions_.hours * 3600, Quantity::duration},
        {"n", "relative speed of its rings", speed, Quantity::angular_speed}},
       load,
       Quantity::force,
       "ISO 281 (from memory), docs/theory/life.md"});
  if (!eccentric) {
    const double share = drive::input_bearing_share(stage(i));
    working.push_back({"P_e",
                       "load of an eccentric bearing that puts it on the input bearing",
                       "P_e = P / (s / L)",
                       {{"P", "load of the input bearing", load, Quantity::force},
                        {"s / L", "share of the couple of the discs that each takes", share, Quantity::number}},
                       load / share,
                       Quantity::force,
                       "derived, docs/theory/rating.md"});
  }
  working.push_back({"T",
                     words(criterion.criterion),
                     eccentric ? "B(T) = P" : "B(T) = P_e",
                     {{eccentric ? "P" : "P_e", "equivalent load of an eccentric bearing",
                       tables_[i]->at((eccentric ? tables_[i]->hardest_disc() : 1) * stage_torque(i, criterion.torque),
                                      &MeshLevel::bearing_equivalent),
                       Quantity::force}},
                     criterion.torque,
                     Quantity::torque,
                     kMesh});
}

void Rater::explain(const CriterionTorque& criterion, Working& working) const {
  const std::size_t i = criterion.stage;
  const drive::StageTable& table = *tables_[i];
  const double at = stage_torque(i, criterion.torque);
  const double hard = at * table.hardest_disc();
  const auto mesh_step = [&](std::string formula, std::vector<WorkingInput> inputs, std::string source) {
    working.push_back({"T", words(criterion.criterion), std::move(formula), std::move(inputs), criterion.torque,
                       Quantity::torque, std::move(source)});
  };
  switch (criterion.criterion) {
    case Criterion::lobe_pressure:
      return mesh_step("p_max(T) = p_lim",
                       {{"p_lim", "pressure below which no fatigue is expected in clean oil",
                         strength::kFatigueLimitPressure, Quantity::pressure},
                        {"F", "largest lobe force there", table.at(hard, &MeshLevel::lobe_force), Quantity::force}},
                       std::string("limit behind C_u of ISO 281; ") + kMesh);
    case Criterion::pin_pressure:
      return mesh_step(
          "p_max(T) = p_lim",
          {{"p_lim", "pressure below which no fatigue is expected in clean oil", strength::kFatigueLimitPressure,
            Quantity::pressure},
           {"Q", "largest output pin force there", table.at(hard, &MeshLevel::pin_force), Quantity::force}},
          std::string("limit behind C_u of ISO 281; ") + kMesh);
    case Criterion::pin_bending: {
      const drive::PinLoad pin = drive::hardest_pin(stage(i), table, at);
      return mesh_step(
          stage(i).pins_guided ? "32 (Q L / 2) / (pi d^3) = sigma_lim" : "32 Q L / (pi d^3) = sigma_lim",
          {{"sigma_lim", "bending stress that a hardened pin stands", kPinBendingLimit.nominal, Quantity::pressure},
           {"Q", "largest output pin force there, of the disc that bends it most", pin.force, Quantity::force},
           {"L", "lever of that disc", pin.lever, Quantity::length},
           {"d", "core of the pin", 2 * stage(i).output_pin_radius, Quantity::length}},
          std::string("beam tables; limit: ") + kPinBendingLimit.source);
    }
    case Criterion::eccentric_bearing:
    case Criterion::input_bearing:
      return explain_bearing(criterion, working);
    case Criterion::shaft:
      return mesh_step("T = pi d^3 S_ut / (16 sqrt(3) K_fs n)",
                       {{"d", "shaft end", shaft().diameter, Quantity::length},
                        {"S_ut", "tensile strength", shaft().tensile_strength, Quantity::pressure},
                        {"K_fs", "notch factor of the keyway", strength::kKeywayTorsion.nominal, Quantity::number},
                        {"n", "safety asked for", strength::kShaftSafety.nominal, Quantity::number}},
                       "distortion energy with Goodman's line, docs/theory/shaft.md; steady torque, no bending");
    case Criterion::key:
      return mesh_step(
          "T = p d (h - t1) (l - b) / 2",
          {{"p", "pressure that hub and key of steel stand", strength::kKeyPressureSteel.nominal, Quantity::pressure},
           {"d", "shaft end", shaft().diameter, Quantity::length},
           {"h - t1", "height in the hub", shaft().key_height - shaft().key_shaft_depth, Quantity::length},
           {"l - b", "bearing length", shaft().key_length - shaft().key_width, Quantity::length}},
          strength::kKeyPressureSteel.source);
    case Criterion::heat:
      break;
  }
  const double limit = drive::lubricant_limit(oil_);
  const double power = heat_shed();
  working.push_back(
      {"P_v",
       "heat that the housing sheds for ever",
       "P_v = Q(T_oil - P_v / G)",
       {{"T_oil", "limit of the lubricant", limit, Quantity::temperature},
        {"T_a", "ambient", conditions_.ambient, Quantity::temperature},
        {"v", "air speed over the housing", conditions_.air_speed, Quantity::speed},
        {"A", "outer area", housing().area, Quantity::area},
        {"G", "conductance from oil to housing", housing().oil_conductance, Quantity::thermal_conductance}},
       power,
       Quantity::power,
       "derived, docs/theory/heat.md"});
  mesh_step("P_loss(T, T_oil) = P_v", {{"P_v", "heat shed", power, Quantity::power}},
            "losses by place with the oil at its limit, docs/theory/losses.md");
}

}  // namespace lobewise::sizing
