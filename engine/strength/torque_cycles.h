#pragma once
// What many torque cycles do to a shaft, as one amplitude of unlimited number.

#include <vector>

#include "engine/base/working.h"

namespace lobewise::strength {

/// Fatigue strength at a thousand cycles over tensile strength. Shigley's chart falls from 0.9 at 480 MPa to 0.77 at
/// 1400 MPa (from memory).
inline constexpr Coefficient kThousandCycles{0.85, 0.77, 0.9, "[shigley] fatigue strength fraction f, from memory"};
/// Cycles at the knee of the Woehler line of steel.
inline constexpr double kKneeCycles = 1e6;  // Shigley, from memory

struct TorqueCycles {
  double amplitude = 0;  ///< half of the range >= 0 [N m]
  double count = 0;      ///< over the service life >= 0
};

/// Slope k of the Woehler line N S^k = const between 1000 and 10^6 cycles: k = 3 / lg(f S_ut / S_e).
/// @param S_ut  tensile strength [Pa]  @param S_e  endurance limit, 0 < S_e < f S_ut [Pa]
/// Source: Shigley, S_f = a N^b with b = -1/3 lg(f S_ut / S_e).
[[nodiscard]] double woehler_exponent(double S_ut, double S_e);

/// Amplitude that, 10^6 times, does what the cycles do together: (sum n_i T_i^k / 10^6)^(1/k) [N m].
/// Small cycles count as large ones do (elementary Miner), which is the safe side. Source: Palmgren-Miner.
/// Checked by: tests/unit/strength/torque_cycles_test.cc.
[[nodiscard]] double equivalent_amplitude(const std::vector<TorqueCycles>& cycles, double exponent);

}  // namespace lobewise::strength
