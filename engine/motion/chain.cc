#include "engine/motion/chain.h"

#include <cmath>

namespace lobewise::motion {

double damping_from_ratio(double ratio, double stiffness, double inertia_1, double inertia_2) {
  return 2 * ratio * std::sqrt(stiffness * inertia_1 * inertia_2 / (inertia_1 + inertia_2));
}

}  // namespace lobewise::motion
