#pragma once
// Torque of a standard three-phase induction motor from its nameplate and a measured current or electric power.

#include "engine/base/formula/term.h"
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
/// Precondition: 0 <= no-load current < rated current.
template <class X>
[[nodiscard]] X torque_from_current(const X& current, const X& rated_torque, const X& rated_current,
                                    const X& no_load_current) {
  using namespace formula;
  const X magnetising = pow(no_load_current, 2.0);
  return rated_torque / sqrt(pow(rated_current, 2.0) - magnetising) * sqrt(max(0.0, pow(current, 2.0) - magnetising));
}

/// Electric power -> shaft torque: P = t P_n + L_n (k + (1 - k) t^2) with rated losses L_n and t = T / T_n; rated speed
/// taken for all loads (slip left out, under 5 percent). Negative when the load drives. Of the two roots the one that
/// goes to (P - k L_n) / P_n when the losses go to 0; below what any torque gives back, the least. Derived.
template <class X>
[[nodiscard]] X torque_from_power(const X& power, const X& rated_torque, const X& rated_power, const X& rated_losses,
                                  const X& fixed_share) {
  using namespace formula;
  const X useful = power - fixed_share * rated_losses;
  const X root = sqrt(max(0.0, pow(rated_power, 2.0) + 4.0 * (1.0 - fixed_share) * rated_losses * useful));
  return rated_torque * 2.0 * useful / (rated_power + root);
}

/// Losses of a motor at its rating: L_n = P_n (1 / eta - 1) [W]. Definition.
template <class X>
[[nodiscard]] X rated_losses(const X& power, const X& efficiency) {
  return power * (1.0 / efficiency - 1.0);
}

/// The first of these for many currents of one motor. Precondition: checked nameplate, 0 <= no-load share < 1.
class TorqueFromCurrent {
 public:
  TorqueFromCurrent(const Nameplate& motor, double no_load_share);
  [[nodiscard]] double operator()(double current) const;  ///< [A] -> [N m]

 private:
  double rated_torque_, rated_current_, no_load_current_;
};

/// The second for many readings.
class TorqueFromPower {
 public:
  TorqueFromPower(const Nameplate& motor, double fixed_loss_share);
  [[nodiscard]] double operator()(double power) const;  ///< [W] -> [N m]

 private:
  double rated_power_, rated_torque_, losses_, fixed_share_;
};

}  // namespace lobewise::demand
