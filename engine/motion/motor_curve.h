#pragma once
// Torque of a squirrel-cage motor over speed, from the four points its catalogue gives.
#include "engine/base/result.h"
#include "engine/base/working.h"

namespace lobewise::motion {

/// Speed of the pull-up (saddle) torque as a share of the breakdown speed.
inline constexpr Coefficient kPullUpShare{0.25, 0.10, 0.40, "common practice, no source"};

/// What a motor catalogue says; torques at rated voltage and frequency.
struct MotorCatalogue {
  double synchronous_speed = 0;    ///< [rad/s]
  double rated_torque = 0;         ///< [N m]
  double rated_speed = 0;          ///< below synchronous [rad/s]
  double locked_rotor_torque = 0;  ///< [N m]
  double pull_up_torque = 0;       ///< [N m]
  double breakdown_torque = 0;     ///< at least the rated torque [N m]
  double pull_up_share = kPullUpShare.nominal;
};

/// Slip of breakdown from the rated point: s_b = s_r (b + sqrt(b^2 - 1)), Kloss's formula solved for the rated point.
/// @param rated_slip       s_r, 0..1
/// @param breakdown_ratio  b = breakdown / rated torque, >= 1
/// Source: derived from M. Kloss, Archiv fuer Elektrotechnik 5 (1916) 59 (from memory).
[[nodiscard]] double breakdown_slip(double rated_slip, double breakdown_ratio);

/// Kloss's formula T = 2 T_b / (s/s_b + s_b/s), written so that s = 0 is no special case; negative above synchronous
/// speed (generating). @param slip s  @param breakdown_torque T_b [N m]  @param breakdown_slip s_b > 0
/// Checked by: tests/reference/motion/motor_test.cc.
[[nodiscard]] inline double kloss_torque(double slip, double breakdown_torque, double breakdown_slip) {
  return 2 * breakdown_torque * slip * breakdown_slip / (slip * slip + breakdown_slip * breakdown_slip);
}

/// Torque over speed, continuous with its slope (C1), exact at locked rotor, pull-up, breakdown and rated point.
/// With x = w / w_s, s = 1 - x, x_b = 1 - s_b, x_p = q x_b (q: pull_up_share):
///   x >= x_b         Kloss
///   x_p <= x < x_b   T_PU + (T_b - T_PU) u^2 (3 - 2 u), u = (x - x_p)/(x_b - x_p)
///   0 <= x < x_p     T_PU + (T_LR - T_PU) (1 - x/x_p)^2
///   x < 0            T_LR (plugging)
/// Mean torque of the air gap: the electrical transient of the first two or three periods (up to 5-7 times rated,
/// alternating with line frequency, from memory) is not in it.
/// Source: derived, docs/theory/motion.md. Checked by: tests/unit/motion/motor_curve_test.cc.
class MotorCurve {
 public:
  /// Errors (path: the field, under `motor`): not positive; rated not below synchronous speed; breakdown below rated or
  /// below pull-up torque; a breakdown slip of 1 or more (no such curve).
  [[nodiscard]] static Result<MotorCurve> from_catalogue(const MotorCatalogue& catalogue);

  /// @param speed  any sign [rad/s]  @returns torque at rated voltage [N m]; at voltage share U multiply with U^2.
  [[nodiscard]] double torque(double speed) const;

  /// Speed above breakdown at which it gives a torque at rated voltage: Kloss solved for the slip,
  ///   s = s_b T / (T_b + sqrt(T_b^2 - T^2))
  /// @param torque  0 to the breakdown torque [N m]  @returns [rad/s]
  [[nodiscard]] double speed_at(double torque) const;

  [[nodiscard]] const MotorCatalogue& catalogue() const { return catalogue_; }
  [[nodiscard]] double breakdown_slip() const { return breakdown_slip_; }
  [[nodiscard]] double breakdown_speed() const { return breakdown_at_ * catalogue_.synchronous_speed; }
  [[nodiscard]] double pull_up_speed() const { return pull_up_at_ * catalogue_.synchronous_speed; }

 private:
  explicit MotorCurve(const MotorCatalogue& catalogue);
  MotorCatalogue catalogue_;
  double breakdown_slip_;
  double breakdown_at_;  // x_b
  double pull_up_at_;    // x_p
};

/// Torque on an inverter: Kloss at the same slip speed whatever the frequency, held inside the inverter's limit.
/// @param field_speed  synchronous speed at the frequency of the moment, any sign [rad/s]
/// @param speed        of the motor [rad/s]
/// @param limit        on the torque in both directions > 0 [N m]
/// Source: derived, docs/theory/motion.md.
[[nodiscard]] double inverter_torque(const MotorCurve& motor, double field_speed, double speed, double limit);

}  // namespace lobewise::motion
