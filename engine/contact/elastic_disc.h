#pragma once
// Level 4: the stage with discs that bend. Contacts as in the rigid levels, plus the linear flexibility of the disc's
// body with its bore and output holes. Theory, checks and limits: docs/theory/elastic.md.
//
// Build one `ElasticDisc` per geometry (a few tenths of a second), keep it, share it; give every thread of work its own
// `ElasticSolver` (about a millisecond per crank angle).
#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "engine/base/result.h"
#include "engine/contact/equilibrium.h"
#include "engine/contact/hertz.h"
#include "engine/contact/mesh_model.h"
#include "engine/contact/mesh_solver.h"
#include "engine/contact/part_offsets.h"
#include "engine/mechanism/stage_geometry.h"
#include "engine/mechanism/vec2.h"

namespace lobewise::contact {

/// What holds the disc in its bore. The choice moves single lobe forces by up to 40 % of the largest
/// (docs/theory/elastic.md), so that `rollers` is the model for work.
enum class BoreModel {
  rollers,  ///< rollers of the eccentric bearing between the bore and a rigid inner race; the disc floats on them
  mean,     ///< the bore's mean position is held, its reaction a bilateral cosine pressure: quick look only
  glued,    ///< bore wall bonded to a rigid ring: for torque taken from the bore, and for checks
};

/// Rollers of the eccentric bearing that run in the bore itself (or in the ring pressed into it).
struct BoreRollers {
  int count = 0;
  double radius = 0;      ///< [m]
  double clearance = 0;   ///< radial, >= 0 [m]
  double phase = 0;       ///< angle of roller 0 at crank angle 0, ring frame [rad]
  double cage_speed = 0;  ///< turn of the cage per turn of the crank, see `cage_speed`
};
/// Cage of a bearing whose inner race turns with the crank and whose outer race is the bore, turning at -1/N of it,
/// rollers rolling without slip: (d_i - d_o / N) / (d_i + d_o), d_o = 2 rb, d_i = d_o - 4 r. Source: derived.
[[nodiscard]] double cage_speed(int lobes, double bore_radius, double roller_radius);

/// State of plane in which the disc's body deforms. The contacts themselves are always in plane strain.
enum class BodyState {
  plane_stress,  ///< faces free: a disc
  plane_strain,  ///< for comparison with plane finite elements
};

struct ElasticModel {
  mechanism::StageGeometry stage;
  Elastic material;            ///< of discs, rollers and pins
  double bore_radius = 0;      ///< rb: bore, or the raceway pressed into it [m]
  bool holes = true;           ///< the discs have their output holes
  bool torque_by_pins = true;  ///< the output pins take the torque; else it is taken from each disc as a couple
  BoreModel bore = BoreModel::rollers;
  BoreRollers rollers;  ///< for BoreModel::rollers
  double pin_core_radius =
      0;  ///< rc: rigid core of the output pin or sleeve; 0: sleeve pressed from two opposite sides [m]
  double ring_compliance = 0;  ///< c >= 0: anything linear in series with a ring contact [m/N]
  double pin_compliance = 0;   ///< the same for an output pin, e.g. its bending [m/N]
  BodyState body = BodyState::plane_stress;
  /// h: where the local plane-strain contact hands over to the body; 0: 0.04 b in plane stress, b in plane strain [m]
  double depth = 0;
  // Fineness; 0 takes the recommended value.
  int intervals_per_lobe = 0;
  int layers = 0;
  /// Influence table of the whole disc, or each contact solved for itself: better below about eight crank angles.
  bool table = true;
};

/// Everything that keeps the model from being solved; empty when it can be.
[[nodiscard]] Errors check_model(const ElasticModel& model, std::string_view path = "");

/// Depth that the model works with, see `ElasticModel::depth` [m].
[[nodiscard]] double working_depth(const ElasticModel& model);

/// Flexibility of the discs of one stage, and what else is solved once. Immutable; copies share the data.
class ElasticDisc {
 public:
  /// Errors: those of `check_model`; a disc that cannot be meshed.
  [[nodiscard]] static Result<ElasticDisc> build(const ElasticModel& model);
  [[nodiscard]] const ElasticModel& model() const;
  struct Data;
  [[nodiscard]] const Data& data() const { return *data_; }

 private:
  explicit ElasticDisc(std::shared_ptr<const Data> data) : data_(std::move(data)) {}
  std::shared_ptr<const Data> data_;
};

/// State of one disc. Vectors in the ring frame.
struct ElasticLoads {
  double crank_angle = 0;                ///< f of this disc [rad]
  DiscShift shift;                       ///< of the bore's mean frame from the ideal pose
  std::vector<double> ring_force;        ///< F by roller [N]
  std::vector<double> pin_force;         ///< Q by output pin, empty when the pins carry nothing [N]
  std::vector<double> bearing_force;     ///< of the bearing rollers on the disc, empty without rollers [N]
  std::vector<double> ring_pressure;     ///< Hertz peak pressure, lobe against ring roller [Pa]
  std::vector<double> ring_radius;       ///< 1 / sum of curvatures of each of them [m]
  std::vector<double> pin_pressure;      ///< hole against output pin [Pa]
  std::vector<double> bearing_pressure;  ///< the larger of bore and inner race [Pa]
  mechanism::Vec2 ring_resultant;        ///< sum F n [N]
  mechanism::Vec2 pin_resultant;         ///< sum Q v [N]
  double ring_moment = 0;                ///< sum F arm about the disc centre [Nm]
  [[nodiscard]] double torque() const { return -ring_moment; }
  /// Resultant of the bore on the disc, -(sum F n + sum Q v) [N].
  [[nodiscard]] mechanism::Vec2 bearing_resultant() const { return -(ring_resultant + pin_resultant); }
};

/// Stress and deflection over one disc for one solved pose, for drawing. Disc frame (lobe root on the x axis).
struct DiscPicture {
  std::vector<mechanism::Vec2> points;        ///< undeformed [m]
  std::vector<std::array<int, 4>> cells;      ///< quadrilaterals, counter-clockwise
  std::vector<mechanism::Vec2> displacement;  ///< elastic part, against the bore's mean frame [m]
  /// von Mises stress [Pa]. Right under a contact the half-plane stress is held at its value one half width away, which
  /// on the axis is the Hertz pressure.
  std::vector<double> mises;
};

/// Solves the equilibrium of one stage. Not shared between threads.
class ElasticSolver {
 public:
  explicit ElasticSolver(ElasticDisc disc);
  ~ElasticSolver();
  ElasticSolver(ElasticSolver&&) noexcept;
  ElasticSolver& operator=(ElasticSolver&&) noexcept;

  /// Equilibrium at crank angle phi under the torque T of the whole stage; signs as in MeshSolver. Starts from the last
  /// solution; the result does not depend on it beyond rounding.
  Outcome solve(double crank_angle, double torque);
  /// The parts of one unit as it was made, from here on; {} for a perfect one. They change the gaps; places of contact
  /// on the body, radii of curvature and seats stay those of the perfect unit, which their size moves by a few
  /// millionth parts. Precondition: `check_offsets` found nothing.
  void set_offsets(const PartOffsets& offsets);
  /// Drops the last solution.
  void forget();

  [[nodiscard]] const std::vector<ElasticLoads>& discs() const;
  /// Rotation error of the output [rad]; without pins the mean of the discs' rotations.
  [[nodiscard]] double output_rotation() const;
  /// Largest unbalanced force, moments divided by the pitch radius, as a share of T/Rw.
  [[nodiscard]] double residual() const;
  /// The last solution contact by contact, of one disc. Precondition: it converged.
  [[nodiscard]] Equilibrium equilibrium(int disc) const;
  /// Newton steps of the last solution.
  [[nodiscard]] int steps() const;
  /// Stress and deflection of one disc in the last solution.
  [[nodiscard]] DiscPicture picture(int disc) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Torsional stiffness between half and full torque, 0.5 T / (beta(T) - beta(T/2)) (common practice, no source)
/// [Nm/rad].
[[nodiscard]] Result<double> torsional_stiffness(ElasticSolver& solver, double crank_angle, double torque);
/// beta(+share T) - beta(-share T), share 3 % (common practice, no source) [rad].
[[nodiscard]] Result<double> lost_motion(ElasticSolver& solver, double crank_angle, double torque, double share = 0.03);

}  // namespace lobewise::contact
