#pragma once
// Torque of a standard three-phase induction motor from its nameplate and a measured current or electric power.

#include "engine/base/working.h"

namespace lobewise::demand {

struct Nameplate {
  double power = 0;         ///< rated shaft power [W] > 0
  double speed = 0;         ///< rated [rad/s] > 0
  double current = 0;       ///< rated [A] > 0; only for currents
  double power_factor = 0;  ///< rated cos phi 0.3 … 0.97
  double efficiency = 0;    ///< rated 0.3 … 0.99

  [[nodiscard]] double torque() const { return power / speed; }  ///< rated [N m]
};

/// No-load current over rated current: 0.8 sin phi, since most of the reactive current is magnetising. Range 0.65 …
/// 0.95 sin phi. Derived from the circle diagram; the share is common practice, no source.
[[nodiscard]] Coefficient no_load_current_share(double power_factor);

/// Share of the rated losses that does not depend on load: 0.40 (0.25 … 0.55). Common practice, no source.
inline constexpr Coefficient kFixedLossShare{0.40, 0.25, 0.55, "common practice, no source"};

/// Current -> shaft torque at constant flux: T / T_n = sqrt((I^2 - I_0^2) / (I_n^2 - I_0^2)), 0 below I_0. Derived:
/// torque current and magnetising current stand at right angles. Needs rated voltage; current does not show direction.
/// Precondition: checked nameplate, 0 <= no-load share < 1.
class TorqueFromCurrent {
 public:
  TorqueFromCurrent(const Nameplate& motor, double no_load_share);
  [[nodiscard]] double operator()(double current) const;  ///< [A] -> [N m]

 private:
  double no_load_squared_, scale_;
};

/// Electric power -> shaft torque: P = t P_n + L_n (k + (1 - k) t^2) with rated losses L_n and t = T / T_n; rated speed
/// taken for all loads (slip left out, under 5 percent). Negative when the load drives. Derived.
class TorqueFromPower {
 public:
  TorqueFromPower(const Nameplate& motor, double fixed_loss_share);
  [[nodiscard]] double operator()(double power) const;  ///< [W] -> [N m]

 private:
  double rated_power_, rated_torque_, fixed_, variable_;
};

}  // namespace lobewise::demand
