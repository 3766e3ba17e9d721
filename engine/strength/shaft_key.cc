#include "engine/strength/shaft_key.h"

namespace lobewise::strength {

KeyStress parallel_key(const ParallelKey& key, double torque, double diameter, int keys) {
  const double length = key.round_ends ? key.length - key.width : key.length;
  const double force = 2 * torque / (diameter * (keys == 2 ? kTwoKeys : 1.0));
  return {force / ((key.height - key.shaft_depth) * length), force / (key.shaft_depth * length),
          force / (key.width * length)};
}

}  // namespace lobewise::strength
