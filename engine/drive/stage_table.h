#pragma once
// Everything about the mesh of one stage that later questions need, at a few torques: forces, pressures, sliding, life.
// It depends on the geometry only, so it is built once per stage and shared by every duty block, temperature and sample
// of what is uncertain.

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

struct StageTable {
  std::string model;              ///< in words: which mesh model
  bool elastic = false;           ///< the discs bend
  std::vector<MeshLevel> levels;  ///< torque rising
  double lost_motion = 0;         ///< at +-3 % of the reference torque [rad]
  double turned_back = 0;         ///< rotation at -3 % of it [rad]
  double reference_torque = 0;    ///< [N m]
  /// Torque of each disc over the mean of all, the disc beside the flange first; empty: all alike. What is tabulated of
  /// one disc belongs to disc d at `disc_loads[d]` times the torque of the stage.
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
};

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

/// Torque that a table is built around: the next number of the series R20 (ISO 3), so that neighbouring torques share a
/// table and the result does not depend on what was asked before.
[[nodiscard]] double table_torque(double torque);

/// Solves the mesh of a stage at a few shares of a reference torque (5 % to 800 %), rigid discs with torque through the
/// output pins (level l2), log law: quick, for looking at many builds.
/// @param reference_torque  of the whole stage > 0 [N m]
/// Errors: the geometry cannot be solved, with its reason.
[[nodiscard]] Result<StageTable> rigid_stage_table(const range::Stage& stage, double reference_torque);

/// As `rigid_stage_table` at three torques and three crank angles, a tenth of the work: good to reject what is far too
/// small, for nothing else.
[[nodiscard]] Result<StageTable> rough_stage_table(const range::Stage& stage, double reference_torque);

/// Flexibility of the discs of a stage as its range describes them; expensive, worth keeping.
[[nodiscard]] Result<contact::ElasticDisc> elastic_disc_of(const range::Stage& stage);
/// As `rigid_stage_table`, with discs that bend on the rollers of their eccentric bearings (level l4).
[[nodiscard]] Result<StageTable> elastic_stage_table(const range::Stage& stage, const contact::ElasticDisc& disc,
                                                     double reference_torque);

}  // namespace lobewise::drive
