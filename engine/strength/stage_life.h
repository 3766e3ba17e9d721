#pragma once
// Life of everything that rolls in one stage, over a duty. Theory and limits: docs/theory/life.md. Fatigue only: wear
// of flanks, sleeves and pockets is not modelled. SI; hours.
#include <span>
#include <vector>

#include "engine/contact/cycle_forces.h"
#include "engine/contact/film.h"
#include "engine/strength/bearing_life.h"
#include "engine/strength/line_life.h"
#include "engine/strength/system_life.h"

namespace lobewise::strength {

enum class Place { disc_flanks, ring_rollers, holes, output_sleeves, eccentric_bearings, shaft_bearing };

/// A bearing of the input or output shaft.
struct ShaftBearing {
  RollingBearing bearing;
  double speed_share = 1;  ///< relative speed of its rings over input speed: 1, 1/N …
};

/// What does not change from block to block.
struct StageLifeModel {
  mechanism::StageGeometry stage;
  contact::Elastic material;
  bool rollers_turn = true;  ///< ring rollers turn on their pins
  bool sleeves_turn = true;  ///< output pins carry turning sleeves
  double mesh_share = 1;     ///< crank against ring over input speed: 1, or N/Z with the carrier held
  RollingBearing eccentric;
  std::vector<ShaftBearing> shaft_bearings;
  double contamination = kContaminationSealed.nominal;  ///< e_C
  double reliability = 0.9;                             ///< S of the modified life
  double line_factor = kLineFactor.nominal;             ///< m
};

/// One block of the duty. Blocks without speed do no damage.
struct LifeBlock {
  double time_share = 1;                         ///< q; the rest to one is standstill
  double input_speed = 0;                        ///< [rad/s] >= 0
  const contact::CycleForces* forces = nullptr;  ///< of this block's torque
  std::span<const double> shaft_loads;           ///< P of each shaft bearing, in their order [N]
  double nu = 0;                                 ///< viscosity at this block's oil temperature [m2/s]
  contact::OilFilm oil;                          ///< the same oil for the films
};

/// Life of all equal parts of a place together.
struct PlaceLife {
  Place place = Place::disc_flanks;
  int index = 0;     ///< of the shaft bearing
  double count = 1;  ///< equal parts
  double weibull = kWeibullLine;
  double part_hours = 0;       ///< basic life of one part; infinite without load
  double basic_hours = 0;      ///< basic life of all of them together
  double modified_hours = 0;   ///< a_1 a_ISO applied block by block, all together
  double kappa = 0;            ///< smallest of the blocks; infinite without load
  double life_factor = 0;      ///< smallest a_ISO of the blocks; infinite without load
  bool outside_model = false;  ///< a block has kappa < 0.1: a_ISO = 0.1 stands there as a pessimistic bound
  bool overloaded = false;     ///< a bearing with P > 0.5 C in some block
  double load = 0;             ///< largest equivalent load of a bearing [N]; 0 for line contacts
  double pressure = 0;         ///< largest Hertz pressure of a line contact [Pa]; 0 for bearings
  double static_safety = 0;    ///< smallest: C_0/P or (4000 MPa/p)^2; infinite without load
};

struct StageLife {
  std::vector<PlaceLife> places;
  double basic_hours = 0;     ///< system: 90 % that every part survives, slopes by kind of contact
  double modified_hours = 0;  ///< the same with the modified lives (at 90 %), slope 1.5
};

/// Life over a duty, block by block (Palmgren-Miner). Preconditions: `check_geometry` found nothing; blocks not empty,
/// with forces and one shaft load per shaft bearing; nu > 0, oil set.
[[nodiscard]] StageLife stage_life(const StageLifeModel& model, std::span<const LifeBlock> blocks);

}  // namespace lobewise::strength
