#pragma once
// What joins the reducer's output shaft to the driven shaft: it divides torque, multiplies speed and pulls on the
// shaft.

#include "engine/demand/demand.h"

namespace lobewise::demand {

/// In the order of data/overhung_factors.csv.
enum class Link {
  single_chain,
  double_chain,
  toothed_belt,
  pinion,
  v_belt,
  flat_belt,
  tensioned_flat_belt,
  variable_belt,
  friction_wheel,
  rack_pinion,
  coupling,
};

struct Connection {
  std::optional<Link> link;  ///< default coupling
  std::optional<double>
      pitch_diameter;           ///< of the wheel on the reducer's shaft [m] 0.01 … 5; required but for a coupling
  std::optional<double> ratio;  ///< driven wheel over this wheel 0.1 … 20, default 1
  std::optional<double> efficiency;  ///< of chain, belt or mesh 0.5 … 1, default by link
  std::optional<double> factor;      ///< radial load over 2 T / d 0.5 … 6, default by link
  std::optional<double> position;  ///< middle of the wheel from the shaft shoulder [m] 0 … 2, default half the diameter
};

/// Radial load over 2 T / d; from data/overhung_factors.csv.
[[nodiscard]] Coefficient overhung_factor(Link link);

/// Pull of a belt on its shaft over its effective pull, (r + 1) / (r - 1) with r = tight over slack side, r > 1.
/// Derived.
[[nodiscard]] double belt_pull_factor(double tension_ratio);

/// Demand at the driven shaft -> demand at the reducer's output shaft: torques / (i eta), run-back and holding / i,
/// inertia / i^2, speed x i, radial load 2 T f / d. A coupling leaves what the machine itself puts on the shaft (an
/// agitator); any other link replaces it, since the machine then has bearings of its own. Derived. Errors: fields out
/// of range, pitch diameter missing.
[[nodiscard]] Result<Demand> connect(Demand demand, const Connection& connection);

}  // namespace lobewise::demand
