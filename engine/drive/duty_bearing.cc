#include "engine/drive/duty_bearing.h"

#include "engine/contact/lubricant.h"

namespace lobewise::drive {

DutyBearing::DutyBearing(const strength::RollingBearing& stated, double e_C, double nu, const Coefficients& c)
    : bearing(stated), contamination(e_C), nu_(nu) {
  bearing.rating.C *= c.capacity_factor;
}

void DutyBearing::add(double time_share, double speed) {
  blocks.push_back({time_share, speed, contact::viscosity_ratio(nu_, speed, bearing.pitch_diameter)});
}

double DutyBearing::exponent() const {
  return bearing.element == strength::RollingElement::ball ? strength::kBallExponent : strength::kRollerExponent;
}

strength::LifeFactor DutyBearing::factor(std::size_t block, double load) const {
  return strength::life_factor(bearing.element, blocks[block].kappa, contamination * bearing.rating.C_u / load);
}

double DutyBearing::basic_damage(std::size_t block, double load) const {
  if (load <= 0) return 0;
  const Block& on = blocks[block];
  return on.time_share / strength::life_hours(strength::basic_life(bearing.rating.C, load, exponent()), on.speed);
}

double DutyBearing::damage(std::size_t block, double load) const {
  return load > 0 ? basic_damage(block, load) / factor(block, load).value : 0;
}

}  // namespace lobewise::drive
