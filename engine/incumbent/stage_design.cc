#include "engine/incumbent/stage_design.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::incumbent {
namespace {

/// Modules of ISO 54, series I and II, mm; from memory.
constexpr double kModules[] = {1, 1.25, 1.5, 1.75, 2,  2.25, 2.5, 2.75, 3,  3.5, 4,  4.5, 5, 5.5,
                               6, 7,    8,   9,    10, 11,   12,  14,   16, 18,  20, 22,  25};
/// Face width over centre distance that a designer tries; common practice, no source.
constexpr double kWidthOverCentre[] = {0.2, 0.25, 0.3, 0.35, 0.4};
constexpr double kHelix = 15 * kPi / 180;
constexpr double kHelixLow = 8 * kPi / 180;
constexpr double kHelixHigh = 22 * kPi / 180;
constexpr double kShift = 0.3;
constexpr int kTeethForShift = 40;  ///< a wheel of fewer teeth would suffer from the negative shift
constexpr int kMaxTeeth = 135;      ///< finer teeth than that are not usual in a unit; common practice, no source
constexpr double kSpiral = 35 * kPi / 180;
/// Bevel wheel overhung: further uneven load along the face. Common practice, no source.
constexpr double kBevelLoad = 1.25;
constexpr double kBevelBearing = 0.85;
/// Three planets with a floating sun share within this. Common practice, no source.
constexpr double kPlanetSharing = 1.15;

bool carries(const PairRating& rating) {
  return rating.contact_safety >= kDesignContactSafety && rating.bending_safety >= kDesignBendingSafety;
}

double gear_volume(const PairGeometry& g) { return g.pair.face_width * (g.ra1 * g.ra1 + g.ra2 * g.ra2); }

GearPair shifted_pair(int z1, int z2, double module, double helix, double width) {
  const double shift = z2 >= kTeethForShift ? kShift : 0;
  return {{z1, shift, 1}, {z2, -shift, 1}, false, module, helix, width, {}};
}

}  // namespace

std::optional<PairGeometry> design_helical(const StageDemand& demand, std::optional<double> centre_distance) {
  std::optional<PairGeometry> best;
  double best_volume = 0;
  PairDuty duty;
  duty.pinion_torque = demand.pinion_torque;
  duty.pinion_speed = demand.pinion_speed;
  duty.service_time = demand.service_time;
  for (const double millimetres : kModules) {
    const double module = millimetres * 1e-3;
    for (int z1 = 14; z1 <= 36; ++z1) {
      const int z2 = static_cast<int>(std::lround(demand.ratio * z1));
      if (z2 < 14 || z2 > kMaxTeeth) {
        continue;
      }
      double helix = kHelix;
      if (centre_distance) {
        const double cosine = module * (z1 + z2) / (2 * *centre_distance);
        if (cosine > std::cos(kHelixLow) || cosine < std::cos(kHelixHigh)) {
          continue;
        }
        helix = std::acos(cosine);
      }
      const double centre = module * (z1 + z2) / (2 * std::cos(helix));
      for (const double width : kWidthOverCentre) {
        const Result<PairGeometry> g = pair_geometry(shifted_pair(z1, z2, module, helix, width * centre));
        if (!g || (best && gear_volume(*g) >= best_volume) || !carries(rate_pair(*g, demand.material, duty))) {
          continue;
        }
        best = *g;
        best_volume = gear_volume(*g);
      }
    }
  }
  return best;
}

PairDuty bevel_duty(const BevelDesign& design, double pinion_torque, double pinion_speed, double service_time) {
  const PairGeometry& v = design.virtual_pair;
  const double stretch = v.r1 / (design.mean_diameter_1 / 2);
  PairDuty duty;
  duty.pinion_torque = pinion_torque * stretch;
  duty.pinion_speed = pinion_speed / stretch;
  duty.service_time = service_time;
  duty.pinion_meshes = stretch;
  const double wheel_speed = pinion_speed * design.pinion_teeth / design.wheel_teeth;
  duty.wheel_meshes = wheel_speed / (duty.pinion_speed / v.ratio);
  duty.load_factor = kBevelLoad;
  return duty;
}

std::optional<BevelDesign> design_bevel(const StageDemand& demand) {
  std::optional<BevelDesign> best;
  double best_volume = 0;
  for (const double millimetres : kModules) {
    const double module = millimetres * 1e-3;
    for (int z1 = 11; z1 <= 30; ++z1) {
      const int z2 = static_cast<int>(std::lround(demand.ratio * z1));
      if (z2 < z1) {
        continue;
      }
      const double u = static_cast<double>(z2) / z1;
      const double cone_1 = std::atan(1 / u);
      BevelDesign design;
      design.pinion_teeth = z1;
      design.wheel_teeth = z2;
      design.mean_diameter_1 = module * z1 / std::cos(kSpiral);
      design.mean_diameter_2 = design.mean_diameter_1 * u;
      // b = 0.3 R_e with R_m = R_e - b/2.
      const double mean_cone = design.mean_diameter_1 / (2 * std::sin(cone_1));
      design.face_width = 0.3 / 0.85 * mean_cone;
      const int zv1 = static_cast<int>(std::lround(z1 / std::cos(cone_1)));
      const int zv2 = static_cast<int>(std::lround(z2 / std::sin(cone_1)));
      const Result<PairGeometry> g =
          pair_geometry(shifted_pair(zv1, zv2, module, kSpiral, kBevelBearing * design.face_width));
      if (!g) {
        continue;
      }
      design.virtual_pair = *g;
      const double volume = design.face_width * (design.mean_diameter_1 * design.mean_diameter_1 +
                                                 design.mean_diameter_2 * design.mean_diameter_2);
      if (best && volume >= best_volume) {
        continue;
      }
      if (carries(rate_pair(*g, demand.material,
                            bevel_duty(design, demand.pinion_torque, demand.pinion_speed, demand.service_time)))) {
        best = design;
        best_volume = volume;
      }
    }
  }
  return best;
}

namespace {

PairDuty planetary_duty(double torque, double speed, double service_time) {
  PairDuty duty;
  duty.pinion_torque = torque;
  duty.pinion_speed = speed;
  duty.service_time = service_time;
  duty.load_factor = kPlanetSharing;
  return duty;
}

double planetary_ratio(const PlanetaryDesign& d) {
  return 1 + static_cast<double>(d.planet_ring.pair.wheel.teeth) / d.sun_planet.pair.pinion.teeth;
}

}  // namespace

PairDuty sun_duty(const PlanetaryDesign& design, double sun_torque, double sun_speed, double service_time) {
  const double relative = sun_speed * (1 - 1 / planetary_ratio(design));
  PairDuty duty = planetary_duty(sun_torque / design.planets, relative, service_time);
  duty.pinion_meshes = design.planets;
  duty.wheel_reversed = true;
  return duty;
}

PairDuty ring_duty(const PlanetaryDesign& design, double sun_torque, double sun_speed, double service_time) {
  const double relative = sun_speed * (1 - 1 / planetary_ratio(design));
  const double u = design.sun_planet.ratio;
  PairDuty duty = planetary_duty(sun_torque / design.planets * u, relative / u, service_time);
  duty.wheel_meshes = design.planets;
  duty.pinion_reversed = true;
  return duty;
}

std::optional<PlanetaryDesign> design_planetary(const StageDemand& demand) {
  constexpr int kPlanets = 3;
  std::optional<PlanetaryDesign> best;
  double best_volume = 0;
  for (const double millimetres : kModules) {
    const double module = millimetres * 1e-3;
    for (int sun = 17; sun <= 60; ++sun) {
      // The ring nearest to the ratio whose planet is whole and that can be assembled.
      const int wanted = static_cast<int>(std::lround((demand.ratio - 1) * sun));
      for (int ring = wanted - 3; ring <= wanted + 3; ++ring) {
        const int planet = (ring - sun) / 2;
        const bool assembles = (ring - sun) % 2 == 0 && (ring + sun) % kPlanets == 0;
        const bool clear = (sun + planet) * std::sin(kPi / kPlanets) > planet + 2.5;
        if (!assembles || !clear || planet < 17 ||
            std::abs(1 + ring / static_cast<double>(sun) - demand.ratio) > 0.03 * demand.ratio) {
          continue;
        }
        const double sun_diameter = module * sun;
        for (const double width_ratio : {0.5, 0.75, 1.0}) {
          const double width = width_ratio * sun_diameter;
          const double volume = width * (module * ring) * (module * ring);
          if (best && volume >= best_volume) {
            continue;
          }
          const Result<PairGeometry> outer = pair_geometry({{sun, 0, 1}, {planet, 0, 1}, false, module, 0, width, {}});
          const Result<PairGeometry> inner = pair_geometry({{planet, 0, 1}, {ring, 0, 1}, true, module, 0, width, {}});
          if (!outer || !inner) {
            continue;
          }
          const PlanetaryDesign design = {*outer, *inner, kPlanets};
          if (carries(rate_pair(*outer, demand.material,
                                sun_duty(design, demand.pinion_torque, demand.pinion_speed, demand.service_time))) &&
              carries(rate_pair(*inner, demand.material,
                                ring_duty(design, demand.pinion_torque, demand.pinion_speed, demand.service_time)))) {
            best = design;
            best_volume = volume;
          }
        }
      }
    }
  }
  return best;
}

std::optional<WormGeometry> design_worm(const StageDemand& demand, double wheel_torque) {
  // As few starts as leave the wheel 28 teeth; common practice, no source.
  const int starts = std::clamp(static_cast<int>(std::ceil(28 / demand.ratio)), 1, 6);
  WormPair pair;
  pair.starts = starts;
  pair.wheel_teeth = static_cast<int>(std::lround(demand.ratio * starts));
  // R20: every step is the twentieth root of ten; 31.5 … 500 mm.
  for (int step = 0; step <= 24; ++step) {
    pair.centre_distance = 0.0315 * std::pow(10, step / 20.0);
    const Result<WormGeometry> g = worm_geometry(pair);
    if (g && rate_worm(*g, wheel_torque, demand.pinion_speed).torque_safety >= 1) {
      return *g;
    }
  }
  return std::nullopt;
}

}  // namespace lobewise::incumbent
