#pragma once
// Twist of a drive over its torque as it is: free to start with, hardening as more lobes join. All at the OUTPUT shaft.
#include <vector>

#include "engine/base/formula/term.h"

namespace lobewise::motion {

/// One point: torque in driving direction > 0 [N m], twist since the flanks touched >= 0 [rad].
struct TwistPoint {
  double torque = 0;
  double twist = 0;
};

/// Straight between its points, from (0, 0) on, beyond the last along the last piece.
/// Precondition: at least one point; torque and twist rise strictly.
class Characteristic {
 public:
  Characteristic(double free_angle, std::vector<TwistPoint> points);

  /// From the middle of the play to the driving flank: half the free play [rad].
  [[nodiscard]] double free_angle() const { return free_angle_; }
  [[nodiscard]] double twist(double torque) const;  ///< torque >= 0
  /// Elastic energy at a torque, the integral of T over twist [J].
  [[nodiscard]] double energy(double torque) const;
  /// T/2 over the twist between half and full torque [N m/rad].
  [[nodiscard]] double stiffness(double torque) const;

  struct Knot {
    double torque, twist, energy;
  };
  /// (0, 0) and the points.
  [[nodiscard]] const std::vector<Knot>& knots() const { return knots_; }
  /// Where the piece begins that a torque lies on, one of `knots` and not the last.
  [[nodiscard]] const Knot& below(double torque) const;

 private:
  [[nodiscard]] double compliance_above(const Knot& knot) const;  // dx/dT of the piece that begins there
  double free_angle_;
  std::vector<Knot> knots_;
};

/// Spring of the integrator, k x + k3 x^3, that meets a characteristic at two torques; k3 = 0 and k through the larger
/// one where it softens in between.
struct CubicSpring {
  double linear = 0, cubic = 0;
};
/// @param low, high  0 < low < high [N m]
[[nodiscard]] CubicSpring cubic_through(const Characteristic& chain, double low, double high);

/// What holds the machine back while it starts [N m].
struct StartLoad {
  double breakaway = 0;  ///< torque at which it begins to move, >= running
  double running = 0;    ///< torque it then takes
};
/// Peak of a start of two inertias: the motor side crosses `play` freely, winds the chain up against a machine that
/// stands until `breakaway` is reached, then both move. By energy, without damping:
///   machine at rest   E(T) = T_m (g + x(T) - x_0) - (U(T) - U(T_0))
///   machine moving    E(T) = (J_r/J_1) E(T_b) + m (x(T) - x_b) - (U(T) - U(T_b)), m = (T_m J_2 + T_L J_1)/(J_1 + J_2)
/// the peak is where E vanishes; J_r = J_1 J_2/(J_1 + J_2). With a linear chain and no load it is `start_through_play`.
/// @param motor_torque  T_m > 0, constant [N m]
/// @param play          g >= 0, free angle to cross [rad]; a wound chain has none
/// @param wound         T_0 >= 0, torque in the chain at rest: a load held by a backstop [N m]
/// Source: derived, docs/theory/motion.md. Checked by: tests/unit/motion/characteristic_test.cc (closed forms,
/// integrator).
[[nodiscard]] double start_peak(const Characteristic& chain, double motor_torque, double play, double wound,
                                double inertia_1, double inertia_2, const StartLoad& load);

/// Peak of a jam that stops the output at once, chain wound by T_0 while the motor pulls T_m:
///   J w^2/2 + T_m (x - x_0) = U(T) - U(T_0)
/// With a linear chain and T_m = T_0 it is T_0 + w sqrt(k J).
/// @param inertia  J of the motor side > 0 [kg m2]  @param speed  w >= 0 [rad/s]
[[nodiscard]] double jam_at_once(const Characteristic& chain, double motor_torque, double wound, double inertia,
                                 double speed);

/// Peak on the other flank when the motor is reversed at full speed: the chain, wound by T_0, lets go, the motor side
/// crosses the play against a machine that only its own resistance slows down, and winds the chain up the other way. By
/// energy, without damping:
///   U(T_0) + m (x(T_0) + g + x(T)) = U(T), m = (T_m J_2 - T_L J_1)/(J_1 + J_2)
/// 0 when the machine slows down faster than the motor pulls.
/// @param motor_torque  T_m > 0 against the motion [N m]
/// @param wound         T_0 = T_L >= 0, working torque [N m]
/// Source: derived, docs/theory/motion.md. Checked by: tests/unit/motion/characteristic_test.cc (integrator).
[[nodiscard]] double reversal_peak(const Characteristic& chain, double motor_torque, double wound, double inertia_1,
                                   double inertia_2);

/// Peak of `jam_within` for a stiffness that is known, not limited by `jam_at_once`.
/// @param wound, motor_torque  T_0 and T_m >= T_0 [N m]
/// @param speed, inertia       w [rad/s] and J [kg m2] of the motor's side, at the output
/// @param stiffness            k > 0 [N m/rad]
/// @param time                 t_j > 0 [s]
template <class X>
[[nodiscard]] X jam_torque(const X& wound, const X& motor_torque, const X& speed, const X& inertia, const X& stiffness,
                           const X& time) {
  using namespace formula;
  const X phase = time * sqrt(stiffness / inertia), quake = X(2) * inertia * speed / time;
  return wound + (motor_torque - wound) * (X(1) + min(X(1), X(2) / phase)) +
         choose(
             less(phase, pi<X>()), [&] { return quake * sin(phase / X(2)); }, [&] { return quake; });
}
/// The stiffness counts up to this times T_0 at least.
inline constexpr double kLeastJam = 1.001;
/// Jam that brings the output to rest with constant deceleration within the angle a, t_j = 2 a/w, chain wound by T_0,
/// while the torque of the motor rises to T_m:
///   T_0 + (T_m - T_0)(1 + min(1, 2/(w_n t_j))) + quake,  at most `jam_at_once`
/// quake: `jam_within_angle` of shock.h without torque; w_n = sqrt(k/J), k the stiffness of this chain between T_0 and
/// the peak, found by iteration. The bracket is the largest overshoot of a torque that rises evenly over t_j.
/// Source: derived, docs/theory/motion.md. Checked by: tests/unit/motion/characteristic_test.cc.
/// @param motor_torque  T_m >= T_0
/// @param angle  a >= 0 [rad]; 0: jam_at_once
[[nodiscard]] double jam_within(const Characteristic& chain, double motor_torque, double wound, double inertia,
                                double speed, double angle);

}  // namespace lobewise::motion
