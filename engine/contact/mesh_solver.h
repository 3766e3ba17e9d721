#pragma once
// Equilibrium of one stage at one crank angle, levels l1, l1f, l2, l3. Method: docs/theory/mesh.md.
#include <vector>

#include "engine/contact/contact_law.h"
#include "engine/contact/equilibrium.h"
#include "engine/contact/mesh_model.h"
#include "engine/contact/part_offsets.h"
#include "engine/contact/ring_gaps.h"

namespace lobewise::contact {

/// State of one disc; ring contacts by roller, pin contacts by output pin. Vectors in the ring frame.
struct DiscLoads {
  DiscLoads(int rollers, int pins);
  double crank_angle = 0;              ///< f of this disc [rad]
  mechanism::Vec2 crank{1, 0};         ///< e^{if}
  DiscShift shift;                     ///< deviation from the ideal pose
  RingGaps ring;                       ///< gaps, normals, arms, effective radii
  std::vector<double> ring_force;      ///< F >= 0 [N]
  std::vector<double> ring_stiffness;  ///< dF/d delta, 0 where unloaded [N/m]
  std::vector<double> pin_force;       ///< Q >= 0 [N]; all zero for l1, l1f
  std::vector<double> pin_gap;         ///< [m]; only l2, l3
  std::vector<double> pin_arm;         ///< of Q about the disc centre, of pins that carry [m]
  std::vector<double> output_arm;      ///< of Q about the axis of the output, of pins that carry [m]
  mechanism::Vec2 ring_resultant;      ///< sum F n [N]
  mechanism::Vec2 pin_resultant;       ///< sum Q v [N]
  double ring_moment = 0;              ///< sum F arm about the disc centre [Nm]

  /// Torque that the ring takes off this disc, -sum F arm [Nm].
  [[nodiscard]] double torque() const { return -ring_moment; }
  /// Force of the eccentric on the disc, -(sum F n + sum Q v) [N].
  [[nodiscard]] mechanism::Vec2 bearing_force() const { return -(ring_resultant + pin_resultant); }
};

enum class Outcome {
  converged,
  outside_law,     ///< a contact as wide as the log law's depth allows
  jumps_lobes,     ///< a disc left its place by half a lobe or by its eccentricity
  no_equilibrium,  ///< did not converge
};

/// Plain sentence for an outcome that is not `converged`.
[[nodiscard]] Error outcome_error(Outcome outcome, double torque);

/// Solves one stage. Holds all memory; nothing is allocated while solving. Not shared between threads.
class MeshSolver {
 public:
  /// Precondition: `check_model(model)` is empty.
  explicit MeshSolver(const MeshModel& model);

  /// The parts of one unit as it was made, from here on; {} for a perfect one. Drops the last solution. Precondition:
  /// `check_offsets` found nothing.
  void set_offsets(const PartOffsets& offsets);

  /// Equilibrium at crank angle phi under the output torque T of the whole stage (all discs); T > 0 resists a drive
  /// that turns counter-clockwise. l1, l1f: every disc takes T / n_d. Any T, also 0 and negative. Starts from the last
  /// solution when that was of the same level and sign of torque; the result does not depend on it beyond rounding.
  Outcome solve(Level level, double crank_angle, double torque);
  /// Gaps of all discs in the ideal pose, no load.
  void unload(double crank_angle);
  /// Rotation at which the first roller touches when disc `disc` is turned counter-clockwise (direction +1) or
  /// clockwise (-1) at its ideal centre; 0 in the ideal pose without clearance [rad]. Where rollers press in the ideal
  /// pose, the turn at which those that have a lever (a fifth of the longest at least) would just touch: it has the
  /// other sign when one of them presses. Source: derived.
  [[nodiscard]] double touch_rotation(double crank_angle, int disc, int direction);
  /// Drops the last solution.
  void forget() { warm_ = false; }

  [[nodiscard]] const MeshModel& model() const { return model_; }
  [[nodiscard]] const std::vector<DiscLoads>& discs() const { return discs_; }
  [[nodiscard]] double crank_angle() const { return crank_angle_; }
  /// beta_o: rotation error of the output (l2, l3) [rad].
  [[nodiscard]] double output_rotation() const { return output_rotation_; }
  /// Largest unbalanced force, moments divided by the pitch radius, as a share of T / Rw.
  [[nodiscard]] double residual() const { return residual_; }
  /// Peak Hertz pressure of a ring contact (0 where unloaded) [Pa].
  [[nodiscard]] double ring_pressure(const DiscLoads& disc, int roller) const;
  [[nodiscard]] double pin_pressure(double pin_force) const;
  /// The last solution contact by contact, of one disc. Preconditions: it converged; log law.
  [[nodiscard]] Equilibrium equilibrium(int disc) const;
  /// S of `mechanism::roller_mesh`, without trigonometric functions: roller centre to the disc's instant centre [m].
  [[nodiscard]] double instant_distance(const DiscLoads& disc, int roller) const;
  [[nodiscard]] double contact_modulus() const { return modulus_; }

 private:
  /// Linearised equilibrium of one disc in (ux, uy, beta): `k` step = `load`, `coupling` with beta_o.
  struct Block {
    double k[3][3];
    double coupling[3];
    double load[3];  ///< unbalanced force x, y and moment about the disc centre
    double step[3];
    double follow[3];  ///< change of `step` per unit of the step of beta_o, negative
    DiscShift start;   ///< where the line search began
    DiscShift kept;    ///< last solution on the way to another torque
  };
  /// Moment against a rotation, for the levels with one unknown.
  struct Probe {
    double moment = 0;
    double stiffness = 0;
    double touch = 0;  ///< rotation to the first contact and a little into it, in the direction of the torque
  };

  void set_crank(double crank_angle);
  void predict(double crank_angle);
  Outcome solve_cold(Level level, double torque);
  Outcome solve_from_above(Level level, double torque);
  void keep();
  void restore();
  Outcome solve_rotations(double torque, double tolerance, bool from_touch);
  Outcome solve_joint(Level level, double torque);
  Outcome finish(Level level, double torque);
  [[nodiscard]] Probe probe_ring(int disc, double rotation, double torque);
  [[nodiscard]] Probe probe_output(double rotation, double torque);
  void load_ring(DiscLoads& disc, RingGapFinder& finder);
  void load_pins(std::size_t disc);
  void evaluate(Level level, double torque);
  double find_step(Level level, double reach);
  double solve_linear(Level level, double floor);
  [[nodiscard]] double slope() const;
  void move(double share);
  [[nodiscard]] bool jumps_lobes() const;
  [[nodiscard]] double unbalance(double torque) const;

  MeshModel model_;
  ContactLaw ring_law_, pin_law_;
  double modulus_;
  double pin_radius_;
  std::vector<RingGapFinder> finders_;
  std::vector<DiscLoads> discs_;
  std::vector<Block> blocks_;
  std::vector<mechanism::Vec2> pin_start_;  ///< pin centres at crank angle 0
  std::vector<mechanism::Vec2> pin_;        ///< pin centres in the ideal pose
  mechanism::Vec2 output_{1, 0};            ///< e^{-i phi/N}: rotation of flange and holes in the ideal pose
  /// Of a pin and its hole from their places at crank angle 0, and what their radii do to the gap.
  struct PinOffset {
    mechanism::Vec2 pin, hole;  ///< [m]
    double clearance = 0;       ///< [m]
  };
  std::vector<std::vector<PinOffset>> pin_offsets_;  ///< by disc, empty for a perfect unit
  double largest_offset_ = 0;                        ///< [m]
  double crank_angle_ = 0;
  double output_rotation_ = 0;
  double output_stiffness_ = 0, output_load_ = 0, output_step_ = 0, output_start_ = 0, output_kept_ = 0;
  double reach_ = 0;  ///< largest useful change of a pose in one step [m]
  double residual_ = 0;

  bool warm_ = false;
  Level warm_level_ = Level::l1;
  double warm_torque_ = 0;
};

}  // namespace lobewise::contact
