#pragma once
// Everything about the mesh of one stage that later questions need, from idling to a jam: forces, pressures, sliding,
// life. It depends on the geometry only, so it is built once per stage and shared by every machine, duty block,
// temperature and sample of what is uncertain.

#include <memory>
#include <string>
#include <vector>

#include "engine/contact/cycle_forces.h"
#include "engine/contact/elastic_disc.h"
#include "engine/contact/equilibrium.h"
#include "engine/losses/mesh_loss.h"
#include "engine/range/range.h"

namespace lobewise::drive {

/// The mesh under one torque. Per disc unless said otherwise.
struct MeshLevel {
  double torque = 0;                                       ///< of the whole stage [N m]
  contact::CycleForces forces;                             ///< one disc over one ring pitch
  double lobe_force = 0;                                   ///< largest [N]
  double lobe_pressure = 0;                                ///< largest Hertz pressure of lobe and ring roller [Pa]
  double loaded_min = 0, loaded_mean = 0, loaded_max = 0;  ///< ring rollers that carry
  double share_largest = 0;                                ///< largest force over the sum of forces, worst crank angle
  double pin_force = 0;                                    ///< largest [N]
  double pin_pressure = 0;                                 ///< largest Hertz pressure of output roller and hole [Pa]
  double bearing_equivalent = 0;  ///< of the eccentric bearing's force over the cycle, exponent 10/3 [N]
  double bearing_largest = 0;     ///< [N]
  double rotation = 0;            ///< output behind the ideal, mean over the pitch [rad]
  losses::SlidingSums lobe_sliding, pin_sliding;
  double lobe_life = 0;                   ///< one disc, millions of input revolutions
  double roller_life = 0;                 ///< one ring roller under one disc
  double hole_life = 0, sleeve_life = 0;  ///< one each
  contact::HardContact hardest;           ///< lobe contact of the largest pressure
  /// Evidence of the figures above, for their working: the crank angle of the largest lobe force as it was solved, what
  /// makes the largest pressure, and the rollers that carry at every crank angle.
  contact::Equilibrium at_largest;
  double pressed_force = 0, pressed_radius = 0;  ///< [N], [m]
  std::vector<double> loaded;
};

/// Fills what follows from `forces`: loads of the eccentric bearing, sliding, lives of one part each.
/// @param level  with its forces; no lives without load (infinite)
void complete(const range::Stage& stage, MeshLevel& level);

/// How far the output stands behind the ideal under a small torque, and under the same torque the other way.
struct Reversal {
  double torque = 0;                 ///< > 0 [N m]
  double forward = 0, backward = 0;  ///< [rad]
};

/// Copies share what they hold.
class Levels {
 public:
  Levels(std::vector<MeshLevel> list = {}) : list_(std::make_shared<const std::vector<MeshLevel>>(std::move(list))) {}
  using Iterator = std::vector<MeshLevel>::const_iterator;
  [[nodiscard]] Iterator begin() const { return list_->begin(); }
  [[nodiscard]] Iterator end() const { return list_->end(); }
  [[nodiscard]] const MeshLevel& front() const { return list_->front(); }
  [[nodiscard]] const MeshLevel& back() const { return list_->back(); }
  [[nodiscard]] const MeshLevel& operator[](std::size_t i) const { return (*list_)[i]; }
  [[nodiscard]] std::size_t size() const { return list_->size(); }

 private:
  std::shared_ptr<const std::vector<MeshLevel>> list_;
};

struct StageTable {
  std::string model;                ///< in words: which mesh model
  bool elastic = false;             ///< the discs bend
  Levels levels;                    ///< torque rising
  std::vector<Reversal> reversals;  ///< torque rising; crank angle kReversalAngle
  double reference_torque = 0;      ///< `reference_torque` of the stage [N m]
  /// Torque of each disc over the mean of all at the torque of `shared_at`, until then where stages are rated, at two
  /// fifths of the reference torque; the disc beside the flange first; empty: all alike. What is tabulated of one disc
  /// belongs to disc d at `disc_loads[d]` times the torque of the stage.
  std::vector<double> disc_loads;

  /// Torque of the disc that carries most over the mean: its peaks are those at so many times the torque.
  [[nodiscard]] double hardest_disc() const;
  /// Linear in torque between the levels; beyond the last one along the last piece, below the first one through zero.
  [[nodiscard]] double at(double torque, double MeshLevel::*member) const;
  /// Pressures grow with the root of the load: interpolated as squares.
  [[nodiscard]] double pressure_at(double torque, double MeshLevel::*member) const;
  /// Torque at which a figure that rises with it reaches a value, by the same pieces; infinite where it stops rising.
  [[nodiscard]] double torque_at(double value, double MeshLevel::*member) const;
  [[nodiscard]] double torque_at_pressure(double value, double MeshLevel::*member) const;
  /// Torque up to which the mesh was solved [N m].
  [[nodiscard]] double solved_to() const { return levels.back().torque; }
  /// Lives fall with a power of the load: interpolated as logarithms. Infinite at zero torque.
  [[nodiscard]] double life_at(double torque, double MeshLevel::*member) const;
  /// The two levels around a torque, and the share of the upper one.
  struct Between {
    const MeshLevel* below;
    const MeshLevel* above;
    double share;
  };
  [[nodiscard]] Between between(double torque) const;
  /// Torsional stiffness of the stage at its output between half and full `torque` [N m/rad].
  [[nodiscard]] double stiffness(double torque) const;
  /// How far the output stands behind the ideal under `torque` of either sign, |torque| > 0: linear between the
  /// reversals and beyond them [rad].
  [[nodiscard]] double turned(double torque) const;
  /// Between +-kLostMotionShare of `torque` > 0 [rad].
  [[nodiscard]] double lost_motion(double torque) const;
};

/// Lost motion is what lies between so many shares of the torque either way. Common practice, no source.
inline constexpr double kLostMotionShare = 0.03;

/// From the flange to the middle of a disc, the one beside the flange first [m].
[[nodiscard]] double disc_lever(const range::Stage& stage, int disc);
/// An output pin under the disc that bends it most, each with its own force and lever.
struct PinLoad {
  int disc = 0;
  double force = 0;   ///< [N]
  double lever = 0;   ///< [m]
  double stress = 0;  ///< [Pa]
};
/// @param torque  of the whole stage [N m]
[[nodiscard]] PinLoad hardest_pin(const range::Stage& stage, const StageTable& table, double torque);

/// Torque around which the mesh of a stage is solved: its hardest lobe contact would reach
/// strength::kFatigueLimitPressure if every contact were equally stiff (contact::equal_stiffness_cycle), of the whole
/// stage [N m].
[[nodiscard]] double reference_torque(const range::Stage& stage);

/// Solves the mesh of a stage at shares of its reference torque from 1 % to 450 %, rigid discs with torque through the
/// output pins (level l2), log law: quick, for looking at many builds.
/// Errors: the geometry cannot be solved, with its reason.
[[nodiscard]] Result<StageTable> rigid_stage_table(const range::Stage& stage);

/// As `rigid_stage_table` at four torques and three crank angles, a tenth of the work: to compare two geometries.
[[nodiscard]] Result<StageTable> rough_stage_table(const range::Stage& stage);

/// The table with the discs sharing as they do at `torque` > 0 of the stage: the stiffer the mesh, the less alike.
[[nodiscard]] std::shared_ptr<const StageTable> shared_at(const range::Stage& stage, const StageTable& table,
                                                          double torque);

/// Flexibility of the discs of a stage as its range describes them; expensive.
[[nodiscard]] Result<contact::ElasticDisc> elastic_disc_of(const range::Stage& stage);
/// As `rigid_stage_table`, with discs that bend on the rollers of their eccentric bearings (level l4).
[[nodiscard]] Result<StageTable> elastic_stage_table(const range::Stage& stage, const contact::ElasticDisc& disc);

/// The mesh solved at one torque > 0 of the stage, which the tables interpolate. Errors: it cannot be solved there.
[[nodiscard]] Result<MeshLevel> rigid_level(const range::Stage& stage, double torque);
[[nodiscard]] Result<MeshLevel> elastic_level(const range::Stage& stage, const contact::ElasticDisc& disc,
                                              double torque);

}  // namespace lobewise::drive
