#include "engine/strength/bolts.h"

#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::strength {
namespace {

struct Thread {
  double diameter, pitch;  // [mm]
};
constexpr Thread kCoarse[] = {{5, 0.8},  {6, 1},  {8, 1.25}, {10, 1.5}, {12, 1.75}, {14, 2}, {16, 2},
                              {20, 2.5}, {24, 3}, {30, 3.5}, {36, 4},   {42, 4.5},  {48, 5}};

}  // namespace

double proof_stress(BoltClass bolt_class) {
  switch (bolt_class) {
    case BoltClass::c8_8:
      return 640e6;
    case BoltClass::c10_9:
      return 940e6;
    case BoltClass::c12_9:
      break;
  }
  return 1100e6;
}

std::optional<double> stress_area(double diameter) {
  for (const Thread& thread : kCoarse)
    if (std::abs(thread.diameter * 1e-3 - diameter) < 1e-6) {
      const double core = (thread.diameter - 0.9382 * thread.pitch) * 1e-3;
      return kPi / 4 * core * core;
    }
  return std::nullopt;
}

}  // namespace lobewise::strength
