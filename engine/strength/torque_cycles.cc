#include "engine/strength/torque_cycles.h"

#include <algorithm>
#include <cmath>

namespace lobewise::strength {

double woehler_exponent(double S_ut, double S_e) { return 3 / std::log10(kThousandCycles.nominal * S_ut / S_e); }

double equivalent_amplitude(const std::vector<TorqueCycles>& cycles, double exponent) {
  double largest = 0;
  for (const TorqueCycles& c : cycles) largest = std::max(largest, c.amplitude);
  if (largest == 0) return 0;
  double sum = 0;
  for (const TorqueCycles& c : cycles) sum += c.count * std::pow(c.amplitude / largest, exponent);
  return largest * std::pow(sum / kKneeCycles, 1 / exponent);
}

}  // namespace lobewise::strength
