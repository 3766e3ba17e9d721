#include "engine/incumbent/gear_unit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/constants.h"
#include "engine/incumbent/cycloidal_unit.h"
#include "engine/incumbent/stage_design.h"
#include "engine/incumbent/unit_estimates.h"
#include "engine/incumbent/unit_heat.h"

namespace lobewise::incumbent {
namespace {

constexpr double kMaxPairRatio = 7;       ///< of one helical pair; common practice, no source
constexpr double kMaxPlanetaryRatio = 9;  ///< planets would touch above about 12; common practice, no source
constexpr double kMinPlanetaryRatio = 3;
constexpr double kMaxWormRatio = 70;
constexpr double kDefaultBeltRatio = 2;
constexpr double kBeltTensionRatio = 5;   ///< tight over slack tension of V-belts; Mott, from memory
constexpr double kRatioTolerance = 0.06;  ///< of a designed set against the ratio asked for

struct StagePlan {
  StageKind kind;
  double ratio;
};

Errors check(const UnitInService& unit, const UnitDuty& duty) {
  Errors errors;
  const auto positive = [&](double value, const char* path, const char* what) {
    if (!(value > 0 && std::isfinite(value))) {
      errors.push_back(input_error(path, std::to_string(value), std::string(what) + " must be positive."));
    }
  };
  positive(duty.output_torque, "output_torque", "The working torque");
  positive(duty.output_speed, "output_speed", "The output speed");
  positive(duty.input_speed, "input_speed", "The motor speed");
  positive(duty.service_time, "service_time", "The life asked for");
  positive(duty.ambient, "ambient", "The absolute ambient temperature");
  if (!(duty.service_factor >= 1 && duty.service_factor <= 4)) {
    errors.push_back(
        input_error("service_factor", std::to_string(duty.service_factor), "The service factor lies between 1 and 4."));
  }
  if (!(duty.peak_ratio >= 1)) {
    errors.push_back(
        input_error("peak_ratio", std::to_string(duty.peak_ratio), "The worst torque is at least the working torque."));
  }
  const double ratio = unit.ratio.value_or(duty.input_speed / duty.output_speed);
  if (!(ratio >= 1.2 && ratio <= 1000)) {
    errors.push_back(input_error("ratio", std::to_string(ratio), "The ratio of the unit lies between 1.2 and 1000."));
  }
  if (unit.rated_torque) {
    positive(*unit.rated_torque, "rated_torque", "The nameplate torque");
  }
  if (unit.rated_power) {
    positive(*unit.rated_power, "rated_power", "The nameplate power");
  }
  if (unit.oil_viscosity) {
    positive(*unit.oil_viscosity, "oil_viscosity", "The viscosity");
  }
  if (unit.belt_pulley) {
    positive(*unit.belt_pulley, "belt_pulley", "The pulley diameter");
  }
  if (unit.mass) {
    positive(*unit.mass, "mass", "The mass");
  }
  if (unit.stages && (*unit.stages < 1 || *unit.stages > 3)) {
    errors.push_back(input_error("stages", std::to_string(*unit.stages), "A geared unit has 1 to 3 stages."));
  }
  if (unit.belt_ratio && !(*unit.belt_ratio >= 1 && *unit.belt_ratio <= 6)) {
    errors.push_back(
        input_error("belt_ratio", std::to_string(*unit.belt_ratio), "A belt changes the speed by 1 to 6."));
  }
  return errors;
}

/// Splits a ratio over helical pairs so that the gears stay small; Niemann, Maschinenelemente II, from memory.
std::vector<StagePlan> helical_plan(double ratio, int stages) {
  if (stages == 1) {
    return {{StageKind::helical, ratio}};
  }
  if (stages == 2) {
    const double first = std::clamp(0.8 * std::pow(ratio, 2.0 / 3), std::sqrt(ratio), kMaxPairRatio);
    return {{StageKind::helical, first}, {StageKind::helical, ratio / first}};
  }
  const double first = std::min(kMaxPairRatio, std::max(0.6 * std::pow(ratio, 4.0 / 7), std::cbrt(ratio)));
  const double second = std::min(kMaxPairRatio, 1.1 * std::pow(ratio, 2.0 / 7));
  return {{StageKind::helical, first}, {StageKind::helical, second}, {StageKind::helical, ratio / first / second}};
}

int stages_for(double ratio, double one, double two) { return ratio <= one ? 1 : ratio <= two ? 2 : 3; }

Result<std::vector<StagePlan>> plan_stages(const UnitInService& unit, double ratio) {
  std::vector<StagePlan> plan;
  double gear_ratio = ratio;
  if (unit.kind == UnitKind::belt_and_gear || unit.belt_ratio) {
    const double belt = unit.belt_ratio.value_or(std::min(kDefaultBeltRatio, ratio / 1.2));
    plan.push_back({StageKind::belt, belt});
    gear_ratio /= belt;
  }
  const auto out_of_reach = [&](const char* message) {
    return input_error("ratio", format_number(ratio, 4),
                       unit.stages ? fmt::format("{} Stages said: {}.", message, *unit.stages) : message);
  };
  switch (unit.kind) {
    case UnitKind::helical_in_line:
    case UnitKind::parallel_shaft:
    case UnitKind::belt_and_gear: {
      const int stages = unit.stages.value_or(stages_for(gear_ratio, 3, 45));
      if (gear_ratio < 1.1 || gear_ratio > std::pow(kMaxPairRatio, stages)) {
        return out_of_reach("Helical pairs reach about 7 per stage: more stages are needed, or the ratio is misread.");
      }
      for (const StagePlan& stage : helical_plan(gear_ratio, stages)) {
        plan.push_back(stage);
      }
      break;
    }
    case UnitKind::bevel_helical: {
      const int stages = unit.stages.value_or(gear_ratio <= 4 ? 1 : gear_ratio <= 18 ? 2 : 3);
      const double bevel = stages == 1   ? gear_ratio
                           : stages == 2 ? std::clamp(0.6 * std::sqrt(gear_ratio), 1.0, 3.5)
                                         : std::clamp(0.6 * std::cbrt(gear_ratio), 1.0, 3.5);
      if (gear_ratio / bevel > std::pow(kMaxPairRatio, stages - 1) || (stages == 1 && gear_ratio > 5)) {
        return out_of_reach("Bevel-helical units reach about 3.5 in the bevel stage and 7 in each helical one.");
      }
      plan.push_back({StageKind::bevel, bevel});
      if (stages > 1) {
        for (const StagePlan& stage : helical_plan(gear_ratio / bevel, stages - 1)) {
          plan.push_back(stage);
        }
      }
      break;
    }
    case UnitKind::worm: {
      if (gear_ratio < 5 || gear_ratio > kMaxWormRatio * kMaxPairRatio) {
        return out_of_reach("Worm units reach 5 to 70, with a helical stage in front up to 490.");
      }
      if (gear_ratio > kMaxWormRatio || unit.stages.value_or(1) > 1) {
        const double front = std::clamp(gear_ratio / 30, 1.5, kMaxPairRatio);
        plan.push_back({StageKind::helical, front});
        plan.push_back({StageKind::worm, gear_ratio / front});
      } else {
        plan.push_back({StageKind::worm, gear_ratio});
      }
      break;
    }
    case UnitKind::planetary: {
      const int stages = unit.stages.value_or(stages_for(gear_ratio, kMaxPlanetaryRatio, 81));
      const double each = std::pow(gear_ratio, 1.0 / stages);
      if (each < kMinPlanetaryRatio || each > kMaxPlanetaryRatio) {
        return out_of_reach("Simple planetary stages reach 3 to 9 each.");
      }
      plan.insert(plan.end(), static_cast<std::size_t>(stages), {StageKind::planetary, each});
      break;
    }
    case UnitKind::cycloidal:
      break;
  }
  return plan;
}

Error no_gears(StageKind kind) {
  return model_error(
      "rated_torque", "",
      std::string("No ") + name(kind) + " stage of standard modules carries this duty: check torque and ratio.");
}

/// Builds the gears of one stage at the design torque.
Result<UnitStage> design_stage(StageKind kind, const StageDemand& demand, double design_output_torque,
                               std::optional<double> centre_distance) {
  UnitStage stage;
  stage.kind = kind;
  stage.ratio = demand.ratio;
  stage.input_speed = demand.pinion_speed;
  switch (kind) {
    case StageKind::belt:
      return stage;
    case StageKind::helical: {
      std::optional<PairGeometry> pair = design_helical(demand, centre_distance);
      if (!pair) {
        pair = design_helical(demand, std::nullopt);
      }
      if (!pair) {
        return no_gears(kind);
      }
      stage.pair = *pair;
      stage.ratio = pair->ratio;
      return stage;
    }
    case StageKind::bevel: {
      const std::optional<BevelDesign> bevel = design_bevel(demand);
      if (!bevel) {
        return no_gears(kind);
      }
      stage.bevel = *bevel;
      stage.pair = bevel->virtual_pair;
      stage.ratio = static_cast<double>(bevel->wheel_teeth) / bevel->pinion_teeth;
      return stage;
    }
    case StageKind::worm: {
      const std::optional<WormGeometry> worm = design_worm(demand, design_output_torque);
      if (!worm) {
        return no_gears(kind);
      }
      stage.worm = *worm;
      stage.ratio = worm->ratio;
      return stage;
    }
    case StageKind::planetary: {
      const std::optional<PlanetaryDesign> design = design_planetary(demand);
      if (!design) {
        return no_gears(kind);
      }
      stage.planetary = *design;
      stage.pair = design->sun_planet;
      stage.ratio =
          1 + static_cast<double>(design->planet_ring.pair.wheel.teeth) / design->sun_planet.pair.pinion.teeth;
      return stage;
    }
  }
  return no_gears(kind);
}

/// Tooth pairs a worm wheel has in contact: rack and wheel in the mid plane.
double worm_contact_ratio(const WormGeometry& g) {
  const double alpha = std::atan(std::tan(g.pair.normal_angle) / std::cos(g.lead_angle));
  const double r = g.wheel_diameter / 2;
  const double tip = r + g.module;
  const double base = r * std::cos(alpha);
  const double path = std::sqrt(tip * tip - base * base) - r * std::sin(alpha) + g.module / std::sin(alpha);
  return path / (kPi * g.module * std::cos(alpha));
}

/// Everything of a stage that depends on the working torque.
void evaluate(UnitStage& stage, const GearMaterial& material, const UnitDuty& duty, double viscosity) {
  const double root_peak = std::sqrt(duty.peak_ratio);
  const auto take = [&](const PairRating& rating) {
    stage.contact_stress = std::max(stage.contact_stress, rating.contact_stress);
    stage.bending_stress =
        std::max({stage.bending_stress.value_or(0), rating.bending_stress_pinion, rating.bending_stress_wheel});
    const double limit = std::min(rating.static_bending_ratio, rating.static_contact_ratio);
    stage.static_ratio = std::min(stage.static_ratio.value_or(limit), limit);
  };
  switch (stage.kind) {
    case StageKind::belt:
      break;
    case StageKind::helical: {
      PairDuty pair;
      pair.pinion_torque = stage.input_torque;
      pair.pinion_speed = stage.input_speed;
      pair.service_time = duty.service_time;
      stage.rating = rate_pair(*stage.pair, material, pair);
      take(*stage.rating);
      stage.mean_pairs = stage.pair->total_contact_ratio();
      stage.tooth_loss = tooth_loss_share(*stage.pair, stage.rating->forces.tangential, stage.input_speed, viscosity);
      break;
    }
    case StageKind::bevel: {
      const PairDuty pair = bevel_duty(*stage.bevel, stage.input_torque, stage.input_speed, duty.service_time);
      stage.rating = rate_pair(*stage.pair, material, pair);
      take(*stage.rating);
      stage.mean_pairs = stage.pair->total_contact_ratio();
      stage.tooth_loss = tooth_loss_share(*stage.pair, stage.rating->forces.tangential, pair.pinion_speed, viscosity);
      break;
    }
    case StageKind::worm:
      stage.worm_rating = rate_worm(*stage.worm, stage.input_torque * stage.ratio, stage.input_speed);
      stage.contact_stress = stage.worm_rating->contact_stress;
      stage.mean_pairs = worm_contact_ratio(*stage.worm);
      stage.tooth_loss = 1 - stage.worm_rating->efficiency;
      break;
    case StageKind::planetary: {
      const PlanetaryDesign& design = *stage.planetary;
      const PairDuty sun = sun_duty(design, stage.input_torque, stage.input_speed, duty.service_time);
      const PairDuty ring = ring_duty(design, stage.input_torque, stage.input_speed, duty.service_time);
      stage.rating = rate_pair(design.sun_planet, material, sun);
      stage.ring_rating = rate_pair(design.planet_ring, material, ring);
      take(*stage.rating);
      take(*stage.ring_rating);
      stage.mean_pairs = design.planets * design.sun_planet.contact_ratio;
      // Only the power that rolls through the meshes loses; the part carried round by the carrier does not.
      const double rolling = 1 - 1 / stage.ratio;
      stage.tooth_loss =
          rolling *
          (tooth_loss_share(design.sun_planet, stage.rating->forces.tangential, sun.pinion_speed, viscosity) +
           tooth_loss_share(design.planet_ring, stage.ring_rating->forces.tangential, ring.pinion_speed, viscosity));
      break;
    }
  }
  stage.peak_contact_stress = stage.contact_stress * root_peak;
  if (stage.bending_stress) {
    stage.peak_bending_stress = *stage.bending_stress * duty.peak_ratio;
  }
}

/// Life of an involute stage on the duty's parts: damage adds up, 1/L = sum q/L(T). Palmgren-Miner; infinity where no
/// part ends it.
double stage_life(const UnitStage& stage, const GearMaterial& material, const UnitDuty& duty) {
  double damage = 0;  // a second
  const auto add = [&](const PairGeometry& pair, const PairDuty& at, double share) {
    const PairRating rating = rate_pair(pair, material, at);
    const double life = std::min(rating.contact_life, rating.bending_life);
    if (std::isfinite(life)) damage += share / life;
  };
  for (const DutyPart& part : duty.parts) {
    const double torque = stage.input_torque * part.torque / duty.output_torque;
    const double speed = stage.input_speed * part.speed / duty.output_speed;
    if (!(torque > 0 && speed > 0)) continue;
    switch (stage.kind) {
      case StageKind::helical: {
        PairDuty at;
        at.pinion_torque = torque;
        at.pinion_speed = speed;
        at.service_time = duty.service_time;
        add(*stage.pair, at, part.time_share);
        break;
      }
      case StageKind::bevel:
        add(*stage.pair, bevel_duty(*stage.bevel, torque, speed, duty.service_time), part.time_share);
        break;
      case StageKind::planetary:
        add(stage.planetary->sun_planet, sun_duty(*stage.planetary, torque, speed, duty.service_time), part.time_share);
        add(stage.planetary->planet_ring, ring_duty(*stage.planetary, torque, speed, duty.service_time),
            part.time_share);
        break;
      case StageKind::worm:
      case StageKind::belt:
        break;
    }
  }
  return damage > 0 ? 1 / damage : std::numeric_limits<double>::infinity();
}

}  // namespace

double design_torque(const UnitInService& unit, const UnitDuty& duty, std::vector<Assumption>& assumptions) {
  if (unit.rated_torque) {
    return *unit.rated_torque;
  }
  if (unit.rated_power) {
    return *unit.rated_power / duty.output_speed;
  }
  const double torque = duty.output_torque * duty.service_factor;
  assumptions.push_back(
      {"rated_torque", "No nameplate torque: the unit was chosen for the working torque times the service factor.",
       torque, duty.output_torque, 2 * duty.output_torque, Quantity::torque, "common practice, no source"});
  return torque;
}

double belt_pull_factor(double tension_ratio) { return (tension_ratio + 1) / (tension_ratio - 1); }

const char* name(UnitKind kind) {
  switch (kind) {
    case UnitKind::helical_in_line:
      return "helical in-line";
    case UnitKind::parallel_shaft:
      return "parallel-shaft";
    case UnitKind::bevel_helical:
      return "bevel-helical";
    case UnitKind::worm:
      return "worm";
    case UnitKind::planetary:
      return "planetary";
    case UnitKind::belt_and_gear:
      return "belt and gear";
    case UnitKind::cycloidal:
      return "cycloidal";
  }
  return "";
}

const char* name(StageKind kind) {
  switch (kind) {
    case StageKind::helical:
      return "helical";
    case StageKind::bevel:
      return "spiral bevel";
    case StageKind::worm:
      return "worm";
    case StageKind::planetary:
      return "planetary";
    case StageKind::belt:
      return "belt";
  }
  return "";
}

namespace {

/// A plate and a duty that cannot belong together are named, never worked out to the end.
Result<GearUnit> checked(GearUnit result, const UnitInService& unit, const UnitDuty& duty) {
  constexpr double kTooMuch = 3;  // service factors end at about 2.5
  const char* plate = unit.rated_torque ? "rated_torque" : "rated_power";
  const std::string says = unit.rated_torque  ? format_quantity(*unit.rated_torque, Quantity::torque, UnitSystem::si)
                           : unit.rated_power ? format_quantity(*unit.rated_power, Quantity::power, UnitSystem::si)
                                              : std::string();
  const std::string asked = format_quantity(duty.output_torque, Quantity::torque, UnitSystem::si);
  if (!says.empty() && duty.output_torque > kTooMuch * result.design_torque)
    return input_error(plate, says,
                       fmt::format("The machine asks for {} at full load, more than three times what this plate stands "
                                   "for: plate or machine is misread.",
                                   asked));
  if (!(result.oil_temperature.nominal <= kHottest))
    return model_error(says.empty() ? "kind" : plate, says.empty() ? name(unit.kind) : says,
                       fmt::format("By its own losses this unit would settle above {} at {}: plate, load or place is "
                                   "misread.",
                                   format_quantity(kHottest, Quantity::temperature, UnitSystem::si), asked));
  return result;
}

}  // namespace

Result<GearUnit> gear_unit(const UnitInService& unit, const UnitDuty& duty) {
  if (Errors errors = check(unit, duty); !errors.empty()) {
    return errors;
  }
  UnitDuty served = duty;
  if (served.parts.empty()) served.parts = {{1, duty.output_torque, duty.output_speed}};
  if (unit.kind == UnitKind::cycloidal) return checked(cycloidal_unit(unit, served), unit, duty);
  GearUnit result;
  result.kind = unit.kind;
  result.material = unit.through_hardened.value_or(false) ? kThroughHardened : kCaseCarburised;
  if (!unit.through_hardened && unit.kind != UnitKind::worm) {
    result.assumptions.push_back(
        {"through_hardened", "Gears taken as case-carburised and ground; older units may have softer teeth.",
         result.material.contact_limit.nominal, kThroughHardened.contact_limit.nominal,
         result.material.contact_limit.high, Quantity::pressure, "common practice, no source"});
  }
  const double wanted = unit.ratio.value_or(duty.input_speed / duty.output_speed);
  Result<std::vector<StagePlan>> plan = plan_stages(unit, wanted);
  if (!plan) {
    return plan.errors();
  }
  result.plate_torque = unit.rated_torque;
  result.plate_power = unit.rated_torque ? std::nullopt : unit.rated_power;
  result.design_torque = design_torque(unit, duty, result.assumptions);
  const double input_speed = duty.output_speed * wanted;
  const std::size_t count = plan->size();
  result.stages.resize(count);
  // Backwards, because the last stage sets the centre distance of an in-line unit.
  double after = 1;  // ratio of the stages behind
  std::optional<double> centre;
  double before_all = wanted;
  for (std::size_t i = count; i-- > 0;) {
    const StagePlan& step = (*plan)[i];
    StageDemand demand;
    demand.ratio = step.ratio;
    demand.material = result.material;
    demand.service_time = duty.service_time;
    demand.pinion_torque = result.design_torque / after / step.ratio;
    before_all /= step.ratio;
    demand.pinion_speed = input_speed / before_all;
    Result<UnitStage> stage = design_stage(step.kind, demand, result.design_torque / after, centre);
    if (!stage) {
      return stage.errors();
    }
    if (unit.kind == UnitKind::helical_in_line && !centre) {
      centre = stage->pair->centre_distance;
    }
    after *= stage->ratio;
    result.stages[i] = *stage;
  }
  result.ratio = after;
  if (std::abs(result.ratio / wanted - 1) > kRatioTolerance) {
    return model_error("ratio", std::to_string(wanted), "No whole tooth numbers of this kind come near the ratio.");
  }
  const double viscosity = unit.oil_viscosity.value_or(kUsualViscosity.nominal);
  if (!unit.oil_viscosity) {
    result.assumptions.push_back({"oil_viscosity", "Oil taken as ISO VG 220 at its usual working temperature.",
                                  kUsualViscosity.nominal, kUsualViscosity.low, kUsualViscosity.high,
                                  Quantity::kinematic_viscosity, kUsualViscosity.source});
  }
  double speed = duty.output_speed * result.ratio;
  double torque = duty.output_torque / result.ratio;
  result.fewest_pairs = std::numeric_limits<double>::infinity();
  std::optional<double> life;
  for (UnitStage& stage : result.stages) {
    stage.input_speed = speed;
    stage.input_torque = torque;
    evaluate(stage, result.material, duty, viscosity);
    speed /= stage.ratio;
    torque *= stage.ratio;
    if (stage.kind == StageKind::belt) {
      continue;
    }
    result.contact_stress = std::max(result.contact_stress, stage.contact_stress);
    result.fewest_pairs = std::min(result.fewest_pairs, stage.mean_pairs);
    if (stage.bending_stress) {
      result.bending_stress = std::max(result.bending_stress.value_or(0), *stage.bending_stress);
    }
    if (stage.static_ratio) {
      result.static_ratio = std::min(result.static_ratio.value_or(*stage.static_ratio), *stage.static_ratio);
    }
    if (stage.rating) {
      const double lasts = stage_life(stage, result.material, served);
      life = std::min(life.value_or(lasts), lasts);
    }
  }
  const bool worm = unit.kind == UnitKind::worm;
  if (!worm) {
    result.life = life;
  } else {
    result.static_ratio.reset();  // nothing here speaks for the momentary strength of the bronze
    const UnitStage& last = result.stages.back();
    result.reverse_efficiency = last.worm_rating->reverse_efficiency;
    result.reverse_efficiency_at_rest =
        worm_reverse_efficiency(last.worm->lead_angle, last.worm->pair.normal_angle, worm_friction(0).nominal);
  }
  if (result.belt_in_front() && unit.belt_pulley) {
    const double torque_behind_belt = result.stages[1].input_torque;
    result.belt_pull = belt_pull_factor(kBeltTensionRatio) * torque_behind_belt / (*unit.belt_pulley / 2);
  }
  estimate_losses(result, duty);
  estimate_housing(result, unit.mass);
  estimate_temperature(result, served);
  return checked(std::move(result), unit, duty);
}

}  // namespace lobewise::incumbent
