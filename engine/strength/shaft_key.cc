#include "engine/strength/shaft_key.h"

#include "engine/strength/shaft_terms.h"

namespace lobewise::strength {

KeyStress parallel_key(const ParallelKey& key, double torque, double diameter, int keys) {
  const double length = key.round_ends ? key.length - key.width : key.length;
  const double carried = torque / (keys == 2 ? kTwoKeys : 1.0);
  return {key_stress<double>(carried, diameter, key.height - key.shaft_depth, length),
          key_stress<double>(carried, diameter, key.shaft_depth, length),
          key_stress<double>(carried, diameter, key.width, length)};
}

}  // namespace lobewise::strength
