#include "engine/strength/stage_life.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/contact/hertz.h"
#include "engine/contact/lubricant.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"

namespace lobewise::strength {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

double power8(double x) { return x * x * x * x * x * x * x * x; }

/// What one block does to one part.
struct BlockLife {
  double hours = kInfinite;  ///< basic life of one part
  double kappa = 0;
  LifeFactor factor{kLifeFactorMax, false};
  bool overloaded = false;
  double load = 0, pressure = 0;
  double static_safety = kInfinite;
};

/// Adds up the blocks of one place.
class PlaceSum {
 public:
  PlaceSum(Place place, double count, double weibull, int index = 0) {
    life_.place = place;
    life_.index = index;
    life_.count = count;
    life_.weibull = weibull;
    life_.kappa = life_.life_factor = life_.static_safety = kInfinite;
  }
  void add(double time_share, const BlockLife& block) {
    life_.static_safety = std::min(life_.static_safety, block.static_safety);
    life_.load = std::max(life_.load, block.load);
    life_.pressure = std::max(life_.pressure, block.pressure);
    if (std::isinf(block.hours)) return;
    basic_damage_ += time_share / block.hours;
    modified_damage_ += time_share / (block.hours * block.factor.value);
    life_.kappa = std::min(life_.kappa, block.kappa);
    life_.life_factor = std::min(life_.life_factor, block.factor.value);
    life_.outside_model |= block.factor.outside_model;
    life_.overloaded |= block.overloaded;
  }
  /// Modified life of all parts with 90 %.
  [[nodiscard]] double modified_90() const {
    return 1 / modified_damage_ * std::pow(life_.count, -1 / kWeibullModified);
  }
  [[nodiscard]] PlaceLife finish(double reliability) const {
    PlaceLife life = life_;
    life.part_hours = 1 / basic_damage_;
    life.basic_hours = life.part_hours * std::pow(life.count, -1 / life.weibull);
    life.modified_hours = reliability_factor(reliability) * modified_90();
    return life;
  }

 private:
  PlaceLife life_;
  double basic_damage_ = 0, modified_damage_ = 0;
};

/// Pressures that do the same damage as the pressures of a flank cycle.
struct FlankPressures {
  double disc = 0;    ///< (mean p^9)^(1/9) over the flank
  double roller = 0;  ///< (mean p^8)^(1/8) over the passes
};
FlankPressures flank_pressures(const StageLifeModel& model, std::span<const double> flank, double largest) {
  const mechanism::Profile profile(model.stage);
  const double modulus = contact::contact_modulus(model.material, model.material);
  const double step = 2 * kPi / static_cast<double>(flank.size());
  double sum8 = 0, sum9 = 0, length = 0;
  for (std::size_t j = 0; j < flank.size(); ++j) {
    const double t = step * (static_cast<double>(j) + 0.5) / model.stage.lobes;
    const double speed = mechanism::norm(profile.point_derivative(t));
    length += speed;
    if (flank[j] <= 0) continue;
    const double radius = contact::effective_radius(1 / model.stage.roller_radius, profile.curvature(t));
    const double p = contact::hertz_pressure(flank[j] / model.stage.width, radius, modulus) / largest;
    const double p8 = power8(p) * speed;
    sum8 += p8;
    sum9 += p8 * p;
  }
  return {largest * std::pow(sum9 / length, 1.0 / 9), largest * std::pow(sum8 / length, 1.0 / 8)};
}

FlankPressures pin_pressures(std::span<const double> pins, const contact::HardContact& hardest) {
  double sum8 = 0, sum9 = 0;
  for (const double Q : pins) {
    const double p = std::sqrt(Q / hardest.force), p8 = power8(p);
    sum8 += p8;
    sum9 += p8 * p;
  }
  const double n = static_cast<double>(pins.size());
  return {hardest.pressure * std::pow(sum9 / n, 1.0 / 9), hardest.pressure * std::pow(sum8 / n, 1.0 / 8)};
}

/// @param millions  life of one part in counted revolutions
BlockLife line_block(const StageLifeModel& model, const LifeBlock& block, const contact::HardContact& hardest,
                     double millions, double pressure) {
  const double speed = block.input_speed * model.mesh_share;
  BlockLife life;
  if (hardest.force <= 0) return life;
  life.pressure = hardest.pressure;
  life.static_safety = static_safety(hardest.pressure);
  if (speed <= 0) return life;
  const double film = contact::line_film(
      {hardest.entrainment * speed, hardest.radius, 2 * contact::contact_modulus(model.material, model.material),
       block.oil.pressure_viscosity, block.oil.dynamic_viscosity, hardest.load_per_length});
  life.kappa = contact::viscosity_ratio_of_film(film / block.oil.roughness);
  life.factor = life_factor(RollingElement::roller, life.kappa, contact_limit_ratio(pressure, model.contamination));
  life.hours = life_hours(millions * 1e6, speed);
  return life;
}

BlockLife bearing_block(const StageLifeModel& model, const LifeBlock& block, const RollingBearing& bearing, double P,
                        double speed) {
  BlockLife life;
  if (P <= 0) return life;
  life.load = P;
  life.static_safety = bearing.rating.C_0 / P;
  if (speed <= 0) return life;
  life.kappa = contact::viscosity_ratio(block.nu, speed, bearing.pitch_diameter);
  const BearingLife result = bearing_life(bearing, P, speed, {life.kappa, model.contamination, 0.9});
  life.hours = result.basic_hours;
  life.factor = result.factor;
  life.overloaded = result.overloaded;
  return life;
}

}  // namespace

StageLife stage_life(const StageLifeModel& model, std::span<const LifeBlock> blocks) {
  const mechanism::StageGeometry& stage = model.stage;
  const double discs = stage.discs;
  const bool has_pins = stage.pins > 0;
  PlaceSum flanks(Place::disc_flanks, discs, kWeibullLine);
  PlaceSum rollers(Place::ring_rollers, discs * stage.rollers(), kWeibullLine);
  PlaceSum holes(Place::holes, discs * stage.pins, kWeibullLine);
  PlaceSum sleeves(Place::output_sleeves, discs * stage.pins, kWeibullLine);
  PlaceSum eccentrics(Place::eccentric_bearings, discs, kWeibullLine);
  std::vector<PlaceSum> shafts;
  for (std::size_t i = 0; i < model.shaft_bearings.size(); ++i) {
    const bool ball = model.shaft_bearings[i].bearing.element == RollingElement::ball;
    shafts.emplace_back(Place::shaft_bearing, 1.0, ball ? kWeibullPoint : kWeibullLine, static_cast<int>(i));
  }

  for (const LifeBlock& block : blocks) {
    const contact::CycleForces& forces = *block.forces;
    const contact::HardContact lobe =
        contact::hardest_lobe_contact(stage, forces.flank, model.material, model.rollers_turn);
    if (lobe.force > 0) {
      const LobeLife life = lobe_life(stage, forces.flank, model.line_factor);
      const FlankPressures p = flank_pressures(model, forces.flank, lobe.pressure);
      flanks.add(block.time_share, line_block(model, block, lobe, life.disc, p.disc));
      const double roller =
          model.rollers_turn ? life.roller_free : fixed_roller_life(stage, forces.flank, model.line_factor);
      rollers.add(block.time_share, line_block(model, block, lobe, roller, model.rollers_turn ? p.roller : p.disc));
    }
    const contact::HardContact pin =
        contact::hardest_pin_contact(stage, forces.pins, model.material, model.sleeves_turn);
    if (pin.force > 0) {
      const PinLife life = output_pin_life(stage, forces.pins, model.line_factor);
      const FlankPressures p = pin_pressures(forces.pins, pin);
      holes.add(block.time_share, line_block(model, block, pin, life.hole, p.disc));
      if (model.sleeves_turn) sleeves.add(block.time_share, line_block(model, block, pin, life.sleeve, p.roller));
    }
    const double mesh_speed = block.input_speed * model.mesh_share;
    eccentrics.add(block.time_share, bearing_block(model, block, model.eccentric, equivalent_load(forces.bearing),
                                                   mesh_speed * mechanism::eccentric_bearing_speed(stage)));
    for (std::size_t i = 0; i < shafts.size(); ++i) {
      const ShaftBearing& shaft = model.shaft_bearings[i];
      shafts[i].add(block.time_share, bearing_block(model, block, shaft.bearing, block.shaft_loads[i],
                                                    block.input_speed * shaft.speed_share));
    }
  }

  StageLife result;
  std::vector<SystemPart> basic, modified;
  const auto take = [&](const PlaceSum& sum) {
    result.places.push_back(sum.finish(model.reliability));
    const PlaceLife& life = result.places.back();
    basic.push_back({life.part_hours, life.weibull, life.count});
    modified.push_back({sum.modified_90(), kWeibullModified, 1});
  };
  take(flanks);
  take(rollers);
  if (has_pins) take(holes);
  if (has_pins && model.sleeves_turn) take(sleeves);
  take(eccentrics);
  for (const PlaceSum& shaft : shafts) take(shaft);
  result.basic_hours = system_life(basic);
  result.modified_hours = system_life(modified);
  return result;
}

}  // namespace lobewise::strength
