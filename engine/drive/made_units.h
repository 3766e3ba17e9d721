#pragma once
// Units of the last stage of a build as they come off the floor: each part off its place and size by what its range
// allows, each at some temperature between cold and warm. Theory: docs/theory/tolerances.md.

#include <cstdint>
#include <vector>

#include "engine/contact/elastic_disc.h"
#include "engine/drive/drive.h"
#include "engine/drive/running_play.h"
#include "engine/tolerance/unit_sampler.h"
#include "engine/uncertainty/propagation.h"

namespace lobewise::drive {

/// Exponent of the life of a line contact whose every point sees all loads in turn: damage is the sum of F^p over pairs
/// of lobe and roller. Source: docs/theory/life.md.
inline constexpr double kPairExponent = 4;
/// Independent scramblings, for the interval of a share.
inline constexpr int kScrambles = 16;

/// One unit without load.
struct UnitPlay {
  tolerance::PlayOfUnits::Play assembled;  ///< at the temperature of the drawing
  tolerance::PlayOfUnits::Play running;    ///< at its own
};
/// The same unit under the torque, over the stated crank angles and all discs.
struct UnitLoads {
  UnitPlay play;
  bool solved = false;      ///< an equilibrium was found at every angle
  double loaded = 0;        ///< lobes of a disc that carry, mean
  double force_ratio = 0;   ///< largest lobe force over the perfect unit's
  double damage_ratio = 0;  ///< sum of F^p over the perfect unit's
};

struct MadeOptions {
  int loaded = 128;                    ///< units under load, a multiple of kScrambles
  int unloaded = 2048;                 ///< units without load, a multiple of kScrambles
  int grade = tolerance::kUsualGrade;  ///< where the range says none
  bool sensitivities = true;
  std::uint64_t seed = 20261201;
};

struct MadeUnits {
  tolerance::Widths widths;
  double perfect_force = 0;             ///< largest lobe force of the perfect unit at the same angles [N]
  double perfect_loaded = 0;            ///< its lobes of a disc that carry, mean
  std::vector<UnitPlay> plays;          ///< block by block of one scrambling
  std::vector<UnitLoads> loads;         ///< the same
  uncertainty::Indices of_lost_motion;  ///< least over the angles, of the running unit, by source
  /// By source, its widths halved: lost motion that 95 of 100 assembled units stay below [rad], share of units whose
  /// play is gone when they run.
  std::vector<double> tightened_lost_motion, tightened_preloaded;
};

/// @param cold, warm  of disc and ring; a unit's temperatures lie between
/// Errors: tolerances outside the standard or as large as the parts; a perfect unit without equilibrium.
[[nodiscard]] Result<MadeUnits> made_units(const Drive& drive, const contact::ElasticDisc& disc,
                                           const BodyTemperatures& cold, const BodyTemperatures& warm,
                                           const MadeOptions& options);

/// Value below which a share of a list lies. Precondition: not empty.
[[nodiscard]] double quantile_of(std::vector<double> values, double share);

}  // namespace lobewise::drive
