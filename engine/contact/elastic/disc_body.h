#pragma once
// The disc's own flexibility: how far each contact point moves when a unit force presses on another.
#include <optional>

#include "engine/contact/elastic/loads.h"

namespace lobewise::contact::elastic {

/// How the bore is held while the flexibility is measured.
enum class BoreBase {
  frame,  ///< free body; displacements count from the mean frame of the bore (rigid motion that its wall makes on
          ///< average). Unit forces are balanced by a bilateral cosine pressure and a uniform shear on the bore, which
          ///< cancel as soon as the real forces are in equilibrium.
  glued,  ///< bore wall bonded to a rigid ring
};

/// Influence of unit normal forces (per thickness) on the contact points of one disc, times E: a pure number.
/// normal(i, j): motion of point i along its normal into the body, under a force on point j, without the local part
/// within the change-over depth when i = j; tangential(i, j): the same along the normal turned by +90 deg.
/// Columns are filled on demand (`DiscBody::fill`).
struct Flexibility {
  explicit Flexibility(std::vector<SurfacePoint> contact_points);
  [[nodiscard]] int size() const { return static_cast<int>(points.size()); }
  [[nodiscard]] double normal(int i, int j) const { return normals[static_cast<std::size_t>(j) * points.size() + i]; }
  [[nodiscard]] double tangential(int i, int j) const {
    return tangentials[static_cast<std::size_t>(j) * points.size() + i];
  }
  std::vector<SurfacePoint> points;
  std::vector<double> normals, tangentials;  ///< column by column
  std::vector<char> filled;                  ///< per column
};

/// Even places chi of the table's samples on the flank, by a Moebius map of the unit circle:
///   e^{i N chi} = (e^{i N t} - g) / (1 - g e^{i N t}),   g = (1 - sqrt(1 - K'^2)) / K'.
/// Direction and curvature of the flank as functions of t are singular at e^{iNt} = K'^{+-1}, close to the real axis,
/// which spoils interpolation in t; the map drives these points as far away as it can without bringing its own pole as
/// near. Source: derived, docs/theory/elastic.md.
class SampleSpacing {
 public:
  explicit SampleSpacing(const mechanism::Profile& profile);
  [[nodiscard]] double parameter(double chi) const;  ///< t [rad]
  [[nodiscard]] double inverse(double t) const;      ///< chi [rad]

 private:
  double lobes_, g_;
};

/// Sample loads of a table: per lobe, per output hole, round the bore (least numbers).
struct TableDensity {
  int per_lobe = 16;
  int per_hole = 32;
  int bore = 64;
};
/// As many as keep the forces within 0.4 % of the largest, mostly 0.1 %, against direct solutions
/// (docs/theory/elastic.md): samples on holes and bore no farther apart than 0.45 of the thinnest ligament beside them.
[[nodiscard]] TableDensity default_table(const DiscShape& shape);

/// One load of `DiscBody::field`.
struct PointForce {
  SurfacePoint at;
  double force = 0;       ///< per thickness, in any unit: results come in the same, over E
  double half_width = 0;  ///< a of the Hertz contact [m]
};
/// Displacement and stress on the corner nodes of the mesh, disc frame.
struct DiscField {
  std::vector<Vec2> points;               ///< [m]
  std::vector<std::array<int, 4>> cells;  ///< counter-clockwise
  std::vector<Vec2> displacement;         ///< E * displacement, unit of `PointForce::force`
  std::vector<double> mises;              ///< von Mises stress, unit of `PointForce::force` per metre
};

/// Immutable after `build`; cheap to move, expensive to build, may be shared.
class DiscBody {
 public:
  /// @param table  sample loads; none: every contact point is solved for itself (few crank angles, many lobes)
  /// Errors (model): disc cannot be meshed. Precondition: the stage and the bore passed their geometry checks.
  [[nodiscard]] static Result<DiscBody> build(const DiscShape& shape, PlaneMaterial material, BoreBase base,
                                              MeshDensity density, std::optional<TableDensity> table);

  /// Contact points in the disc frame: on the flank at profile parameter t [rad]; on the wall of hole j or on the bore
  /// at the absolute angle `angle` about its centre [rad].
  [[nodiscard]] SurfacePoint on_flank(double t) const;
  [[nodiscard]] SurfacePoint on_hole(int hole, double angle) const;
  [[nodiscard]] SurfacePoint on_bore(double angle) const;

  /// Fills the columns of the loads `columns` (those already filled are left alone).
  /// @param depth  change-over depth h of the local law [m]
  void fill(Flexibility& flexibility, std::span<const int> columns, double depth) const;

  /// Field under the given forces, which must balance (base `frame`).
  [[nodiscard]] DiscField field(std::span<const PointForce> forces) const;

  [[nodiscard]] bool tabulated() const { return !table_.empty(); }
  [[nodiscard]] const Mesh& mesh() const { return mesh_; }
  [[nodiscard]] std::size_t factor_entries() const { return body_.factor_entries(); }

 private:
  struct Frame {
    Vec2 shift;
    double turn = 0;
  };
  /// Six neighbouring samples and their weights.
  struct Stencil {
    std::array<int, 6> index;
    std::array<double, 6> weight;
  };
  DiscBody(const DiscShape& shape, PlaneMaterial material, BoreBase base, Mesh mesh);
  void tabulate(TableDensity density);
  [[nodiscard]] SingularField singular(const SurfacePoint& load) const;
  /// As `singular`, from the load's foot on the mesh.
  [[nodiscard]] SingularField singular_on_edge(const SurfacePoint& load) const;
  [[nodiscard]] Frame singular_frame(const SurfacePoint& load, const SingularField& field) const;
  /// Solves up to kBlock loads; leaves the smooth displacements in `block`, gives the frame of the whole displacement.
  std::array<Frame, kBlock> solve(std::span<const SurfacePoint> loads, NodeBlock& block) const;
  /// Base `glued`: forgets forces on the bore, then the smooth part must undo the singular one on the bore.
  void clear_bore(int load_case, NodeBlock& block) const;
  void hold_bore(const SingularField& field, double force, int load_case, NodeBlock& block) const;
  /// Base `frame`: balances the nodal forces by the patterns on the bore.
  void balance(int load_case, NodeBlock& block) const;
  /// Adds what the smooth displacement turns and shifts the bore's mean frame.
  void add_bore_motion(int load_case, const NodeBlock& block, Frame& frame) const;
  [[nodiscard]] Stencil stencil(const SurfacePoint& point) const;
  void fill_from_table(Flexibility& flexibility, std::span<const int> columns) const;
  void fill_by_solution(Flexibility& flexibility, std::span<const int> columns) const;

  DiscShape shape_;
  PlaneMaterial material_;
  BoreBase base_;
  mechanism::Profile profile_;
  FlankSpacing spacing_;
  SampleSpacing samples_;
  Mesh mesh_;
  BoundaryQuadrature quadrature_;
  std::array<std::vector<Vec2>, 3> patterns_;  ///< nodal forces on the bore loop: unit force x, y, unit moment
  PlaneBody body_;
  // Table: samples lie evenly on lobes, then hole by hole, then round the bore.
  int flank_samples_ = 0, hole_samples_ = 0, bore_samples_ = 0;
  double bore_start_ = 0;
  std::vector<double> table_;  ///< [load][response]{normal, tangential}
};

}  // namespace lobewise::contact::elastic
