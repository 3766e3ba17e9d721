#pragma once
// A rolling bearing on the blocks of a duty.

#include <vector>

#include "engine/drive/coefficients.h"
#include "engine/strength/bearing_life.h"

namespace lobewise::drive {

struct DutyBearing {
  struct Block {
    double time_share = 0;
    double speed = 0;  ///< relative, of its rings [rad/s]
    double kappa = 0;
  };
  strength::RollingBearing bearing;  ///< capacity as its coefficient says
  double contamination = 0;          ///< e_C
  std::vector<Block> blocks;

  /// @param nu  viscosity of the lubricant [m2/s]
  DutyBearing(const strength::RollingBearing& stated, double e_C, double nu, const Coefficients& c);
  void add(double time_share, double speed);

  /// p of L10 = (C/P)^p.
  [[nodiscard]] double exponent() const;
  [[nodiscard]] strength::LifeFactor factor(std::size_t block, double load) const;
  /// Share of its basic and of its modified life, 90 %, that an hour of the duty takes in a block [1/h].
  [[nodiscard]] double basic_damage(std::size_t block, double load) const;
  [[nodiscard]] double damage(std::size_t block, double load) const;

 private:
  double nu_;
};

}  // namespace lobewise::drive
