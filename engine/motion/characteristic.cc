#include "engine/motion/characteristic.h"

#include <algorithm>
#include <cmath>

#include "engine/motion/shock.h"

namespace lobewise::motion {
namespace {

/// Torque above `from` at which the energy left, positive there, is used up.
template <class Energy>
double where_it_ends(Energy left, double from) {
  double high = std::max(2 * from, 1e-9);
  while (left(high) > 0) high *= 2;
  double low = from;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (left(middle) > 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

Characteristic::Characteristic(double free_angle, std::vector<TwistPoint> points) : free_angle_(free_angle) {
  knots_.push_back({0, 0, 0});
  for (const TwistPoint& p : points) {
    const Knot& last = knots_.back();
    const double energy = last.energy + 0.5 * (p.torque + last.torque) * (p.twist - last.twist);
    knots_.push_back({p.torque, p.twist, energy});
  }
}

const Characteristic::Knot& Characteristic::below(double torque) const {
  const auto above =
      std::find_if(knots_.begin() + 1, knots_.end() - 1, [&](const Knot& knot) { return knot.torque >= torque; });
  return *(above - 1);
}

double Characteristic::compliance_above(const Knot& knot) const {
  const Knot& next = *(&knot + 1);
  return (next.twist - knot.twist) / (next.torque - knot.torque);
}

double Characteristic::twist(double torque) const {
  const Knot& knot = below(torque);
  return knot.twist + compliance_above(knot) * (torque - knot.torque);
}

double Characteristic::energy(double torque) const {
  const Knot& knot = below(torque);
  return knot.energy + 0.5 * compliance_above(knot) * (torque * torque - knot.torque * knot.torque);
}

double Characteristic::stiffness(double torque) const { return 0.5 * torque / (twist(torque) - twist(0.5 * torque)); }

CubicSpring cubic_through(const Characteristic& chain, double low, double high) {
  const double x1 = chain.twist(low), x2 = chain.twist(high);
  const double cubic = (high / x2 - low / x1) / (x2 * x2 - x1 * x1);
  const double linear = low / x1 - cubic * x1 * x1;
  if (cubic < 0 || linear <= 0) return {high / x2, 0};
  return {linear, cubic};
}

double start_peak(const Characteristic& chain, double motor_torque, double play, double wound, double inertia_1,
                  double inertia_2, const StartLoad& load) {
  const double x_0 = chain.twist(wound), U_0 = chain.energy(wound);
  const auto standing = [&](double torque) {
    return motor_torque * (play + chain.twist(torque) - x_0) - (chain.energy(torque) - U_0);
  };
  if (load.breakaway > wound && standing(load.breakaway) <= 0) {  // the machine never moves
    return where_it_ends(standing, wound);
  }
  const double at = std::max(load.breakaway, wound);
  const double sum = inertia_1 + inertia_2;
  const double mean = (motor_torque * inertia_2 + load.running * inertia_1) / sum;
  const double kept = std::max(0.0, standing(at)) * inertia_2 / sum, x_b = chain.twist(at), U_b = chain.energy(at);
  const auto moving = [&](double torque) {
    return kept + mean * (chain.twist(torque) - x_b) - (chain.energy(torque) - U_b);
  };
  // Energy still rises up to the mean torque.
  return where_it_ends(moving, std::max(at, mean));
}

double jam_at_once(const Characteristic& chain, double motor_torque, double wound, double inertia, double speed) {
  const double x_0 = chain.twist(wound), U_0 = chain.energy(wound), moving = 0.5 * inertia * speed * speed;
  return where_it_ends(
      [&](double torque) { return moving + motor_torque * (chain.twist(torque) - x_0) - (chain.energy(torque) - U_0); },
      std::max(wound, motor_torque));
}

double reversal_peak(const Characteristic& chain, double motor_torque, double wound, double inertia_1,
                     double inertia_2) {
  const double mean = (motor_torque * inertia_2 - wound * inertia_1) / (inertia_1 + inertia_2);
  const double path = chain.twist(wound) + 2 * chain.free_angle(), kept = chain.energy(wound);
  const auto left = [&](double torque) { return kept + mean * (path + chain.twist(torque)) - chain.energy(torque); };
  // Energy still rises up to the mean torque.
  const double from = std::max(0.0, mean);
  return left(from) > 0 ? where_it_ends(left, from) : 0;
}

double jam_within(const Characteristic& chain, double motor_torque, double wound, double inertia, double speed,
                  double angle) {
  const double at_once = jam_at_once(chain, motor_torque, wound, inertia, speed);
  if (angle == 0 || speed == 0) return at_once;
  const double time = 2 * angle / speed;
  double peak = at_once;
  for (int i = 0; i < 100; ++i) {  // a contraction: the peak grows with the root of the stiffness at most
    const double stiffness = (peak - wound) / (chain.twist(peak) - chain.twist(wound));
    const double next = std::min(at_once, jam_torque<double>(wound, motor_torque, speed, inertia, stiffness, time));
    if (std::abs(next - peak) < 1e-10 * next) return next;
    peak = std::max(next, kLeastJam * wound);
  }
  return peak;
}

}  // namespace lobewise::motion
