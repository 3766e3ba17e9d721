#include "engine/incumbent/unit_estimates.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"

namespace lobewise::incumbent {
namespace {

constexpr const char* kPractice = "common practice, no source";
/// Spread of the tooth friction of ground gears around the formula.
constexpr Coefficient kToothScatter = {1, 0.7, 1.4, kPractice};
constexpr Coefficient kBelt = {0.04, 0.02, 0.07, kPractice};
/// Bearings of one stage's shafts; a worm's thrust costs more.
constexpr Coefficient kBearings = {0.0025, 0.001, 0.005, kPractice};
constexpr Coefficient kWormBearings = {0.01, 0.005, 0.02, kPractice};
/// Oil drag and seals of one stage as part of the design power at 1500 1/min of its driving shaft, in proportion to
/// that speed.
constexpr Coefficient kIdle = {0.004, 0.002, 0.010, kPractice};
constexpr Coefficient kWormIdle = {0.010, 0.005, 0.020, kPractice};
constexpr double kReferenceSpeed = 1500 * 2 * kPi / 60;
/// Torsion stress a unit's output shaft is made for, Pa.
constexpr double kShaftStress = 30e6;
constexpr double kSteelDensity = 7850;
constexpr double kIronDensity = 7200;
constexpr double kBronzeDensity = 8800;
constexpr double kOilDensity = 880;
/// Share of the blank that remains in a wheel with web and bore.
constexpr double kWheelFill = 0.75;
/// Ribs, bosses, covers and feet over a plain shell.
constexpr double kHousingFill = 1.5;
constexpr double kMassScatter = 0.3;
constexpr double kOilShare = 0.25;  ///< of the housing's inside

struct StageBox {
  double axial = 0;   ///< along its driving shaft
  double centre = 0;  ///< distance between its shafts
  double first = 0;   ///< tip radius of its driving gear
  double second = 0;  ///< tip radius of its driven gear, the ring for a planetary stage
  double mass = 0;
};

double cylinder(double radius, double width) { return kPi * radius * radius * width; }

StageBox box(const UnitStage& stage) {
  StageBox b;
  switch (stage.kind) {
    case StageKind::belt:
      break;
    case StageKind::helical: {
      const PairGeometry& g = *stage.pair;
      b = {1.25 * g.pair.face_width, g.centre_distance, g.ra1, g.ra2,
           kSteelDensity * (cylinder(g.r1, g.pair.face_width) + kWheelFill * cylinder(g.r2, g.pair.face_width))};
      break;
    }
    case StageKind::bevel: {
      const BevelDesign& d = *stage.bevel;
      b = {d.mean_diameter_2 / 2 + d.face_width, d.mean_diameter_1 / 2, 0.6 * d.mean_diameter_1,
           0.55 * d.mean_diameter_2,
           kSteelDensity * (cylinder(d.mean_diameter_1 / 2, d.face_width) +
                            kWheelFill * cylinder(d.mean_diameter_2 / 2, d.face_width))};
      break;
    }
    case StageKind::worm: {
      const WormGeometry& g = *stage.worm;
      const double rim = 0.15 * g.wheel_diameter / 2;
      const double r = g.wheel_diameter / 2;
      b = {1.1 * g.wheel_diameter, g.pair.centre_distance, g.worm_diameter / 2 + g.module, r + 1.5 * g.module,
           kBronzeDensity * (cylinder(r, g.face_width) - cylinder(r - rim, g.face_width)) +
               kSteelDensity *
                   (0.6 * cylinder(r - rim, g.face_width) + cylinder(g.worm_diameter / 2, 1.1 * g.wheel_diameter))};
      break;
    }
    case StageKind::planetary: {
      const PlanetaryDesign& d = *stage.planetary;
      const double width = d.sun_planet.pair.face_width;
      const double outer = d.planet_ring.r2 + 3 * d.planet_ring.pair.module;
      const double carrier = 0.5 * cylinder(d.planet_ring.r2, 0.6 * width);
      b = {1.9 * width, 0, outer, outer,
           kSteelDensity * (cylinder(d.sun_planet.r1, width) + d.planets * 0.7 * cylinder(d.sun_planet.r2, width) +
                            cylinder(outer, width) - cylinder(d.planet_ring.ra2, width) + carrier)};
      break;
    }
  }
  return b;
}

}  // namespace

double tooth_loss_share(const PairGeometry& g, double tangential, double pinion_speed, double viscosity) {
  const double sign = g.pair.internal ? -1 : 1;
  const double e1 = g.recess / g.base_pitch;
  const double e2 = g.approach / g.base_pitch;
  const double geometry = kPi * (g.ratio + sign) / (g.pair.pinion.teeth * g.ratio * std::cos(g.base_helix)) *
                          (1 - g.contact_ratio + e1 * e1 + e2 * e2);
  constexpr double kRoughness = 0.6;  // um
  const double load = std::max(150.0, tangential / std::cos(g.pressure_angle) / g.pair.face_width * 1e-3);
  const double speed = 2 * pinion_speed * g.rw1 * std::sin(g.working_angle);
  const double radius = curvature_at(g, 0).relative / std::cos(g.base_helix) * 1e3;
  const double dynamic = viscosity * kOilDensity * 1e3;  // mPa s
  const double mu =
      0.048 * std::pow(load / (speed * radius), 0.2) * std::pow(dynamic, -0.05) * std::pow(kRoughness, 0.25);
  return mu * geometry;
}

void estimate_losses(GearUnit& unit, const UnitDuty& duty) {
  UnitLosses& losses = unit.losses;
  double idle = 0, idle_low = 0, idle_high = 0;
  for (const UnitStage& stage : unit.stages) {
    if (stage.kind == StageKind::belt) {
      losses.teeth.nominal += kBelt.nominal;
      losses.teeth.low += kBelt.low;
      losses.teeth.high += kBelt.high;
      losses.belt += kBelt.nominal;
      continue;
    }
    const bool worm = stage.kind == StageKind::worm;
    if (worm) {
      const WormGeometry& g = *stage.worm;
      const Coefficient& mu = stage.worm_rating->friction;
      losses.teeth.nominal += stage.tooth_loss;
      losses.teeth.low += 1 - worm_efficiency(g.lead_angle, g.pair.normal_angle, mu.low);
      losses.teeth.high += 1 - worm_efficiency(g.lead_angle, g.pair.normal_angle, mu.high);
    } else {
      losses.teeth.nominal += stage.tooth_loss;
      losses.teeth.low += stage.tooth_loss * kToothScatter.low;
      losses.teeth.high += stage.tooth_loss * kToothScatter.high;
    }
    const Coefficient& bearings = worm ? kWormBearings : kBearings;
    losses.bearings.nominal += bearings.nominal;
    losses.bearings.low += bearings.low;
    losses.bearings.high += bearings.high;
    const double speed = stage.input_speed / kReferenceSpeed;
    const Coefficient& drag = worm ? kWormIdle : kIdle;
    idle += drag.nominal * speed;
    idle_low += drag.low * speed;
    idle_high += drag.high * speed;
  }
  losses.teeth.source = "from memory: ISO/TR 14179-2; worm AGMA 6034; belt and scatter common practice";
  losses.bearings.source = kPractice;
  losses.idle = {idle, idle_low, idle_high, kPractice};
  total_losses(unit, duty);
}

void total_losses(GearUnit& unit, const UnitDuty& duty) {
  const UnitLosses& losses = unit.losses;
  unit.output_power = duty.output_torque * duty.output_speed;
  const double design_power = unit.design_torque * duty.output_speed;
  const auto efficiency = [&](double teeth, double bearings, double drag) {
    // Output power is what arrives; the load-dependent share is lost from what goes in.
    const double input = unit.output_power / (1 - teeth - bearings) + drag * design_power;
    return unit.output_power / input;
  };
  unit.efficiency = {efficiency(losses.teeth.nominal, losses.bearings.nominal, losses.idle.nominal),
                     efficiency(losses.teeth.high, losses.bearings.high, losses.idle.high),
                     efficiency(losses.teeth.low, losses.bearings.low, losses.idle.low),
                     "derived, docs/theory/incumbent.md"};
  unit.loss_power = unit.output_power * (1 / unit.efficiency.nominal - 1);
}

double loss_power_at(const GearUnit& unit, double load_share) {
  const double load_dependent = unit.losses.teeth.nominal + unit.losses.bearings.nominal;
  const double idle = unit.loss_power - unit.output_power * (1 / (1 - load_dependent) - 1);
  return idle + load_share * unit.output_power * (1 / (1 - load_dependent) - 1);
}

double efficiency_at(const GearUnit& unit, double load_share) {
  const double output = load_share * unit.output_power;
  return output > 0 ? output / (output + loss_power_at(unit, load_share)) : 0;
}

double shaft_diameter_for(double design_torque) { return std::cbrt(16 * design_torque / (kPi * kShaftStress)); }

void estimate_housing(GearUnit& unit, std::optional<double> stated_mass) {
  unit.output_shaft_diameter = shaft_diameter_for(unit.design_torque);
  const double shaft = unit.output_shaft_diameter;
  double axial = 0, across = 0, gears = 0, tallest = 0;
  const StageBox* first = nullptr;
  std::vector<StageBox> boxes;
  for (const UnitStage& stage : unit.stages) {
    if (stage.kind != StageKind::belt) {
      boxes.push_back(box(stage));
    }
  }
  for (const StageBox& b : boxes) {
    first = first == nullptr ? &b : first;
    axial += b.axial;
    across += b.centre;
    gears += b.mass;
    tallest = std::max(tallest, std::max(b.first, b.second));
  }
  const StageBox& last = boxes.back();
  const double clearance = 0.1 * tallest + 0.01;
  switch (unit.kind) {
    case UnitKind::helical_in_line:
    case UnitKind::belt_and_gear:
      unit.length = axial + 1.5 * shaft;  // bearings of the output shaft
      unit.width = 2 * (tallest + clearance);
      unit.height = last.centre + tallest + std::max(last.first, 0.5 * tallest) + 2 * clearance;
      break;
    case UnitKind::parallel_shaft:
      unit.length = across + first->first + last.second + 2 * clearance;
      unit.width = axial + 1.2 * shaft;
      unit.height = 2 * (tallest + clearance);
      break;
    case UnitKind::bevel_helical:
      unit.length = first->axial + across + last.second + 2 * clearance;
      unit.width = 2 * first->second + 1.2 * shaft;
      unit.height = 2 * (tallest + clearance);
      break;
    case UnitKind::worm:
      unit.length = std::max(last.axial, 2 * last.second) + 2 * clearance;
      unit.width = 2.5 * shaft + last.first;
      unit.height = last.centre + last.first + last.second + 2 * clearance;
      break;
    case UnitKind::planetary:
      unit.length = axial + 1.5 * shaft;
      unit.width = 2 * (tallest + clearance);
      unit.height = unit.width;
      break;
    case UnitKind::cycloidal:  // has no gears: cycloidal_unit.cc
      break;
  }
  if (stated_mass) {
    unit.mass = {*stated_mass, *stated_mass, *stated_mass, "stated"};
    return;
  }
  const double surface = 2 * (unit.length * unit.width + unit.width * unit.height + unit.height * unit.length);
  const double wall = 0.005 + 0.01 * std::max({unit.length, unit.width, unit.height});
  const double housing = kHousingFill * kIronDensity * surface * wall;
  const double shafts = kSteelDensity * cylinder(shaft / 2, 2.5 * std::max(unit.width, 3 * shaft)) * 1.5;
  const double oil = kOilShare * kOilDensity * unit.length * unit.width * unit.height;
  const double mass = gears + housing + shafts + oil;
  unit.mass = {mass, mass * (1 - kMassScatter), mass * (1 + kMassScatter), kPractice};
}

namespace {

using namespace formula;

/// The torque that a unit was made for, by what is known of it.
Term made_for(const GearUnit& unit, const UnitDuty& duty, const Term& output_speed) {
  if (unit.plate_torque) return input("T_n", "torque on its plate", *unit.plate_torque, Quantity::torque);
  if (unit.plate_power) return input("P_n", "power on its plate", *unit.plate_power, Quantity::power) / output_speed;
  return input("T_2", "working torque", duty.output_torque, Quantity::torque) *
         input("f_s", "service factor", duty.service_factor);
}

/// Ratio of a stage from its teeth.
Term stage_ratio(const UnitStage& stage) {
  const auto teeth = [](const char* symbol, const char* meaning, int z) { return input(symbol, meaning, z); };
  switch (stage.kind) {
    case StageKind::helical:
      return teeth("z_2", "teeth of the wheel", stage.pair->pair.wheel.teeth) /
             teeth("z_1", "teeth of the pinion", stage.pair->pair.pinion.teeth);
    case StageKind::bevel:
      return teeth("z_2", "teeth of the bevel wheel", stage.bevel->wheel_teeth) /
             teeth("z_1", "teeth of the bevel pinion", stage.bevel->pinion_teeth);
    case StageKind::worm:
      return teeth("z_2", "teeth of the worm wheel", stage.worm->pair.wheel_teeth) /
             teeth("z_1", "starts of the worm", stage.worm->pair.starts);
    case StageKind::planetary:
      return 1.0 + teeth("z_r", "teeth of the ring", stage.planetary->planet_ring.pair.wheel.teeth) /
                       teeth("z_s", "teeth of the sun", stage.planetary->sun_planet.pair.pinion.teeth);
    case StageKind::belt:
      break;
  }
  return input("i_b", "ratio of the belt", stage.ratio);
}

/// What a unit loses, as shares of the power that goes in; idle of the power it was made for.
struct Shares {
  Term teeth, bearings, idle;
};

Shares lost_shares(Working& w, const GearUnit& unit) {
  const UnitLosses& losses = unit.losses;
  if (!unit.geared())
    return {input("s_t", "share lost in lobes and pins", losses.teeth.nominal, Quantity::share),
            input("s_b", "share lost in bearings", losses.bearings.nominal, Quantity::share),
            input("s_0", "oil drag and seals, share of the design power", losses.idle.nominal, Quantity::share)};
  std::vector<double> teeth, bearings, drag, speeds;
  for (const UnitStage& stage : unit.stages) {
    const bool belt = stage.kind == StageKind::belt, worm = stage.kind == StageKind::worm;
    teeth.push_back(belt ? kBelt.nominal : stage.tooth_loss);
    bearings.push_back(belt ? 0 : (worm ? kWormBearings : kBearings).nominal);
    drag.push_back(belt ? 0 : (worm ? kWormIdle : kIdle).nominal);
    speeds.push_back(stage.input_speed);
  }
  return {record(w, "s_t", "share lost in teeth and belt", Quantity::share,
                 sum(inputs("l_k", "lost in the teeth or the belt of each stage", teeth, Quantity::share)),
                 losses.teeth.source),
          record(w, "s_b", "share lost in bearings", Quantity::share,
                 sum(inputs("b_k", "lost in the bearings of each stage", bearings, Quantity::share)),
                 losses.bearings.source),
          record(w, "s_0", "oil drag and seals, share of the design power", Quantity::share,
                 sum(inputs("d_k", "of each stage at the reference speed", drag, Quantity::share) *
                     inputs("w_k", "speed of its driving shaft", speeds, Quantity::angular_speed)) /
                     input("w_r", "reference speed", kReferenceSpeed, Quantity::angular_speed),
                 losses.idle.source)};
}

}  // namespace

Working unit_working(const GearUnit& unit, const UnitDuty& duty) {
  Working w;
  const Term output_speed = input("w_2", "output speed", duty.output_speed, Quantity::angular_speed);
  const Term design = record(w, "T_D", "torque the unit was made for", Quantity::torque,
                             made_for(unit, duty, output_speed), "common practice, no source");
  if (unit.geared()) {
    Term ratio = 1.0;
    for (std::size_t i = 0; i < unit.stages.size(); ++i) {
      const Term stage = record(w, fmt::format("i_{}", i + 1).c_str(),
                                fmt::format("ratio of the {} stage", name(unit.stages[i].kind)).c_str(),
                                Quantity::number, stage_ratio(unit.stages[i]), "derived, counted");
      ratio = i == 0 ? stage : ratio * stage;
    }
    record(w, "i", "ratio from whole teeth", Quantity::number, ratio, "derived, counted");
  }
  for (const UnitStage& stage : unit.stages) {
    if (!stage.worm) continue;
    const Working steps = worm_working(*stage.worm, stage.input_torque * stage.ratio, stage.input_speed);
    w.insert(w.end(), steps.begin(), steps.end());
  }
  const Term output =
      record(w, "P_2", "output power", Quantity::power,
             input("T_2", "working torque", duty.output_torque, Quantity::torque) * output_speed, "derived, statics");
  const Shares shares = lost_shares(w, unit);
  const Term loss =
      record(w, "P_V", "power that stays in the unit at full load", Quantity::power,
             output * (1.0 / (1.0 - shares.teeth - shares.bearings) - 1.0) + shares.idle * design * output_speed,
             "derived, docs/theory/incumbent.md");
  record(w, "eta", "efficiency at the working load", Quantity::share, output / (output + loss), unit.efficiency.source);
  if (!unit.heat) return w;
  const HeatBalance& heat = *unit.heat;
  const Term wall = input("T_w", "wall of the housing", heat.wall, Quantity::temperature),
             air = input("T_a", "air and surroundings", duty.ambient, Quantity::temperature),
             area = input("A", "outer surface", heat.area, Quantity::area),
             mean = input("P_m", "mean loss of the duty that stays in the oil", heat.loss, Quantity::power);
  const Term leaves =
      input("G_a", "convection with its ribs", heat.to_air, Quantity::thermal_conductance) * (wall - air) +
      input("eps", "emissivity", heat.emissivity) * input("sigma", "Stefan-Boltzmann constant", kStefanBoltzmann) *
          area * (pow(wall, Term(4.0)) - pow(air, Term(4.0))) +
      input("G_b", "to the base", heat.base, Quantity::thermal_conductance) * (wall - air) -
      input("Q_s", "taken up from the sun", heat.sun, Quantity::power);
  record_solved(w, "T_w", "temperature of the wall at which it sheds the mean loss of the duty", Quantity::temperature,
                heat.wall, leaves - mean, 1e-3 + 1e-6 * heat.loss, "derived, docs/theory/heat.md");
  record(w, "T_oil", "oil temperature on this duty", Quantity::temperature,
         wall + mean / input("G_o", "oil to wall", heat.oil_conductance, Quantity::thermal_conductance),
         "derived, docs/theory/heat.md");
  return w;
}

}  // namespace lobewise::incumbent
