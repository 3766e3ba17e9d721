#pragma once
// Parallel key.
#include "engine/base/working.h"

namespace lobewise::strength {

/// Pressure a key, shaft or hub of steel stands [Pa].
inline constexpr Coefficient kKeyPressureSteel{120e6, 100e6, 150e6, "common practice, no source"};
/// Pressure at which a key of drawn steel begins to yield on its less deep flank [Pa]; hub and shaft of steel stand
/// half as much again and a fifth more, being held from behind.
inline constexpr Coefficient kKeyYield{420e6, 360e6, 500e6,
                                       "from memory: yield strength of drawn key steel C45; the "
                                       "method of DIN 6892 in outline"};
/// Share of that which a key bears pulsating 10^6 times: textbooks divide the yield strength by 1.5 to 3 under shocks.
inline constexpr Coefficient kKeyPulsating{0.5, 0.35, 0.67, "common practice, no source"};
/// Two keys count as this many.
inline constexpr double kTwoKeys = 1.5;  // common practice, no source

struct ParallelKey {
  double width = 0;        ///< b > 0 [m]
  double height = 0;       ///< h > t1 [m]
  double shaft_depth = 0;  ///< t1, depth of the keyway in the shaft > 0 [m]
  double length = 0;       ///< overall [m], > width with round ends
  bool round_ends = true;  ///< bearing length = length - width, else the whole length
};
struct KeyStress {
  double hub_pressure = 0;    ///< 2 T/(d (h - t1) l) [Pa]
  double shaft_pressure = 0;  ///< 2 T/(d t1 l) [Pa]
  double shear = 0;           ///< 2 T/(d b l) [Pa]
};
/// @param torque T >= 0 [N m]  @param diameter d > 0 of the shaft [m]  @param keys 1, or 2 that count as kTwoKeys
/// Source: mean pressures as in every machine-element text. Checked by: tests/reference/strength/shaft_test.cc.
[[nodiscard]] KeyStress parallel_key(const ParallelKey& key, double torque, double diameter, int keys = 1);

}  // namespace lobewise::strength
