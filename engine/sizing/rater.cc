#include "engine/sizing/rater.h"

#include <algorithm>
#include <cmath>

#include "engine/base/root.h"
#include "engine/drive/thermal.h"
#include "engine/mechanism/kinematics.h"
#include "engine/range/bearing.h"
#include "engine/strength/shaft.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::sizing {
namespace {

using drive::MeshLevel;

/// Precision of a torque, share of it.
constexpr double kPrecision = 1e-9;
/// Input speeds this little above what a stage stands are the same speed written differently.
constexpr double kSameSpeed = 1e-6;

}  // namespace

Result<Rater> Rater::make(const drive::Build& build, const Tables& tables, const RatingConditions& conditions) {
  const Result<drive::Oil> oil = drive::oil_of(build.frame().lubricants.front());
  if (!oil) return oil.errors();
  Rater rater(build, tables, conditions, *oil);
  for (const drive::StageRef& ref : build.stages) {
    const auto eccentric = range::rolling_bearing(ref.stage->eccentric_bearing, "eccentric_bearing");
    if (!eccentric) return eccentric.errors();
    const auto input = range::rolling_bearing(ref.stage->input_bearing, "input_bearing");
    if (!input) return input.errors();
    rater.bearings_.push_back({*eccentric, *input});
  }
  return rater;
}

bool Rater::too_fast() const {
  for (std::size_t i = 0; i < build_.stages.size(); ++i)
    if (input_speed(i) > stage(i).max_input_speed * (1 + kSameSpeed)) return true;
  return false;
}

std::vector<CriterionTorque> Rater::criteria() const {
  std::vector<CriterionTorque> out;
  for (std::size_t i = 0; i < build_.stages.size(); ++i) add_stage(i, out);
  const std::size_t last = build_.stages.size() - 1;
  strength::FatigueLoad unit;
  unit.torque_mean = 1;
  // Without bending the endurance limit does not count: 1/n = sigma_m/S_ut, in proportion to torque.
  const double S_ut = shaft().tensile_strength;
  out.push_back({Criterion::shaft, last,
                 strength::goodman_safety(unit, shaft().diameter, S_ut, S_ut) / strength::kShaftSafety.nominal});
  if (shaft().key_length > 0)
    out.push_back(
        {Criterion::key, last,
         strength::kKeyPressureSteel.nominal / strength::parallel_key(key(), 1, shaft().diameter).hub_pressure});
  out.push_back({Criterion::heat, last, heat_torque()});
  return out;
}

double Rater::input_speed(std::size_t i) const {
  double speed = conditions_.input_speed;
  for (std::size_t k = 0; k < i; ++k) speed /= stage(k).geometry.lobes;
  return speed;
}

double Rater::eccentric_speed(std::size_t i) const {
  return input_speed(i) * mechanism::eccentric_bearing_speed(stage(i).geometry);
}

double Rater::stage_torque(std::size_t i, double torque) const {
  return i + 1 == build_.stages.size() ? torque : losses(torque).stages[i].torque;
}

double Rater::load_for_life(const strength::RollingBearing& bearing, double speed) const {
  const double exponent =
      bearing.element == strength::RollingElement::ball ? strength::kBallExponent : strength::kRollerExponent;
  return bearing.rating.C / std::pow(conditions_.hours * 3600 * speed / (2 * kPi) / 1e6, 1 / exponent);
}

strength::ParallelKey Rater::key() const {
  return {shaft().key_width, shaft().key_height, shaft().key_shaft_depth, shaft().key_length, true};
}

drive::RunningLosses Rater::losses(double torque) const {
  drive::Running running;
  running.torque = torque;
  running.speed = conditions_.input_speed / build_.ratio();
  return drive::running_losses(build_, tables_, oil_, running, drive::lubricant_limit(oil_), drive::Coefficients{});
}

heat::Housing Rater::housing() const {
  const range::Housing& body = build_.frame().housing;
  heat::Housing housing;
  housing.diameter = body.diameter;
  housing.area = body.area;
  housing.emissivity = body.emissivity;
  housing.ambient_temperature = conditions_.ambient;
  housing.air_speed = conditions_.air_speed;
  housing.oil_conductance = body.oil_conductance;
  housing.flange_conductance = body.flange_conductance;
  housing.fin_factor = body.fin_factor;
  return housing;
}

double Rater::heat_shed() const {
  const heat::Housing body = housing();
  const double oil = drive::lubricant_limit(oil_);
  const auto surplus = [&](double power) {
    return power - heat::heat_flow(body, oil - power / body.oil_conductance).net();
  };
  const double none = surplus(0);
  if (none >= 0) return 0;
  const double most = body.oil_conductance * (oil - conditions_.ambient);  // a housing as cold as its surroundings
  return bracketed_root(surplus, 0, most, none, surplus(most), kPrecision * most);
}

double Rater::torque_where(FunctionRef<double(double)> use) const {
  double low = 0;
  double high = tables_.back()->reference_torque;
  const double end = search_end();
  while (use(high) < 1) {
    if (high >= end) return end;
    low = high;
    high *= 2;
  }
  const auto over = [&](double torque) { return use(torque) - 1; };
  return bracketed_root(over, low, high, low > 0 ? over(low) : -1, over(high), kPrecision * high);
}

void Rater::add_stage(std::size_t i, std::vector<CriterionTorque>& out) const {
  const drive::StageTable& table = *tables_[i];
  const double hard = table.hardest_disc();
  const auto add = [&](Criterion criterion, FunctionRef<double(double)> use) {
    out.push_back({criterion, i, torque_where([&](double torque) { return use(stage_torque(i, torque)); })});
  };
  add(Criterion::lobe_pressure, [&](double torque) {
    return table.pressure_at(hard * torque, &MeshLevel::lobe_pressure) / strength::kFatigueLimitPressure;
  });
  add(Criterion::pin_pressure, [&](double torque) {
    return table.pressure_at(hard * torque, &MeshLevel::pin_pressure) / strength::kFatigueLimitPressure;
  });
  add(Criterion::pin_bending, [&](double torque) {
    return drive::hardest_pin(stage(i), table, torque).stress / strength::kPinBendingLimit.nominal;
  });
  const double eccentric = load_for_life(bearings_[i].eccentric, eccentric_speed(i));
  add(Criterion::eccentric_bearing,
      [&](double torque) { return table.at(hard * torque, &MeshLevel::bearing_equivalent) / eccentric; });
  const double input = load_for_life(bearings_[i].input, input_speed(i)) / drive::input_bearing_share(stage(i));
  add(Criterion::input_bearing,
      [&](double torque) { return table.at(torque, &MeshLevel::bearing_equivalent) / input; });
}

double Rater::heat_torque() const {
  const double allowed = heat_shed();
  const auto use = [&](double torque) { return losses(torque).places.total() / allowed; };
  if (allowed <= 0 || use(0) >= 1) return 0;
  return torque_where(use);
}

}  // namespace lobewise::sizing
